/**
 * From pulls to weather: the chance that the largest load of a wind stays below what an anchor holds, on a boat and a rode.
 *
 * The wind gives a peak load with its ±; the rode gives the load and the angle at the anchor under it; the model gives what
 * holds at that angle at a site and day not pulled at yet. The chance is over pulls (scatter, sites, days); its band is over
 * what is not known: the load of that wind, the angle, and what the anchors hold. Which of the three makes the band wide
 * is told by letting one vary at a time.
 */
import { DEGREES } from "../quantity/index.ts";
import { certaintyOf, type Pull as Load, type Rig, settle } from "../rode/index.ts";
import { type Boat, CALM_SURROUNDINGS, type Conditions, type Measured, weather } from "../sea/index.ts";
import type { Rng } from "../statistics/index.ts";
import { REFERENCE_ANGLE } from "./model.ts";
import { type Posterior, sortedQuantile } from "./posterior.ts";
import { chanceAbove } from "./predict.ts";
import { type PredictiveDraws, predictiveDraws } from "./predictive-draws.ts";

/** Where a wind's largest load comes from. */
export type PeakFrom = "measuredPeaks" | "windageGust" | "windageSteady";

/** The largest load of a storm, ln N, with its scatter. */
export interface PeakLoad extends Measured {
  readonly at: "anchor" | "bow" | "horizontal";
  readonly from: PeakFrom;
}

/** Holding in one wind: its chance with its band, or why there is none. */
export type WindPoint =
  | {
      readonly kind: "chance";
      /** m/s, mean at 10 m. */
      readonly wind: number;
      readonly peak: PeakLoad;
      /** At the anchor under it. */
      readonly anchorLoad: number;
      /** rad to the bottom, and its standard uncertainty by the rig. */
      readonly anchorAngle: Measured;
      /** Beyond the angles pulled at: holding there is drawn on, not seen. */
      readonly beyondAngles: boolean;
      readonly chance: number;
      /** 95 % band of that chance. */
      readonly low: number;
      readonly high: number;
      /** Of the band's variance, one at a time; they add up to 1; all zero where there is no band. */
      readonly shares: { readonly windLoad: number; readonly angle: number; readonly holding: number };
    }
  | { readonly kind: "noEquilibrium"; readonly wind: number; readonly peak: PeakLoad }
  | { readonly kind: "noLoad"; readonly wind: number };

/** Boat, rig and winds that holding is asked about. */
export interface WindQuestion {
  readonly boat: Boat;
  readonly rig: Rig;
  /** m/s */
  readonly winds: readonly number[];
  readonly anchor: string;
  /** kg; the model's middle where left out. */
  readonly mass?: number;
  readonly seabed?: string;
  /** Lowest and highest angle of the pulls, rad. */
  readonly angles?: readonly [number, number];
}

/** Brief gusts by a published model, where no peaks were measured on the boat. */
const SURROUNDINGS: Conditions = {
  ...CALM_SURROUNDINGS,
  gust: { model: { kind: "froya" }, averaging: 600, duration: 3 },
};
/** Of the posterior, evenly thinned: a chance is then good to a percent or so of its own band. */
const DRAWS = 1000;
const TABLE = 25;
/** A load known to no better than this is drawn so: its logarithm has no wider meaning. */
const WIDEST = 0.5;

/** What an anchor holds set against the largest load of each wind. */
export function holdingInWind(posterior: Posterior, question: WindQuestion, rng: Rng): WindPoint[] {
  return drawsInWind(predictiveDraws(posterior, DRAWS), question, rng);
}

/** The same by draws alone, wherever they were kept; of another length than a thousand they are thinned, or drawn on again. */
export function drawsInWind(held: PredictiveDraws, question: WindQuestion, rng: Rng): WindPoint[] {
  const { boat, rig, winds } = question;
  const z = Float64Array.from({ length: 2 * DRAWS }, () => rng.normal());
  return winds.map((wind): WindPoint => {
    const peak = peakLoad(boat, wind);
    if (peak === undefined || !(peak.value > 0)) return { kind: "noLoad", wind };
    const spread = Math.min(WIDEST, peak.u / peak.value);
    const table = rodeTable(rig, peak, spread);
    if (table === undefined) return { kind: "noEquilibrium", wind, peak };
    const uAngle = certaintyOf(rig, { at: peak.at, newtons: peak.value } as Load)?.anchorAngle ?? 0;
    return { kind: "chance", wind, peak, ...chances(held, question, peak, spread, table, uAngle, z) };
  });
}

/**
 * The largest load a boat puts on her rode in one wind: by her measured peaks where she has them, else by windage, in
 * gusts where a law of gusts applies.
 * @param wind mean at 10 m, m/s
 * @returns N with its standard uncertainty and the end it is at; undefined where the boat states neither
 */
export function peakLoad(boat: Boat, wind: number): PeakLoad | undefined {
  const answer = weather(boat, { value: wind, u: 0 }, SURROUNDINGS);
  for (const { at, peak } of answer.measured) {
    if (peak !== undefined) return { value: peak.value, u: peak.u, at, from: "measuredPeaks" };
  }
  const { windage } = answer;
  if (windage === undefined) return undefined;
  const [load, from] =
    windage.gust === undefined
      ? ([windage.steady, "windageSteady"] as const)
      : ([windage.gust, "windageGust"] as const);
  return { value: load.value, u: load.u, at: "horizontal", from };
}

interface RodeTable {
  /** ln of the peak load; of the load at the anchor; its angle to the bottom. */
  readonly lnPeak: Float64Array;
  readonly lnAnchor: Float64Array;
  readonly angle: Float64Array;
}

/** The rode over loads four spreads either side; undefined where it has no equilibrium under one of them. */
function rodeTable(rig: Rig, peak: PeakLoad, spread: number): RodeTable | undefined {
  const reach = Math.max(0.01, 4 * spread);
  const table = {
    lnPeak: new Float64Array(TABLE),
    lnAnchor: new Float64Array(TABLE),
    angle: new Float64Array(TABLE),
  };
  for (let k = 0; k < TABLE; k++) {
    const ln = Math.log(peak.value) + reach * ((2 * k) / (TABLE - 1) - 1);
    const settled = settle(rig, { at: peak.at, newtons: Math.exp(ln) } as Load);
    if (settled.kind === "noEquilibrium") return undefined;
    table.lnPeak[k] = ln;
    // Where the resting rode carries all of it nothing reaches the anchor.
    table.lnAnchor[k] = Math.log(Math.max(1e-3, settled.anchor.tension));
    table.angle[k] = settled.anchor.angle - (rig.setting.medium === "water" ? rig.setting.bottomSlope : 0);
  }
  return table;
}

function between(x: Float64Array, y: Float64Array, at: number): number {
  const place = ((at - x[0]!) / (x.at(-1)! - x[0]!)) * (x.length - 1);
  const k = Math.max(0, Math.min(x.length - 2, Math.floor(place)));
  return y[k]! + (place - k) * (y[k + 1]! - y[k]!);
}

function chances(
  held: PredictiveDraws,
  { anchor, mass, seabed, angles }: WindQuestion,
  peak: PeakLoad,
  spread: number,
  table: RodeTable,
  uAngle: number,
  z: Float64Array,
) {
  const { law, length } = held;
  const ofAnchor = held.ofAnchor[held.anchors.indexOf(anchor)];
  const ofSeabed = seabed === undefined ? undefined : held.ofSeabed[held.seabeds.indexOf(seabed)];
  const lnMass = mass === undefined ? 0 : Math.log(mass) - held.lnMassMiddle;
  /** Centre at the reference angle, slope by degrees, spread of sites and days, scatter: of a draw, or their means. */
  const holding = (s: number): [number, number, number, number] => [
    held.centre[s]! + (ofAnchor?.[s] ?? 0) + held.mass[s]! * lnMass + (ofSeabed?.[s] ?? 0),
    held.angle[s]!,
    held.spread[s]!,
    held.scatter[s]!,
  ];
  const rows = Array.from({ length: DRAWS }, (_, k) => holding(Math.floor((k * length) / DRAWS)));
  const middle = [0, 1, 2, 3].map((c) => rows.reduce((sum, row) => sum + row[c]!, 0) / DRAWS) as (typeof rows)[number];
  const lnPeak = Math.log(peak.value);
  const chance = (row: typeof middle, zLoad: number, zAngle: number): number => {
    const ln = lnPeak + spread * zLoad;
    const angle = between(table.lnPeak, table.angle, ln) + uAngle * zAngle;
    const centre = row[0] + row[1] * (angle * DEGREES - REFERENCE_ANGLE);
    return chanceAbove(law, between(table.lnPeak, table.lnAnchor, ln) - centre, row[2], row[3]);
  };
  const sample = (load: boolean, angle: boolean, held: boolean): Float64Array =>
    Float64Array.from({ length: DRAWS }, (_, k) =>
      chance(held ? rows[k]! : middle, load ? z[2 * k]! : 0, angle ? z[2 * k + 1]! : 0),
    );
  const all = sample(true, true, true).sort();
  const [windLoad, ofAngle, ofHolding] = [
    varianceOf(sample(true, false, false)),
    varianceOf(sample(false, true, false)),
    varianceOf(sample(false, false, true)),
  ] as const;
  const total = windLoad + ofAngle + ofHolding || 1;
  const angle = between(table.lnPeak, table.angle, lnPeak);
  return {
    anchorLoad: Math.exp(between(table.lnPeak, table.lnAnchor, lnPeak)),
    anchorAngle: { value: angle, u: uAngle },
    beyondAngles: angles !== undefined && (angle < angles[0] - 1e-9 || angle > angles[1] + 1e-9),
    chance: all.reduce((sum, p) => sum + p, 0) / DRAWS,
    low: sortedQuantile(all, 0.025),
    high: sortedQuantile(all, 0.975),
    shares: { windLoad: windLoad / total, angle: ofAngle / total, holding: ofHolding / total },
  };
}

function varianceOf(values: Float64Array): number {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / values.length;
}
