import { afterAll, describe, expect, it } from "vitest";
import type { ViewHead } from "../../src/server/log-view-body.ts";
import { benchWithBook, refused } from "./in-process.ts";

const { ask, send, newId, book } = benchWithBook();
afterAll(() => book.close());

const START = Date.UTC(2031, 4, 3, 9) / 1000;
const ROWS = 100_000;
const channels = [
  { name: "load", quantity: "force", unit: "N", precision: "double" },
  { name: "silent", quantity: "force", unit: "N", precision: "single" },
] as const;
const log = book.logs.open({ name: "A log", channels: [...channels] }).log;
const times = Float64Array.from({ length: ROWS }, (_, i) => START + i / 100);
const load = Float64Array.from({ length: ROWS }, (_, i) => 1000 + 500 * Math.sin(i / 3000));
// One reading of a hundred thousand: no resolution may lose it.
load[54_321] = 9_999.5;
load[54_322] = Number.NaN;
book.logs.append(log, { times, columns: { load } }, { from: 0, to: ROWS });
book.logs.finish(log);

/** Reads a view as the browser does: from the bytes, by what the header tells of them. */
async function view(query: string) {
  const answer = await ask(`/api/1/logs/${log}/view${query}`);
  expect([answer.status, answer.headers.get("content-type")]).toEqual([200, "application/octet-stream"]);
  const head = JSON.parse(answer.headers.get("rodebench-view")!) as ViewHead;
  const bytes = await answer.arrayBuffer();
  expect(bytes.byteLength).toBe(8 * head.rows * head.columns.length);
  const column = (part: string, name = "") => {
    const at = head.columns.findIndex((one) => one.part === part && one.name === name);
    expect(at, `${part} ${name}`).toBeGreaterThanOrEqual(0);
    return new Float64Array(bytes, 8 * head.rows * at, head.rows);
  };
  return { head, column };
}

describe("a log", () => {
  it("is listed with what it holds", async () => {
    const { logs } = (await (await ask("/api/1/logs")).json()) as { logs: { id: string; content: unknown }[] };
    expect(logs.find((one) => one.id === log)).toMatchObject({
      id: log,
      content: { rows: ROWS, from_s: START, to_s: START + (ROWS - 1) / 100, finished: true },
    });
  });
  it("tells of itself the veers that another log of its pull was marked with", async () => {
    const pull = book.add("pull", {});
    book.edit("log", log, { pull });
    const beside = book.logs.open({ name: "Typed", channels: [...channels], pull }).log;
    book.logs.append(beside, { times: Float64Array.of(START, START + 100), columns: {} }, { from: 0, to: 2 });
    book.logs.finish(beside);
    book.add("mark", { log: beside, kind: "step", from_s: START + 60, origin: "by hand", detail: { paidOut_m: 41 } });
    const told = async (id: string) =>
      ((await (await ask(`/api/1/logs/${id}`)).json()) as { veersBeside: object[] }).veersBeside;
    expect(await told(log)).toEqual([{ from: START + 60, paidOut: 41 }]);
    expect(await told(beside)).toEqual([]);
  });
  it("whole, comes as bands that keep the one high reading", async () => {
    const { head, column } = await view("?points=500");
    expect(head.kind).toBe("bands");
    // Twice as many where the bands are coarse (the book's own word on `points`).
    expect(head.rows).toBeLessThanOrEqual(1000);
    expect(head.rows).toBeGreaterThan(100);
    expect(Math.max(...column("max", "load"))).toBe(9_999.5);
    expect(column("min", "silent").every(Number.isNaN)).toBe(true);
    expect([column("from")[0], column("to").at(-1)]).toEqual([times[0], times[ROWS - 1]]);
  });
  it("near the high reading, comes reading by reading, bit for bit", async () => {
    const [from, to] = [times[54_300]!, times[54_350]!];
    const { head, column } = await view(`?from_s=${from}&to_s=${to}&points=2000&channels=load`);
    expect([head.kind, head.rows, head.columns.length]).toEqual(["readings", 51, 2]);
    expect(column("t")).toEqual(times.slice(54_300, 54_351));
    expect(column("value", "load")).toEqual(load.slice(54_300, 54_351));
  });
  it("outside its time is empty, not wrong", async () => {
    const { head } = await view("?from_s=0&to_s=10");
    expect(head.rows).toBe(0);
  });
  it.each([
    ["?channels=depth", /^400 \?channels: "depth"; channels of this log: load, silent/],
    ["?points=1", /^400 \?.points/],
    ["?points=1e9", /^400 \?.points/],
    ["?from_s=noon", /^400 \?.from_s/],
    ["?colour=red", /^400 \?/],
  ])("asked for %s is refused", async (query, line) => {
    expect(await refused(await ask(`/api/1/logs/${log}/view${query}`))).toMatch(line);
  });
  it("that is none is missing", async () => {
    expect(await refused(await ask(`/api/1/logs/${newId()}/view`))).toMatch(/^404 log/);
    expect(await refused(await ask(`/api/1/logs/..%2f..%2fetc`))).toMatch(/^400 address/);
  });
  it("carries marks, and a correction stands beside the automatic mark", async () => {
    const [automatic, byHand] = [newId(), newId()];
    const mark = (id: string, set: object) => send("PUT", `/api/1/records/mark/${id}`, { expected: null, set });
    await mark(automatic, { log, kind: "plateau", from_s: START + 5, to_s: START + 30, origin: "automatic" });
    await mark(byHand, {
      log,
      kind: "plateau",
      from_s: START + 6,
      to_s: START + 29,
      origin: "by hand",
      corrects: automatic,
    });
    const { marks } = (await (await ask(`/api/1/logs/${log}`)).json()) as {
      marks: { id: string; corrects: string | null }[];
    };
    expect(marks.map(({ id, corrects }) => ({ id, corrects }))).toEqual([
      { id: automatic, corrects: null },
      { id: byHand, corrects: automatic },
    ]);
  });
});

describe("marks found on a log", () => {
  // Slack, a pull held at 3 kN for a minute, slack again; a little noise, always the same.
  const rate = 20;
  const held = Float64Array.from({ length: 180 * rate }, (_, i) => {
    const t = i / rate;
    const rise = Math.min(1, Math.max(0, (t - 30) / 10), Math.max(0, (150 - t) / 10));
    return 3_000 * rise + 8 * Math.sin(i * 12.9898) * Math.cos(i * 78.233);
  });
  const pull = book.logs.open({
    name: "A pull",
    channels: [{ name: "load", quantity: "load", unit: "N", precision: "double" }],
  }).log;
  const stamps = Float64Array.from(held, (_, i) => START + 5_000 + i / rate);
  book.logs.append(pull, { times: stamps, columns: { load: held } }, { from: 0, to: held.length });
  book.logs.finish(pull);
  const find = (log: string, body: object) => send("POST", `/api/1/logs/${log}/automatic-marks`, body);
  interface Marks {
    transaction: string | null;
    marks: { id: string; kind: string; from_s: number; to_s: number; origin: string; detail: { value: number } }[];
  }

  it("are written as one transaction, once; one put aside does not come back", async () => {
    const found = (await (await find(pull, { readAt: "bow" })).json()) as Marks;
    const plateau = found.marks.find((mark) => mark.kind === "plateau" && mark.detail.value > 2_000)!;
    expect(plateau.origin).toBe("automatic");
    // Held from 40 s to 140 s at 3000 N by construction; the noise of a reading is below 8 N.
    expect(Math.abs(plateau.detail.value - 3_000)).toBeLessThan(8);
    expect(plateau.from_s - START - 5_000).toBeGreaterThan(35);
    expect(plateau.to_s - START - 5_000).toBeLessThan(145);
    expect(await (await find(pull, { readAt: "bow" })).json()).toEqual({ transaction: null, marks: [] });
    await send("PUT", `/api/1/records/mark/${plateau.id}/hidden`, { hidden: true });
    expect(await (await find(pull, { readAt: "bow" })).json()).toEqual({ transaction: null, marks: [] });
    await send("POST", "/api/1/undo", { transaction: found.transaction });
    const { marks } = (await (await ask(`/api/1/logs/${pull}`)).json()) as Marks;
    expect(marks).toEqual([]);
  });
  it.each([
    [{}, /^400 body\.readAt/],
    [{ readAt: "mast" }, /^400 body\.readAt/],
    [{ readAt: "bow", from_s: 0, to_s: 1 }, /^400 stretch: no readings/],
    [{ readAt: "bow", channel: "depth" }, /^400 channel: "depth"; one of load/],
  ])("asked with %j are refused", async (body, line) => {
    expect(await refused(await find(pull, body))).toMatch(line);
  });
  it("on a log with two loads ask which", async () => {
    expect(await refused(await find(log, { readAt: "bow" }))).toMatch(/^400 channel: ; one of load, silent/);
  });
});
