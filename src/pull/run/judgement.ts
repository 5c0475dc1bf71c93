/** What a reduction says, in plain words: readings not believed and why, short cuts that matter, unknowns that moved. */
import { compile, glancer, type Rig, riseOf } from "../../rode/index.ts";
import type { Reduction } from "./reduce.ts";
import type { Run } from "./run-file.ts";

export interface Judgement {
  readonly about: "reading" | "release" | "simplification" | "unknown" | "fit";
  /** Load it speaks of, N, where it speaks of one. */
  readonly load: number | null;
  readonly says: string;
}

/**
 * @param run the readings, @param rig the rig as stated, @param reduced their reduction
 * @returns verdicts in the order a reader wants them: the fit, outliers, unknowns, simplifications
 */
export function judge(run: Run, rig: Rig, reduced: Reduction): Judgement[] {
  return [
    ...aboutFit(reduced),
    ...aboutOutliers(reduced),
    ...aboutUnknowns(rig, reduced),
    ...aboutSimplifications(run, reduced),
  ];
}

function aboutFit(reduced: Reduction): Judgement[] {
  const all = [...reduced.readings, ...reduced.release.slice(1)];
  const kept = all.filter((row) => !row.outlier);
  if (reduced.outcome.kind !== "converged") {
    return [
      {
        about: "fit",
        load: null,
        says: "the readings do not settle the unknowns: take the fitted values as stated beforehand",
      },
    ];
  }
  const rms = Math.sqrt(kept.reduce((sum, row) => sum + row.residual ** 2, 0) / Math.max(1, kept.length));
  const scatter =
    reduced.scatter > 1.5
      ? `they scatter ${reduced.scatter.toFixed(1)} times more than their stated uncertainties`
      : rms < 0.4
        ? "they scatter less than their stated uncertainties, which may be too modest"
        : "they scatter about as their stated uncertainties say";
  return [
    { about: "fit", load: null, says: `theory accounts for ${kept.length} of ${all.length} readings; ${scatter}` },
  ];
}

function aboutOutliers(reduced: Reduction): Judgement[] {
  const why = (resting: boolean, moved: boolean) => {
    if (resting && moved)
      return "by theory part of the rode rests on the ground here and may stick; the movement read does not follow from weight alone";
    if (resting) return "by theory part of the rode rests on the ground here";
    return "no cause shows in the rig; the entry or the gauge may be at fault";
  };
  const said = (
    row: { load: number; residual: number; resting: boolean },
    about: "reading" | "release",
  ): Judgement => ({
    about,
    load: row.load,
    says: `${about === "reading" ? "the angle" : "the movement"} is ${Math.abs(row.residual).toFixed(1)} standard uncertainties ${row.residual < 0 ? "below" : "above"} theory: an outlier, kept in view and given little weight; ${why(row.resting, about === "release")}`,
  });
  return [
    ...reduced.readings.filter((row) => row.outlier).map((row) => said(row, "reading")),
    ...reduced.release.filter((row) => row.outlier).map((row) => said(row, "release")),
  ];
}

function aboutUnknowns(rig: Rig, reduced: Reduction): Judgement[] {
  const said: Judgement[] = [];
  const { massPerLength, rise, gaugeZero, rigGive } = reduced.fitted;
  const unknown = (says: string) => said.push({ about: "unknown", load: null, says });
  if (massPerLength === null) unknown("mass per length is taken as given: the rig states no uncertainty of it");
  if (rise === null) unknown("the rise is taken as given: the rig states no uncertainty of it");
  if (rise !== null) moved(unknown, "the rise", rise.value - riseOf(rig.setting), rig.uncertainty.rise!, rise.u);
  if (massPerLength !== null) {
    const longest = rig.rode.reduce((best, part) => (part.kind === "line" && part.length > best.length ? part : best), {
      length: 0,
      massPerLength: 1,
    });
    const stated = longest.massPerLength;
    moved(
      unknown,
      "mass per length",
      massPerLength.value - stated,
      rig.uncertainty.massPerLength! * stated,
      massPerLength.u,
    );
  }
  if (gaugeZero !== null && Math.abs(gaugeZero.value) > 2 * gaugeZero.u)
    unknown("the gauge's zero is off by more than twice its uncertainty: check it against a level");
  if (rigGive !== null && rigGive.value > 2 * rigGive.u)
    unknown("the rig itself gives under load: part of the movement read is not the rode's");
  if (rigGive !== null && rigGive.value < -2 * rigGive.u)
    unknown("the rig would have to push back: the movement read is smaller than the rode's own");
  return said;
}

function moved(say: (text: string) => unknown, what: string, by: number, prior: number, u: number): void {
  if (Math.abs(by) > 2 * prior) say(`${what} moved by more than twice what was stated beforehand: measure it again`);
  else if (u > 0.9 * prior) say(`these readings say little of ${what}: its value is mostly what was stated beforehand`);
}

/** Which short cuts matter at these loads, by the angle at the anchor they would change. */
function aboutSimplifications(run: Run, reduced: Reduction): Judgement[] {
  const { rig } = reduced;
  const loads = reduced.readings.map((row) => row.load);
  const u = run.uncertainty.angle || 0.5 * (Math.PI / 180);
  if (loads.length === 0) return [];
  const said: Judgement[] = [];
  const compare = (name: string, angleAt: (load: number) => number | null): void => {
    const glance = glancer(rig);
    const effects = loads.flatMap((load) => {
      const full = glance({ at: run.loadCellAt, newtons: load });
      const short = angleAt(load);
      return full === null || short === null ? [] : [{ load, size: Math.abs(short - full.anchorAngle) }];
    });
    if (effects.length === 0) return;
    const worst = effects.reduce((a, b) => (b.size > a.size ? b : a));
    const degrees = ((worst.size * 180) / Math.PI).toFixed(worst.size < 0.01 ? 2 : 1);
    const verdict =
      worst.size < u
        ? "smaller than the gauge's uncertainty at every load read"
        : `larger than the gauge's uncertainty at ${effects.filter((e) => e.size >= u).length} of ${effects.length} loads`;
    said.push({
      about: "simplification",
      load: worst.load,
      says: `${name}: changes the angle at the anchor by up to ${degrees}°, ${verdict}`,
    });
  };
  const rode = compile(rig);
  const straight = Math.asin(Math.min(1, rode.rise / rode.totalLength));
  compare("taking the rode as straight", () => straight);
  const otherEnd = run.loadCellAt === "anchor" ? "bow" : "anchor";
  const swapped = glancer(rig);
  compare(
    `taking the load read as that at the ${otherEnd}`,
    (load) => swapped({ at: otherEnd, newtons: load })?.anchorAngle ?? null,
  );
  if (rig.rode.some((part) => part.kind === "line" && part.stretch.kind !== "rigid")) {
    const stiff = glancer({
      ...rig,
      rode: rig.rode.map((part) => (part.kind === "line" ? { ...part, stretch: { kind: "rigid" } as const } : part)),
    });
    compare("leaving out stretch", (load) => stiff({ at: run.loadCellAt, newtons: load })?.anchorAngle ?? null);
  }
  if (rig.setting.bottomSlope !== 0) {
    const level = glancer({ ...rig, setting: { ...rig.setting, bottomSlope: 0 } });
    compare("taking the ground as level", (load) => level({ at: run.loadCellAt, newtons: load })?.anchorAngle ?? null);
  }
  return said;
}
