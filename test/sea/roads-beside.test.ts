import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import {
  CALM_SURROUNDINGS,
  designLoadTables,
  readBoat,
  roadsBeside,
  tablesBeside,
  weather,
} from "../../src/sea/index.ts";

const boat = readBoat(readFileSync("data/boats/marsh-tern.yaml", "utf8"), "boat");
const kn = 1852 / 3600;
const at = (knots: number) => weather(boat, { value: knots * kn, u: 0 }, CALM_SURROUNDINGS, designLoadTables);

describe("a boat's own points beside her windage", () => {
  it("agree where the difference is no more than twice its uncertainty, worked out here by hand", () => {
    const answer = at(20);
    const found = roadsBeside(answer);
    expect(found.map((one) => one.at)).toEqual(answer.measured.map((one) => one.at).filter((end) => end !== "anchor"));
    for (const { windage, points, agree } of found)
      expect(agree).toBe((points.value - windage.value) ** 2 <= 4 * (points.u ** 2 + windage.u ** 2));
  });

  it("differ where the points are ten times as high", () => {
    const answer = at(20);
    const high = answer.measured.map((one) => ({ ...one, mean: { ...one.mean, value: 10 * one.mean.value } }));
    expect(roadsBeside({ ...answer, measured: high }).every(({ agree }) => !agree)).toBe(true);
  });

  it("have nothing beside them without windage", () => {
    const { windage: _, ...bare } = at(20);
    expect(roadsBeside(bare)).toEqual([]);
  });
});

describe("a boat's own points beside the tables", () => {
  it("are set against what the tables print at their nearest wind", () => {
    const { measured, tables } = at(20);
    const found = tablesBeside(measured, tables, 20 * kn)!;
    expect(found.wind / kn).toBeCloseTo(15, 6);
    // Both tables' row of 40 ft prints 300 lbf at 15 kn (docs/weather.md, from their sources); 1 lbf = 4.4482216152605 N.
    for (const load of found.printed) expect(load / 4.4482216152605).toBeCloseTo(300, 6);
    expect(found.agree).toBe(false);
  });

  it("are nothing without points or without tables", () => {
    const { measured, tables } = at(20);
    expect(tablesBeside([], tables, 10)).toBeUndefined();
    expect(tablesBeside(measured, [], 10)).toBeUndefined();
  });
});
