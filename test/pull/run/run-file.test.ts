import { describe, expect, it } from "vitest";
import { readRun } from "../../../src/pull/index.ts";

const lbf = 4.4482216152605;
const RIG =
  "{ format: rodebench/rig@1, name: R, setting: { medium: air, rise: 9 m }, rode: [{ line: { length: 30 m, massPerLength: 2 kg/m, density: 7850 kg/m3 } }] }";

describe("a run file", () => {
  it("is read in the units of its columns, and in those a value brings along", () => {
    const { run } = readRun(
      `format: rodebench/run@1
rig: ${RIG}
loadCellAt: anchor
units: { load: lbf, angle: deg, movement: in }
uncertainty: { load: 5 lbf, angle: 0.5 deg, movement: 1/4 in, gaugeZero: 1 deg }
readings:
  - { load: 300, angle: 0, event: liftoff }
  - { load: "2 kN", angle: "0.1 rad" }
release:
  - { load: 1000, movement: 0 }
  - { load: 900, movement: 1/2 in }
  - { load: 800, movement: 1.5 }
`,
      "run.yaml",
    );
    expect(run.readings[0]).toEqual({ load: 300 * lbf, angle: 0, liftoff: true });
    expect(run.readings[1]).toEqual({ load: 2000, angle: 0.1, liftoff: false });
    run.release.forEach((row, i) => {
      expect(row.movement).toBeCloseTo([0, 0.0127, 0.0381][i]!, 15);
    });
    expect(run.uncertainty.load).toBeCloseTo(5 * lbf, 12);
    expect(run.uncertainty.movement).toBeCloseTo(0.25 * 0.0254, 15);
    expect(run.uncertainty.gaugeZero).toBeCloseTo(Math.PI / 180, 15);
  });

  it("takes SI and degrees where no units are named, and says nothing of what is not stated", () => {
    const { run, rig } = readRun(
      `{ "format": "rodebench/run@1", "rig": "rigs/a.yaml", "loadCellAt": "bow", "readings": [{ "load": 1500, "angle": 6 }] }`,
      "run.json",
    );
    expect(rig).toEqual({ kind: "path", path: "rigs/a.yaml" });
    expect(run.readings[0]!.load).toBe(1500);
    expect(run.readings[0]!.angle).toBeCloseTo(6 * (Math.PI / 180), 15);
    expect(run.uncertainty).toEqual({ load: 0, angle: 0, movement: 0, gaugeZero: 0 });
    expect([run.name, run.angleAt, run.release]).toEqual(["run", "anchor", []]);
  });
});
