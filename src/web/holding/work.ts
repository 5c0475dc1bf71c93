/** What takes longer than a frame: figures of the pulls chosen, and the inquiry by draws. Runs in the worker. */
import { drawPulls, drawXy, heldSteps, type Layer, lineStyle, MOST_LINES, pullRows } from "../../figure/index.ts";
import {
  type AnchorInWind,
  type AngleCurve,
  anchorsInWind,
  angleCurves,
  anglesPulledAt,
  type Compared,
  type Conclusion,
  compare,
  holdingVerdicts,
  inquire,
  type LawWeighed,
  type ModelInput,
  type Priors,
  type Pull,
  type SamplingPlan,
  type Sensitivity,
  sampleOneChain,
  USUAL_PLAN,
  type WindAsked,
} from "../../holding/index.ts";
import { inUnit, plotForceUnit, type UnitSystem } from "../../quantity/index.ts";
import { type Chain, rng } from "../../statistics/index.ts";
import { sayHoldingVerdict } from "../../words/index.ts";
import { type ShownFigure, shownFigure } from "../figure/shown-figure.ts";
import { chainsBy, type OneChain } from "./chains-by.ts";
import { shownPulls } from "./shown-pulls.ts";

export interface Figures {
  readonly pulls: ShownFigure;
  readonly curves: ShownFigure | null;
  readonly anchors: Compared["anchors"];
  readonly logRank: NonNullable<Compared["logRank"]> | null;
  /** Said before any draw is made. */
  readonly sentences: readonly string[];
}

export function holdingFigures(pulls: readonly Pull[], units: UnitSystem, width: number): Figures {
  const compared = compare(pulls, { laws: [], permutations: 999 }, rng(1));
  const unit = plotForceUnit(units);
  const to = (newtons: number): number => inUnit(newtons, unit, "force");
  return {
    pulls: pullsFigure(
      pulls,
      compared.anchors.map(({ anchor }) => anchor),
      units,
      width,
    ),
    curves: curves(compared, to, unit, width),
    anchors: compared.anchors,
    logRank: compared.logRank ?? null,
    sentences: holdingVerdicts(compared)
      .slice(1)
      .map((verdict) => sayHoldingVerdict(verdict, { units, pullName: () => "a pull" })),
  };
}

/** Every pull of some anchors as a mark over the load. */
export function pullsFigure(
  pulls: readonly Pull[],
  anchors: readonly string[],
  units: UnitSystem,
  width: number,
): ShownFigure {
  const unit = plotForceUnit(units);
  const to = (newtons: number): number => inUnit(newtons, unit, "force");
  const rows = pullRows(pulls, anchors, to);
  const drawn = drawPulls({
    title: "Every pull",
    description: `${pulls.length} pulls of ${rows.length} anchors over the load at the anchor`,
    axis: `load at the anchor, ${unit}`,
    rows,
    width,
  });
  return shownPulls(drawn, rows, unit);
}

/** Chance to hold more than a load, a step line an anchor; of more than nine anchors the first nine. */
function curves(
  { anchors }: Compared,
  to: (newtons: number) => number,
  unit: string,
  width: number,
): ShownFigure | null {
  const most = anchors.reduce((top, { highest }) => Math.max(top, highest), 0);
  const layers = anchors.slice(0, MOST_LINES).map((about, k): Layer => {
    const { x, y } = heldSteps(about, to);
    return {
      kind: "line",
      x,
      y,
      ...lineStyle(k),
      label: about.anchor,
    };
  });
  if (layers.length === 0 || most === 0) return null;
  const title = "Chance to hold more than a load";
  const drawn = drawXy({
    title,
    description: "A step line for each anchor, falling where one of its pulls gave way",
    x: { label: "load at the anchor", unit, from: 0, to: to(most) * 1.02 },
    y: { label: "chance to hold more", unit: "", from: 0, to: 1 },
    layers,
    width,
    height: 320,
  });
  return shownFigure(title, drawn);
}

/** A chain drawn here; `tell` is called with how many draws are done, a hundred times in all. */
export function drawnChain(
  input: ModelInput,
  plan: SamplingPlan,
  chain: number,
  tell: (done: number) => void | Promise<void>,
): Chain {
  const every = Math.max(1, Math.round((plan.warmUp + plan.draws) / 100));
  return sampleOneChain(input, plan, chain, (done) => {
    if (done % every === 0) void tell(done);
    return true;
  });
}

export interface InquiryAsked {
  readonly pulls: readonly Pull[];
  /** How each pull is called in a sentence. */
  readonly names: readonly string[];
  readonly chance: number;
  readonly angle: number | null;
  readonly mass: number | null;
  readonly load: number | null;
  readonly priors: Priors;
  readonly seed: number;
  readonly units: UnitSystem;
  /** Boat, rode and winds the chance to hold is asked in. */
  readonly wind: WindAsked;
}

/** Plain data: what is shown and kept of an inquiry. */
export interface InquiryAnswer {
  readonly sentences: readonly string[];
  readonly concluded: {
    readonly law: string;
    readonly draws: number;
    readonly rHat: number;
    readonly effective: number;
    readonly divergent: number;
    readonly conditions: Conclusion["conditions"];
    readonly holds: Conclusion["holds"];
    readonly pairs: Conclusion["pairs"];
    readonly angle: NonNullable<Conclusion["angle"]> | null;
    /** Absent from what an earlier program kept. */
    readonly testers?: Conclusion["testers"] | null;
    readonly laws: readonly LawWeighed[];
    readonly sensitivity: readonly Sensitivity[];
    /** Absent from what an earlier program kept. */
    readonly priors?: Priors;
    readonly angleCurves?: readonly AngleCurve[];
    /** Angles pulled at, rad. */
    readonly angles?: readonly [number, number];
    readonly inWind?: { readonly boat: string; readonly rig: string; readonly anchors: readonly AnchorInWind[] };
  } | null;
}

/** @param draw draws one chain, beside others */
export async function holdingInquiry(asked: InquiryAsked, draw: OneChain): Promise<InquiryAnswer> {
  const { pulls, seed, units } = asked;
  const laws = ["lognormal", "weibull"] as const;
  const compared = compare(pulls, { laws: [], permutations: 999 }, rng(seed));
  const inquired = await inquire(
    {
      pulls,
      terms: compared.modelTerms,
      random: compared.random,
      laws,
      priors: asked.priors,
      wanted: {
        conditions: {
          ...(asked.angle === null ? {} : { anchorAngle: asked.angle }),
          ...(asked.mass === null ? {} : { mass: asked.mass }),
        },
        chances: [asked.chance],
        ...(asked.load === null ? {} : { load: asked.load }),
      },
      plan: { ...USUAL_PLAN, seed },
    },
    chainsBy(draw),
  );
  const part = inquired.kind === "concluded" ? inquired.pulls : pulls;
  const place = new Map(pulls.map((pull, i) => [pull, asked.names[i]!]));
  const pullName = (pull: number): string => place.get(part[pull]!) ?? "a pull";
  const sentences = holdingVerdicts(compared, inquired).map((verdict) =>
    sayHoldingVerdict(verdict, { units, pullName }),
  );
  if (inquired.kind !== "concluded") return { sentences, concluded: null };
  const { posterior, conclusion } = inquired;
  const angles = anglesPulledAt(part);
  return {
    sentences,
    concluded: {
      law: inquired.law,
      draws: posterior.length,
      rHat: posterior.rHatWorst,
      effective: posterior.effectiveLeast,
      divergent: posterior.divergent,
      conditions: conclusion.conditions,
      holds: conclusion.holds,
      pairs: conclusion.pairs,
      angle: conclusion.angle ?? null,
      testers: conclusion.testers ?? null,
      laws: inquired.laws,
      sensitivity: inquired.sensitivity,
      priors: asked.priors,
      angleCurves: angleCurves(posterior, conclusion, anglesOver(part)),
      ...(angles === undefined ? {} : { angles }),
      inWind: {
        boat: asked.wind.boat.name,
        rig: asked.wind.rig.name,
        anchors: anchorsInWind(asked.wind, inquired, seed),
      },
    },
  };
}

/** From flat to the steepest pulled at: forty steps. */
function anglesOver(pulls: readonly Pull[]): number[] {
  const most = anglesPulledAt(pulls)?.[1] ?? 0;
  return Array.from({ length: 41 }, (_, k) => (most * k) / 40);
}
