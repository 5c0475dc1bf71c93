import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { pack, packed } from "../../scripts/pack-design-loads.ts";
import { designLoadsFor, designLoadTables, disagreements, readDesignLoads } from "../../src/sea/index.ts";
import { kn, lbf } from "./demo.ts";

const ft = 0.3048;

describe("published design loads", () => {
  it("are packed as the data file has them", () => {
    expect(readFileSync(packed, "utf8")).toBe(pack());
  });

  it("each carry a source, and whether it was seen", () => {
    for (const { source, standing } of designLoadTables) {
      expect(source.length).toBeGreaterThan(20);
      expect(["seen", "recalled"]).toContain(standing);
    }
  });

  it("at 30 kn are 4 times those at 15 kn, but for 25 ft at 3.92: the square law, seen in both tables", () => {
    let rows = 0;
    for (const { rows: each } of designLoadTables) {
      for (const { length, loads } of each) {
        const at = (wind: number): number | undefined => loads.find((l) => Math.abs(l.wind - wind * kn) < 1e-9)?.load;
        const [slow, fast] = [at(15), at(30)];
        if (slow === undefined || fast === undefined) continue;
        rows++;
        expect(fast / slow).toBeCloseTo(Math.abs(length - 25 * ft) < 1e-9 ? 3.92 : 4, 9);
      }
    }
    expect(rows).toBe(11);
  });

  it("give a boat the row it falls in, never anything between rows", () => {
    const row = (length: number, beam = 3): (number | undefined)[] =>
      designLoadTables.map((table) => designLoadsFor({ length: length * ft, beam }, [table])[0]?.row.length);
    expect(row(38).map((l) => l && Math.round(l / ft))).toEqual([40, 40, undefined]);
    expect(row(40).map((l) => l && Math.round(l / ft))).toEqual([40, 40, undefined]);
    expect(row(31, 12 * ft).map((l) => l && Math.round(l / ft))).toEqual([40, 35, 32]);
    expect(row(31, 13 * ft)[2]).toBeUndefined();
    expect(row(55).map((l) => l && Math.round(l / ft))).toEqual([undefined, 60, undefined]);
    expect(row(70)).toEqual([undefined, undefined, undefined]);
    expect(row(12)).toEqual([undefined, undefined, undefined]);
  });

  it("contradict each other, and that is kept and said", () => {
    const found = disagreements(designLoadTables);
    const loads = found.filter(({ about }) => about === "load");
    expect(loads.map(({ length }) => Math.round(length / ft))).toEqual([20]);
    const sides = loads[0]!.printed.map((p) => Math.round(("load" in p ? p.load : 0) / lbf));
    expect(sides).toEqual([1440, 980]);
    // 1400 lbf at 45 kn in one and at 42 kn in the other, and so for 40 ft.
    const winds = found.filter(({ about }) => about === "wind");
    expect(winds.map(({ length }) => Math.round(length / ft))).toEqual([30, 40]);
    expect(winds[0]!.printed.map((p) => Math.round(("wind" in p ? p.wind : 0) / kn))).toEqual([45, 42]);
  });
});

const good = readFileSync(new URL("../../data/published/design-loads.json", import.meta.url), "utf8");

describe("a wrong file of design loads is told in one line", () => {
  it.each([
    [
      "another format",
      "design-loads@1",
      "boat@1",
      /format: "rodebench\/boat@1"; rodebench\/design-loads@1 is expected/,
    ],
    ["a mistyped field", '"standing"', '"standng"', /tables #1\.standng: no such field; is standing meant\?$/],
    ["hearsay", '"standing": "seen"', '"standing": "heard"', /standing: "heard"; seen or recalled is expected/],
    [
      "a load in knots",
      '"load": "90 lbf"',
      '"load": "90 kn"',
      /loads #1\.load: "90 kn" is a speed; .*a force is expected/,
    ],
    ["no rows", /"rows": \[[\s\S]*?\n {6}\]/, '"rows": []', /rows: an empty list; a list of rows is expected/],
  ])("%s", (_, from, to, told) => {
    const text = good.replace(from, to);
    expect(text).not.toBe(good);
    expect(() => readDesignLoads(text, "mine.json")).toThrow(told);
    expect(() => readDesignLoads(text, "mine.json")).toThrow(/^mine\.json: [^\n]+$/);
  });
});
