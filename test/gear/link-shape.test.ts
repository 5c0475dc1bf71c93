/** What a user states of a link is taken, each figure for itself; what is not stated is the usual short link. */
import { describe, expect, it } from "vitest";
import { readCatalogue } from "../../src/gear/index.ts";

const chain = (fields: string) =>
  readCatalogue(
    `format: rodebench/gear@1\nrows:\n  - chain: { grade: 30, massPerLength: 2.3 kg/m, ${fields} }\n`,
    "mine.yaml",
  ).rows[0]!;
const stiffness = (fields: string): number => {
  const row = chain(`size: 10 mm, ${fields}`);
  if (row.kind !== "chain" || row.stretch.kind !== "linear") throw new Error("a chain is straight");
  return row.stretch.stiffness;
};

describe("a link", () => {
  it("of a pitch alone keeps the usual width, of a width alone the usual pitch", () => {
    const usual = stiffness("spread: 3 %");
    const [longer, wider, both] = [
      stiffness("pitch: 40 mm"),
      stiffness("insideWidth: 15 mm"),
      stiffness("pitch: 40 mm, insideWidth: 15 mm"),
    ];
    // A wider link bends more; a longer one has more of straight leg to it.
    expect(wider).toBeLessThan(usual);
    expect(longer).not.toBe(usual);
    expect(both).not.toBe(longer);
    expect(both).not.toBe(wider);
  });
  it("is refused where it has no room for the bar, or is no link", () => {
    expect(() => chain("size: 10 mm, insideWidth: 10 mm")).toThrow(
      "more than the bar, and less than ten times, is expected",
    );
    expect(() => chain("size: 10 mm, insideWidth: 100 mm, pitch: 150 mm")).toThrow("less than ten times");
    expect(() => chain("size: 10 mm, insideWidth: 15 mm, pitch: 15 mm")).toThrow(
      "more than the inside width, and less than twenty bars",
    );
    expect(() => chain("size: 10 mm, pitch: 200 mm")).toThrow("less than twenty bars");
    expect(() => chain("size: 10 mm, bar: 12 mm, insideWidth: 11 mm")).toThrow("more than the bar");
  });
});

it("a load told as a share is of the row's other load, never of itself", () => {
  const own = (fields: string) => () => chain(`size: 10 mm, ${fields}`);
  expect(own("workingLoad: { share: 25 %, of: workingLoad }")).toThrow("another load of this row");
  expect(own("breakingLoad: { share: 4, of: breakingLoad }")).toThrow("another load of this row");
  expect(own("workingLoad: { share: 25 %, of: breakingLoad }")).toThrow("another load of this row");
  expect(own("workingLoad: [12 kN, { share: 25 %, of: workingLoad }]")).toThrow("another load of this row");
});

describe("a diameter", () => {
  it.each(["0.5 mm", "200 mm"])("of %s is still gear", (size) => {
    expect(chain(`size: ${size}`).kind).toBe("chain");
  });
  it.each(["0.49 mm", "201 mm", "0 mm", "-10 mm"])("of %s is none", (size) => {
    expect(() => chain(`size: ${size}`)).toThrow("a diameter between 0.5 mm and 200 mm is expected");
  });
});
