import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { judge, mistakenReadings, type Run, readRun, reduce } from "../../../src/pull/index.ts";
import { readRig, settle } from "../../../src/rode/index.ts";

const RIG = readRig(
  `format: rodebench/rig@1
name: Rig on land
setting: { medium: air, rise: 9 m }
rode:
  - line: { length: 32 m, massPerLength: 2.45 kg/m, density: 7850 kg/m3, stiffness: 8 MN }
uncertainty: { massPerLength: 2 %, rise: 0.05 m }
`,
  "rig.yaml",
);

/** Readings as the rig gives them, with scatter of the size stated. */
function right(): Run {
  const noise = [0.4, -0.9, 0.2, 1.1, -0.5, -0.1, 0.7, -1.2, 0.3, 0.6];
  const loads = [1200, 1500, 1800, 2200, 2600, 3000, 3600, 4200, 5000, 6000];
  const settled = loads.map((newtons) => {
    const answer = settle(RIG, { at: "bow", newtons });
    if (answer.kind !== "settled") throw new Error("no equilibrium");
    return answer;
  });
  return {
    name: "run",
    loadCellAt: "bow",
    angleAt: "anchor",
    uncertainty: { load: 10, angle: 0.004, movement: 0.004, gaugeZero: 0.004 },
    readings: settled.map(({ anchor }, i) => ({
      load: loads[i]!,
      angle: anchor.angle + 0.004 * noise[i]!,
      liftoff: false,
    })),
    release: settled
      .map(({ span }, i) => ({
        load: loads[i]!,
        movement: i === 9 ? 0 : settled[9]!.span - span + 0.004 * noise[9 - i]!,
      }))
      .reverse(),
  };
}

const loads = (run: Run, factor: number): Run => ({
  ...run,
  readings: run.readings.map((row) => ({ ...row, load: row.load * factor })),
  release: run.release.map((row) => ({ ...row, load: row.load * factor })),
});
const angles = (run: Run, of: (angle: number) => number): Run => ({
  ...run,
  readings: run.readings.map((row) => ({ ...row, angle: of(row.angle!) })),
});
const movements = (run: Run, factor: number): Run => ({
  ...run,
  release: run.release.map((row) => ({ ...row, movement: row.movement * factor })),
});
const RAD = Math.PI / 180;

describe("readings in the wrong unit, sign or end", () => {
  it("that are right are not doubted", () => {
    const run = right();
    expect(mistakenReadings(run, RIG, reduce(run, RIG))).toEqual([]);
  });

  it("are told beside others that no mix-up explains: rode that stuck on the ground", () => {
    // Made with its last two movements held back by what the model does not know; a search takes longer to leave them.
    const demo = (name: string) => readFileSync(join(import.meta.dirname, "../../../data/demo", name), "utf8");
    const rig = readRig(demo("gantry-rig.yaml"), "gantry-rig.yaml");
    const { run } = readRun(demo("gantry-run.yaml"), "gantry-run.yaml");
    const down = {
      ...run,
      readings: run.readings.map((row) => (row.angle === undefined ? row : { ...row, angle: -row.angle })),
    };
    expect(mistakenReadings(down, rig, reduce(down, rig)).map(({ says }) => says)).toEqual([
      "these are angles below the horizontal written as above, or the other way",
    ]);
    // 680 N written as 69: less than the rode that hangs, so that no equilibrium answers to it as it stands.
    expect(mistakenReadings(loads(run, 1 / 9.80665), rig, null).map(({ says }) => says)).toContain(
      "the loads are kgf written as N",
    );
  });

  it("with one wild reading among them are not called mixed up", () => {
    const run = right();
    const wild = { ...run, readings: run.readings.map((row, i) => (i === 4 ? { ...row, angle: 0.6 } : row)) };
    expect(mistakenReadings(wild, RIG, reduce(wild, RIG))).toEqual([]);
  });

  it.each<[string, (run: Run) => Run]>([
    ["loads are kgf written as N", (run) => loads(run, 1 / 9.80665)],
    ["loads are lbf written as N", (run) => loads(run, 1 / 4.4482216152605)],
    ["loads are daN written as N, or a tenth too little", (run) => loads(run, 0.1)],
    ["loads are kN written as N", (run) => loads(run, 0.001)],
    ["loads are N written as kgf", (run) => loads(run, 9.80665)],
    ["loads are N written as lbf", (run) => loads(run, 4.4482216152605)],
    ["ten times too much", (run) => loads(run, 10)],
    ["loads are N written as kN", (run) => loads(run, 1000)],
    ["kgf written as lbf", (run) => loads(run, 4.4482216152605 / 9.80665)],
    ["lbf written as kgf", (run) => loads(run, 9.80665 / 4.4482216152605)],
    ["angles below the horizontal written as above", (run) => angles(run, (a) => -a)],
    ["per cent written as degrees", (run) => angles(run, (a) => 100 * Math.tan(a) * RAD)],
    ["degrees written as per cent", (run) => angles(run, (a) => Math.atan(a / RAD / 100))],
    ["radians written as degrees", (run) => angles(run, (a) => a * RAD)],
    ["angles from the vertical", (run) => angles(run, (a) => Math.PI / 2 - a)],
    ["angles ten times what they are", (run) => angles(run, (a) => Math.min(10 * a, 1.5))],
    ["the load cell sat at the bow", (run) => ({ ...run, loadCellAt: "anchor" })],
    ["the gauge sat at the anchor", (run) => ({ ...run, angleAt: "bow" })],
    [
      "the load cell sat at the bow and the gauge at the anchor",
      (run) => ({ ...run, loadCellAt: "anchor", angleAt: "bow" }),
    ],
    ["movement counted the other way", (run) => movements(run, -1)],
    ["inches written as mm", (run) => movements(run, 1 / 25.4)],
    ["cm written as mm", (run) => movements(run, 0.1)],
  ])("%s: says so, and with that they fit", (says, mix) => {
    const run = mix(right());
    let reduced = null;
    try {
      reduced = reduce(run, RIG);
    } catch {
      // No equilibrium answers to a reading: tried all the same.
    }
    const found = mistakenReadings(run, RIG, reduced);
    expect(found.map((one) => one.says).join(" | ")).toContain(says);
    expect(found.every((one) => one.reduced.scatter < 3)).toBe(true);
    if (reduced !== null)
      expect(
        judge(run, RIG, reduced)
          .map((verdict) => verdict.says)
          .join(" | "),
      ).toContain("they would fit if");
  });
});
