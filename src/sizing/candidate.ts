/** One rode of a plan under its load: strength, give, angle, room, weight. */
import { type NoEquilibrium, type Pull, partLoads, type Rig, type Settled, settleTraced } from "../rode/index.ts";
import { varied } from "./certainty.ts";
import type { DesignLoad } from "./design-load.ts";
import { type GivePerLoad, givePerLoad } from "./fade.ts";
import { type Give, giveBetween } from "./give.ts";
import { strengthInUse } from "./limits.ts";
import { type Aboard, aboard } from "./locker.ts";
import type { Candidate, PlanLimits } from "./plan.ts";
import { type Surge, snatchForce } from "./snatch.ts";
import { divide, type Snubbed, withSnubber } from "./snubber.ts";

/** How hard one part is loaded at the peak. */
export interface PartStrength {
  readonly part: number;
  readonly name: string;
  /** N */
  readonly load: number;
  /** Shares of what the part states; absent where it states none. */
  readonly workingLoad?: number;
  readonly breakingLoad?: number;
}

export interface Weighed {
  readonly kind: "weighed";
  readonly name: string;
  /** At the mean load and at the peak. */
  readonly mean: Settled;
  readonly peak: Settled;
  readonly peakFrom: "mean" | "peaks" | "surge";
  readonly strengths: readonly PartStrength[];
  /** The part nearest its limit: by working load limit, or by breaking load where no part states the former. */
  readonly weakest: PartStrength | null;
  readonly workingLoad: number | null;
  readonly breakingLoad: number | null;
  /** Of the snubber's strength in use; null without one. */
  readonly ropeShare: number | null;
  /** From the mean load to the peak; null where they are one. */
  readonly give: Give | null;
  readonly perLoad: GivePerLoad | null;
  readonly aboard: Aboard;
  readonly price: number | null;
  /** Standard uncertainties from the load and from what the rig states. */
  readonly u: { readonly anchorAngle: number; readonly span: number; readonly peak: number };
  readonly passed: readonly (keyof PlanLimits)[];
}

export interface NotWeighed {
  readonly kind: "notWeighed";
  readonly name: string;
  readonly why: string;
  readonly aboard: Aboard;
}

export function weigh(
  candidate: Candidate,
  load: DesignLoad,
  surge: Surge | undefined,
  limits: PlanLimits,
): Weighed | NotWeighed {
  const { name } = candidate;
  const stowed = aboard(stowedRode(candidate));
  const none = (why: string): NotWeighed => ({ kind: "notWeighed", name, why, aboard: stowed });
  const snubbed = candidate.snubber === undefined ? null : withSnubber(candidate.rig, candidate.snubber);
  if (snubbed !== null && "kind" in snubbed) return none("its snubber cannot be rigged on it");
  const rig = snubbed?.rig ?? candidate.rig;
  const found = statesOf(rig, load, surge);
  if ("why" in found) return none(found.why);
  const { mean, peak, peakFrom } = found;
  const strengths = strengthsOf(rig, peak.loads);
  const highest = (field: "workingLoad" | "breakingLoad"): PartStrength | null =>
    strengths.reduce<PartStrength | null>(
      (most, one) => (one[field] !== undefined && one[field] > (most?.[field] ?? 0) ? one : most),
      null,
    );
  const [byWorking, byBreaking] = [highest("workingLoad"), highest("breakingLoad")];
  const ropeShare = snubbed === null ? null : shareOfRope(snubbed, peak.loads, candidate);
  const apart = peak.settled.horizontal > mean.settled.horizontal * (1 + 1e-9);
  const give = apart ? giveBetween(rig, mean.settled.horizontal, peak.settled.horizontal) : null;
  const answer: Omit<Weighed, "passed"> = {
    kind: "weighed",
    name,
    mean: mean.settled,
    peak: peak.settled,
    peakFrom,
    strengths,
    weakest: byWorking ?? byBreaking,
    workingLoad: byWorking?.workingLoad ?? null,
    breakingLoad: byBreaking?.breakingLoad ?? null,
    ropeShare,
    give: give !== null && give.kind === "give" ? give : null,
    perLoad: givePerLoad(rig, mean.settled.horizontal, load.at),
    aboard: stowed,
    price: candidate.price ?? null,
    u: uncertaintyOf(rig, load, surge),
  };
  return { ...answer, passed: passedBy(answer, limits) };
}

/** A rode as it lies in the locker: with its snubber, and the chain that hangs beside it. */
function stowedRode({ rig, snubber }: Candidate): Rig["rode"] {
  if (snubber === undefined) return rig.rode;
  const { rope, length, bridle, slack, hooked } = snubber;
  const ropeLength = length + (bridle === undefined ? 0 : (bridle.other ?? length));
  const parts = [...rig.rode];
  const top = parts.findLastIndex((part) => part.kind === "line");
  const line = parts[top];
  if (hooked === "veered" && slack !== undefined && line?.kind === "line")
    parts[top] = { ...line, length: line.length + length + slack };
  return [
    ...parts,
    {
      kind: "line",
      name: rope.name,
      length: ropeLength,
      massPerLength: rope.massPerLength,
      density: rope.density,
      stretch: rope.stretch,
      diameter: rope.diameter,
      material: "rope",
    },
  ];
}

interface State {
  readonly settled: Settled;
  readonly loads: Float64Array;
}

function at(rig: Rig, pull: Pull): State | NoEquilibrium {
  const traced = settleTraced(rig, pull);
  return "settled" in traced ? { settled: traced.settled, loads: partLoads(traced) } : traced;
}

function statesOf(
  rig: Rig,
  load: DesignLoad,
  surge: Surge | undefined,
): { mean: State; peak: State; peakFrom: Weighed["peakFrom"] } | { why: string } {
  const mean = at(rig, { at: load.at, newtons: load.mean.value });
  if (!("loads" in mean)) return { why: mean.why };
  const brief = load.peaked ? at(rig, { at: load.at, newtons: load.peak.value }) : mean;
  if (!("loads" in brief)) return { why: brief.why };
  const still = { mean, peak: brief, peakFrom: load.peaked ? ("peaks" as const) : ("mean" as const) };
  if (surge === undefined) return still;
  const horizontal = snatchForce(rig, mean.settled.horizontal, surge);
  if (!Number.isFinite(horizontal)) return { why: "the surge is more than the rode ever takes up" };
  if (horizontal <= brief.settled.horizontal) return still;
  const snatched = at(rig, { at: "horizontal", newtons: horizontal });
  if (!("loads" in snatched)) return { why: snatched.why };
  return { mean, peak: snatched, peakFrom: "surge" };
}

function strengthsOf(rig: Rig, loads: Float64Array): readonly PartStrength[] {
  return rig.rode.map((part, i) => ({
    part: i + 1,
    name: part.name,
    load: loads[i]!,
    ...(part.workingLoad === undefined ? {} : { workingLoad: loads[i]! / part.workingLoad }),
    ...(part.breakingLoad === undefined ? {} : { breakingLoad: loads[i]! / part.breakingLoad }),
  }));
}

function shareOfRope(snubbed: Snubbed, loads: Float64Array, { ends }: Candidate): number {
  return Math.max(...divide(snubbed, loads[snubbed.line]!).legs) / strengthInUse(snubbed.rope, ends);
}

/** First order, as certainty.ts has it: the load, mass per length and rise each moved by its own uncertainty. */
function uncertaintyOf(rig: Rig, load: DesignLoad, surge: Surge | undefined): Weighed["u"] {
  const { massPerLength = 0, rise = 0 } = rig.uncertainty;
  const moves = [
    { mass: massPerLength, rise: 0, load: 0 },
    { mass: 0, rise, load: 0 },
    { mass: 0, rise: 0, load: 1 },
  ].filter((move) => move.mass > 0 || move.rise > 0 || (move.load > 0 && load.mean.u > 0));
  const u = { anchorAngle: 0, span: 0, peak: 0 };
  for (const move of moves) {
    const [more, less] = [1, -1].map((sign) => {
      const shifted = (one: { value: number; u: number }) => ({ ...one, value: one.value + sign * move.load * one.u });
      const found = statesOf(
        varied(rig, 1 + sign * move.mass, sign * move.rise, 1),
        { ...load, mean: shifted(load.mean), peak: shifted(load.peak) },
        surge,
      );
      return "why" in found ? null : found;
    });
    if (!more || !less) continue;
    u.anchorAngle = Math.hypot(u.anchorAngle, 0.5 * (more.peak.settled.anchor.angle - less.peak.settled.anchor.angle));
    u.span = Math.hypot(u.span, 0.5 * (more.peak.settled.span - less.peak.settled.span));
    u.peak = Math.hypot(u.peak, 0.5 * (more.peak.settled.bow.tension - less.peak.settled.bow.tension));
  }
  return u;
}

function passedBy(answer: Omit<Weighed, "passed">, limits: PlanLimits): readonly (keyof PlanLimits)[] {
  const values: Readonly<Record<keyof PlanLimits, number | null>> = {
    workingLoad: answer.workingLoad,
    breakingLoad: answer.breakingLoad,
    ropeShare: answer.ropeShare,
    anchorAngle: answer.peak.anchor.angleToBottom,
    peak: answer.peak.bow.tension,
    weight: answer.aboard.weight,
    volume: answer.aboard.volume.value,
    span: answer.peak.span,
    price: answer.price,
  };
  return (Object.keys(values) as (keyof PlanLimits)[]).filter((field) => {
    const [value, limit] = [values[field], limits[field]];
    return limit !== undefined && value !== null && value > limit * (1 + 1e-12);
  });
}
