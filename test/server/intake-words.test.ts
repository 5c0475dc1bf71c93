/** What is said of a log file in the words of the command line is asked of the book's own reading, each word by itself. */
import { afterEach, expect, it, vi } from "vitest";
import { readColumnChoice, readStart, readZone } from "../../src/log/index.ts";
import { intakeOf } from "../../src/server/intake-of-book.ts";

const asked = vi.hoisted(() => ({ preview: [] as unknown[][], read: [] as unknown[][] }));
vi.mock("../../src/book/index.ts", async (original) => ({
  ...(await original<typeof import("../../src/book/index.ts")>()),
  previewLog: (...given: unknown[]) => asked.preview.push(given),
  importLog: (...given: unknown[]) => asked.read.push(given),
}));
afterEach(() => {
  asked.preview.length = 0;
  asked.read.length = 0;
});

const file = { path: "/sent/a.csv", name: "a.csv" } as never;
const book = { of: "the computer" } as never;
const intake = intakeOf(book, (by) => ({ of: by }) as never);
const choices = (told: object) => {
  intake.preview(file, told);
  return asked.preview.at(-1)![1];
};

it("each word alone", () => {
  expect(choices({})).toEqual({});
  for (const told of [
    { delimiter: ";" },
    { decimal: "," },
    { rate: 10 },
    { loads: "sum" },
    { loadPath: "a.load" },
    { sources: ["gps"] },
    { context: "vessels.self" },
  ])
    expect(choices(told)).toEqual(told);
  expect(choices({ zone: "+02:00" })).toEqual({ zone: readZone("+02:00", "x") });
  expect(choices({ columns: ["time=1", "load=2:kN"] })).toEqual({
    columns: [readColumnChoice("time=1", "x"), readColumnChoice("load=2:kN", "x")],
  });
  expect(choices({ start: "2031-05-17", zone: "+02:00" })).toEqual({
    zone: readZone("+02:00", "x"),
    start: readStart("2031-05-17", "x", readZone("+02:00", "x")),
  });
  expect(() => choices({ columns: ["time=1", "load"] })).toThrow("told.columns.1");
  expect(() => choices({ zone: "noon" })).toThrow("told.zone");
});

it("is read into the book of whoever sent it, under the file's name or its own, and can be watched and stopped", () => {
  const signal = new AbortController().signal;
  const progress = () => {};
  void intake.read(file, { told: { rate: 5 }, pull: "p" }, "phone" as never, { signal, progress });
  expect(asked.read[0]).toEqual([
    { of: "phone" },
    "/sent/a.csv",
    { pull: "p", name: "a.csv", told: { rate: 5 }, signal, onProgress: progress },
  ]);
  void intake.read(file, { told: {}, name: "Load", again: true }, "phone" as never, { signal, progress });
  expect(asked.read[1]![2]).toMatchObject({ name: "Load", again: true });
  expect(intake.preview(file, {})).toBe(1);
  expect(asked.preview[0]![2]).toBe(book);
});
