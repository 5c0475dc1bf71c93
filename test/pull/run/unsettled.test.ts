import { describe, expect, it } from "vitest";
import { firstUnsettled, type Run, reduce, UnsettledRun } from "../../../src/pull/index.ts";
import type { Rig } from "../../../src/rode/index.ts";

/** 30 m of 2 kg/m in air; loads of some kN. */
const rigWith = (rise: number): Rig => ({
  name: "rig",
  setting: { medium: "air", rise, bottomSlope: 0, bottomFriction: 0 },
  rode: [{ kind: "line", name: "line", length: 30, massPerLength: 2, density: 7850, stretch: { kind: "rigid" } }],
  uncertainty: {},
});
const run = (rows: Partial<Run>): Run => ({
  name: "run",
  loadCellAt: "anchor",
  angleAt: "anchor",
  uncertainty: { load: 0, angle: 0, movement: 0, gaugeZero: 0 },
  readings: [{ load: 1500, angle: 0.1, liftoff: false }],
  release: [],
  ...rows,
});
const caught = (run: Run, rig: Rig): unknown => {
  try {
    reduce(run, rig);
    return null;
  } catch (error) {
    return error;
  }
};

describe("a row that theory says nothing of", () => {
  it("is none where the rig has an equilibrium under every load", () => {
    expect(firstUnsettled(run({}), rigWith(9))).toBeNull();
  });

  it("is one of the release too, counted from 0, with its load and the cause", () => {
    const low = run({
      readings: [],
      // 9 m of a line of 2 kg/m that hangs weigh 177 N: a tenth of that at the bow leaves it no equilibrium.
      loadCellAt: "bow",
      release: [
        { load: 2500, movement: 0 },
        { load: 17, movement: 0.2 },
      ],
    });
    const found = firstUnsettled(low, rigWith(9));
    expect(found).toMatchObject({ kind: "noEquilibrium", list: "release", row: 1, load: 17 });
    expect(found?.kind === "noEquilibrium" && found.none.cause).toBe("lighterThanHanging");
    expect(caught(low, rigWith(9))).toBeInstanceOf(UnsettledRun);
  });

  it("is a lift-off noted without an angle on level ground, where the anchor's end always points down", () => {
    const noted = run({
      readings: [
        { load: 1500, angle: 0.1, liftoff: true },
        { load: 2500, liftoff: true },
      ],
    });
    const expected = { kind: "neverLiftsOff", list: "readings", row: 1, load: 2500 };
    expect(firstUnsettled(noted, rigWith(0))).toEqual(expected);
    expect(caught(noted, rigWith(0))).toMatchObject({ name: "UnsettledRun", unsettled: expected });
    expect(firstUnsettled(noted, rigWith(9))).toBeNull();
  });
});
