/** What a reduction says, in plain words: readings not believed and why, short cuts that matter, unknowns that moved. */
import { DEGREES } from "../../quantity/index.ts";
import { compile, endForcesOf, type Rig, riseOf } from "../../rode/index.ts";
import { mistakenReadings } from "./mistaken.ts";
import type { Reduction } from "./reduce.ts";
import type { Run } from "./run-file.ts";
import { UNSTATED } from "./theory.ts";

/** A verdict of a reduction, in plain words. */
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
    ...aboutFit(run, reduced),
    ...aboutMistakes(run, rig, reduced),
    ...aboutOutliers(reduced),
    ...aboutUnknowns(rig, reduced),
    ...aboutSimplifications(run, reduced),
  ];
}

function aboutFit(run: Run, reduced: Reduction): Judgement[] {
  const found: Judgement[] = [];
  const overall = (says: string) => found.push({ about: "fit", load: null, says });
  if (reduced.outcome.kind !== "converged") {
    overall("the readings do not settle the unknowns: take the fitted values as stated beforehand");
    return found;
  }
  const all = [...reduced.readings, ...reduced.release.slice(1)];
  // By what was stated, whatever the scatter was widened to: a widened ± accounts for anything.
  const accounted = all.filter(
    (row) =>
      !row.outlier &&
      !row.suspect &&
      Math.abs(row.standardised) * reduced.scatter <= reduced.outlierBeyond / reduced.scatter,
  ).length;
  const of = `${accounted} of ${all.length} readings`;
  if (reduced.scatter > FAR)
    overall(
      `theory does not account for these readings: ${of} agree with it, and they scatter ${reduced.scatter.toFixed(1)} times more than their stated uncertainties; look at the rig, the units, the ends and the gauge before anything here is used`,
    );
  else overall(`theory accounts for ${of}; ${SCATTER[reduced.spread.kind](reduced.scatter)}`);
  found.push(...aboutStuckGauge(run, reduced), ...aboutSuspects(reduced));
  if (reduced.untold > 0)
    overall(
      `the run is too short to tell who is wrong: a gross error in ${reduced.untold === all.length ? "any" : "one"} of ${reduced.untold === all.length ? "these readings" : `${reduced.untold} of these readings`} would pass for one in another, or for what is not known of the rig`,
    );
  return found;
}

/** What a tester mixes up and would make these readings fit. */
function aboutMistakes(run: Run, rig: Rig, reduced: Reduction): Judgement[] {
  return mistakenReadings(run, rig, reduced).map(({ says, reduced: tried }) => ({
    about: "fit",
    load: null,
    says: `they would fit if ${says}: the readings then scatter ${tried.scatter > 1 ? `${tried.scatter.toFixed(1)} times their stated uncertainties` : "as stated"}; nothing was changed, the file has to be`,
  }));
}

/** Factor of scatter past which the stated uncertainties are not merely modest: something else is wrong. */
const FAR = 3;

const SCATTER: { readonly [kind in Reduction["spread"]["kind"]]: (ratio: number) => string } = {
  more: (ratio) => `they scatter ${ratio.toFixed(1)} times more than their stated uncertainties`,
  less: () => "they scatter less than their stated uncertainties, which may be too generous",
  asStated: () => "they scatter about as their stated uncertainties say",
  tooFew: () => "they are too few to say whether they scatter as stated",
};

/** Angles that stand still, over loads at which by theory they turn by many times their uncertainty. */
function aboutStuckGauge(run: Run, reduced: Reduction): Judgement[] {
  const rows = reduced.readings.filter((row) => row.angle !== null);
  if (rows.length < 3) return [];
  const range = (of: (row: (typeof rows)[number]) => number) => Math.max(...rows.map(of)) - Math.min(...rows.map(of));
  const u = run.uncertainty.angle || UNSTATED.angle;
  const turns = range((row) => row.theory);
  if (range((row) => row.angle!) > 0.1 * u || turns < 6 * u) return [];
  const degrees = (turns * DEGREES).toFixed(1);
  return [
    {
      about: "fit",
      load: null,
      says: `the gauge reads the same at all ${rows.length} loads while by theory the angle turns by ${degrees}°: it may stick`,
    },
  ];
}

function aboutSuspects(reduced: Reduction): Judgement[] {
  const suspects = [...reduced.readings, ...reduced.release].filter((row) => row.suspect).length;
  return suspects === 0
    ? []
    : [
        {
          about: "fit",
          load: null,
          says: `${suspects} readings do not agree with each other, and the run is too short to tell which is wrong: none of them is believed; read them again`,
        },
      ];
}

function aboutOutliers(reduced: Reduction): Judgement[] {
  const why = (resting: boolean, moved: boolean) => {
    if (resting && moved)
      return "by theory part of the rode rests on the ground here and may stick; the movement read does not follow from weight alone";
    if (resting) return "by theory part of the rode rests on the ground here";
    return "no cause shows in the rig; the entry or the gauge may be at fault";
  };
  const judgement = (
    row: { load: number; residual: number; resting: boolean; outlier: boolean },
    about: "reading" | "release",
  ): Judgement => ({
    about,
    load: row.load,
    says: `${about === "reading" ? "the angle" : "the movement"} is ${Math.abs(row.residual).toFixed(1)} standard uncertainties ${row.residual < 0 ? "below" : "above"} theory: ${row.outlier ? `an outlier, kept in view and given little weight; ${why(row.resting, about === "release")}` : "this reading or another is wrong, the run does not tell which; kept in view and given no weight"}`,
  });
  const doubted = (row: { outlier: boolean; suspect: boolean }) => row.outlier || row.suspect;
  return [
    ...reduced.readings.filter(doubted).map((row) => judgement(row, "reading")),
    ...reduced.release.filter(doubted).map((row) => judgement(row, "release")),
  ];
}

function aboutUnknowns(rig: Rig, reduced: Reduction): Judgement[] {
  const found: Judgement[] = [];
  const { massPerLength, rise, gaugeZero, rigGive } = reduced.fitted;
  const unknown = (says: string) => found.push({ about: "unknown", load: null, says });
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
  return found;
}

function moved(say: (text: string) => unknown, what: string, by: number, prior: number, u: number): void {
  if (Math.abs(by) > 2 * prior) say(`${what} moved by more than twice what was stated beforehand: measure it again`);
  else if (u > 0.9 * prior) say(`these readings say little of ${what}: its value is mostly what was stated beforehand`);
}

/** Which short cuts matter at these loads, by the angle at the anchor they would change. */
function aboutSimplifications(run: Run, reduced: Reduction): Judgement[] {
  const { rig } = reduced;
  const loads = reduced.readings.map((row) => row.load);
  const u = run.uncertainty.angle || UNSTATED.angle;
  if (loads.length === 0) return [];
  const found: Judgement[] = [];
  const compare = (name: string, angleAt: (load: number) => number | null): void => {
    const endForces = endForcesOf(rig);
    const effects = loads.flatMap((load) => {
      const full = endForces({ at: run.loadCellAt, newtons: load });
      const short = angleAt(load);
      return full === null || short === null ? [] : [{ load, size: Math.abs(short - full.anchorAngle) }];
    });
    if (effects.length === 0) return;
    const worst = effects.reduce((a, b) => (b.size > a.size ? b : a));
    const degrees = (worst.size * DEGREES).toFixed(worst.size < 0.01 ? 2 : 1);
    const verdict =
      worst.size < u
        ? "smaller than the gauge's uncertainty at every load read"
        : `larger than the gauge's uncertainty at ${effects.filter((e) => e.size >= u).length} of ${effects.length} loads`;
    found.push({
      about: "simplification",
      load: worst.load,
      says: `${name}: changes the angle at the anchor by up to ${degrees}°, ${verdict}`,
    });
  };
  const rode = compile(rig);
  const straight = Math.asin(Math.min(1, rode.rise / rode.totalLength));
  compare("taking the rode as straight", () => straight);
  const otherEnd = run.loadCellAt === "anchor" ? "bow" : "anchor";
  const swapped = endForcesOf(rig);
  compare(
    `taking the load read as that at the ${otherEnd}`,
    (load) => swapped({ at: otherEnd, newtons: load })?.anchorAngle ?? null,
  );
  if (rig.rode.some((part) => part.kind === "line" && part.stretch.kind !== "rigid")) {
    const stiff = endForcesOf({
      ...rig,
      rode: rig.rode.map((part) => (part.kind === "line" ? { ...part, stretch: { kind: "rigid" } as const } : part)),
    });
    compare("leaving out stretch", (load) => stiff({ at: run.loadCellAt, newtons: load })?.anchorAngle ?? null);
  }
  if (rig.setting.bottomSlope !== 0) {
    const level = endForcesOf({ ...rig, setting: { ...rig.setting, bottomSlope: 0 } });
    compare("taking the ground as level", (load) => level({ at: run.loadCellAt, newtons: load })?.anchorAngle ?? null);
  }
  return found;
}
