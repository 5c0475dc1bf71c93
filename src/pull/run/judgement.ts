/** What a reduction says: readings not believed and why, short cuts that matter, unknowns that moved; causes and numbers, which `words` tells. */
import { compile, endForcesOf, type Rig, riseOf } from "../../rode/index.ts";
import { type MixUp, mistakenReadings } from "./mistaken.ts";
import type { Reduction } from "./reduce.ts";
import type { Run } from "./run-file.ts";
import { UNSTATED } from "./theory.ts";

/** A verdict of a reduction. */
export type Judgement =
  | { readonly about: "fit"; readonly load: null; readonly cause: FitCause }
  | {
      readonly about: "reading" | "release";
      /** Load of the row it speaks of, N. */
      readonly load: number;
      /** Not believed, or one of several of which the run does not tell which is wrong. */
      readonly cause: "outlier" | "suspect";
      /** In standard uncertainties, above theory where it is above zero. */
      readonly residual: number;
      /** Whether by theory part of the rode rests on the ground there. */
      readonly resting: boolean;
    }
  | { readonly about: "unknown"; readonly load: null; readonly cause: UnknownCause }
  | {
      readonly about: "simplification";
      /** Load at which it changes most, N. */
      readonly load: number;
      readonly cause: AngleShortCut;
      /** By how much it changes the angle at the anchor at most, rad. */
      readonly worst: number;
      /** At how many of so many loads that is more than the gauge's uncertainty. */
      readonly larger: number;
      readonly of: number;
    };

type FitCause =
  | { readonly kind: "notSettled" }
  /** So many of `all` readings agree with theory; they scatter as `spread` has it, or too far for theory to account for them. */
  | {
      readonly kind: "accounted" | "notAccounted";
      readonly count: number;
      readonly all: number;
      readonly spread: Reduction["spread"]["kind"];
      /** Times the stated uncertainties. */
      readonly scatter: number;
    }
  /** Of so many of `all` readings a gross error would pass for one in another. */
  | { readonly kind: "tooShort"; readonly count: number; readonly all: number }
  /** They would fit if something was mixed up, with so much scatter left. */
  | { readonly kind: "mixedUp"; readonly mixUp: MixUp; readonly scatter: number }
  /** The gauge reads the same at so many loads, over which by theory the angle turns by `turns`, rad. */
  | { readonly kind: "stuckGauge"; readonly count: number; readonly turns: number }
  /** So many readings do not agree with each other. */
  | { readonly kind: "suspects"; readonly count: number };

type UnknownCause =
  /** The rig states no uncertainty of it; it moved by more than twice what was stated; the readings say little of it. */
  | { readonly kind: "asGiven" | "moved" | "littleSaid"; readonly of: "massPerLength" | "rise" }
  /** Off by more than twice its uncertainty. */
  | { readonly kind: "gaugeZero" }
  /** The rig itself gives; or the movement read is smaller than the rode's own. */
  | { readonly kind: "rigGives" | "rigPushesBack" };

/** What is taken for another, or left out, of the angle at the anchor. */
export type AngleShortCut = "straight" | "readAtAnchor" | "readAtBow" | "noStretch" | "levelGround";

/**
 * @param run the readings, @param rig the rig as stated, @param reduced their reduction
 * @returns verdicts in the order a reader wants them: the fit, outliers, unknowns, simplifications
 */
export function judge(run: Run, rig: Rig, reduced: Reduction): Judgement[] {
  return [
    ...aboutFit(run, reduced).map(ofFit),
    ...mixUps(run, rig, reduced).map(ofFit),
    ...aboutOutliers(reduced),
    ...aboutUnknowns(rig, reduced).map((cause) => ({ about: "unknown", load: null, cause }) as const),
    ...aboutSimplifications(run, reduced),
  ];
}

const ofFit = (cause: FitCause): Judgement => ({ about: "fit", load: null, cause });

function aboutFit(run: Run, reduced: Reduction): FitCause[] {
  if (reduced.outcome.kind !== "converged") return [{ kind: "notSettled" }];
  const all = [...reduced.readings, ...reduced.release.slice(1)];
  // By what was stated, whatever the scatter was widened to: a widened ± accounts for anything.
  const count = all.filter(
    (row) =>
      !row.outlier &&
      !row.suspect &&
      Math.abs(row.standardised) * reduced.scatter <= reduced.outlierBeyond / reduced.scatter,
  ).length;
  const { scatter, untold } = reduced;
  return [
    {
      kind: scatter > FAR ? "notAccounted" : "accounted",
      ...{ count, all: all.length, spread: reduced.spread.kind, scatter },
    },
    ...stuckGauge(run, reduced),
    ...suspects(reduced),
    ...(untold > 0 ? [{ kind: "tooShort", count: untold, all: all.length } as const] : []),
  ];
}

/** What a tester mixes up and would make these readings fit. */
const mixUps = (run: Run, rig: Rig, reduced: Reduction): FitCause[] =>
  mistakenReadings(run, rig, reduced).map(({ mixUp, reduced: tried }) => ({
    kind: "mixedUp",
    mixUp,
    scatter: tried.scatter,
  }));

/** Factor of scatter past which the stated uncertainties are not merely modest: something else is wrong. */
const FAR = 3;

/** Angles that stand still, over loads at which by theory they turn by many times their uncertainty. */
function stuckGauge(run: Run, reduced: Reduction): FitCause[] {
  const rows = reduced.readings.filter((row) => row.angle !== null);
  if (rows.length < 3) return [];
  const range = (of: (row: (typeof rows)[number]) => number) => Math.max(...rows.map(of)) - Math.min(...rows.map(of));
  const u = run.uncertainty.angle || UNSTATED.angle;
  const turns = range((row) => row.theory);
  if (range((row) => row.angle!) > 0.1 * u || turns < 6 * u) return [];
  return [{ kind: "stuckGauge", count: rows.length, turns }];
}

function suspects(reduced: Reduction): FitCause[] {
  const count = [...reduced.readings, ...reduced.release].filter((row) => row.suspect).length;
  return count === 0 ? [] : [{ kind: "suspects", count }];
}

function aboutOutliers(reduced: Reduction): Judgement[] {
  const judged = (about: "reading" | "release", rows: Reduction["readings"] | Reduction["release"]): Judgement[] =>
    rows
      .filter(({ outlier, suspect }) => outlier || suspect)
      .map(({ load, outlier, residual, resting }) => ({
        ...{ about, load, residual, resting },
        cause: outlier ? "outlier" : "suspect",
      }));
  return [...judged("reading", reduced.readings), ...judged("release", reduced.release)];
}

function aboutUnknowns(rig: Rig, reduced: Reduction): UnknownCause[] {
  const found: UnknownCause[] = [];
  const { massPerLength, rise, gaugeZero, rigGive } = reduced.fitted;
  if (massPerLength === null) found.push({ kind: "asGiven", of: "massPerLength" });
  if (rise === null) found.push({ kind: "asGiven", of: "rise" });
  if (rise !== null) found.push(...moved("rise", rise.value - riseOf(rig.setting), rig.uncertainty.rise!, rise.u));
  if (massPerLength !== null) {
    const longest = rig.rode.reduce((best, part) => (part.kind === "line" && part.length > best.length ? part : best), {
      length: 0,
      massPerLength: 1,
    });
    const stated = longest.massPerLength;
    found.push(
      ...moved("massPerLength", massPerLength.value - stated, rig.uncertainty.massPerLength! * stated, massPerLength.u),
    );
  }
  if (gaugeZero !== null && Math.abs(gaugeZero.value) > 2 * gaugeZero.u) found.push({ kind: "gaugeZero" });
  if (rigGive !== null && rigGive.value > 2 * rigGive.u) found.push({ kind: "rigGives" });
  if (rigGive !== null && rigGive.value < -2 * rigGive.u) found.push({ kind: "rigPushesBack" });
  return found;
}

function moved(of: "massPerLength" | "rise", by: number, prior: number, u: number): UnknownCause[] {
  if (Math.abs(by) > 2 * prior) return [{ kind: "moved", of }];
  return u > 0.9 * prior ? [{ kind: "littleSaid", of }] : [];
}

/** Which short cuts matter at these loads, by the angle at the anchor they would change. */
function aboutSimplifications(run: Run, reduced: Reduction): Judgement[] {
  const { rig } = reduced;
  const loads = reduced.readings.map((row) => row.load);
  const u = run.uncertainty.angle || UNSTATED.angle;
  if (loads.length === 0) return [];
  const found: Judgement[] = [];
  const compare = (cause: AngleShortCut, angleAt: (load: number) => number | null): void => {
    const endForces = endForcesOf(rig);
    const effects = loads.flatMap((load) => {
      const full = endForces({ at: run.loadCellAt, newtons: load });
      const short = angleAt(load);
      return full === null || short === null ? [] : [{ load, size: Math.abs(short - full.anchorAngle) }];
    });
    if (effects.length === 0) return;
    const worst = effects.reduce((a, b) => (b.size > a.size ? b : a));
    found.push({
      ...{ about: "simplification", load: worst.load, cause, worst: worst.size },
      larger: effects.filter((e) => e.size >= u).length,
      of: effects.length,
    });
  };
  const rode = compile(rig);
  const straight = Math.asin(Math.min(1, rode.rise / rode.totalLength));
  compare("straight", () => straight);
  const otherEnd = run.loadCellAt === "anchor" ? "bow" : "anchor";
  const swapped = endForcesOf(rig);
  compare(
    otherEnd === "anchor" ? "readAtAnchor" : "readAtBow",
    (load) => swapped({ at: otherEnd, newtons: load })?.anchorAngle ?? null,
  );
  if (rig.rode.some((part) => part.kind === "line" && part.stretch.kind !== "rigid")) {
    const stiff = endForcesOf({
      ...rig,
      rode: rig.rode.map((part) => (part.kind === "line" ? { ...part, stretch: { kind: "rigid" } as const } : part)),
    });
    compare("noStretch", (load) => stiff({ at: run.loadCellAt, newtons: load })?.anchorAngle ?? null);
  }
  if (rig.setting.bottomSlope !== 0) {
    const level = endForcesOf({ ...rig, setting: { ...rig.setting, bottomSlope: 0 } });
    compare("levelGround", (load) => level({ at: run.loadCellAt, newtons: load })?.anchorAngle ?? null);
  }
  return found;
}
