/** One rode of a plan under its load: strength, give, angle, room, weight. */
import {
  movedRig,
  type NoEquilibrium,
  type Pull,
  partLoads,
  type Rig,
  rigInputs,
  type Settled,
  settleTraced,
} from "../rode/index.ts";
import { combined, jacobian } from "../statistics/index.ts";
import { type GivePerLoad, givePerLoad } from "./catenary-end.ts";
import { quickInputs, RUN_SHARE } from "./certainty.ts";
import type { DesignLoad } from "./design-load.ts";
import { type Give, giveBetween } from "./give.ts";
import { strengthInUse } from "./limits.ts";
import { type Stowed, stowed } from "./locker.ts";
import type { Candidate, Plan, PlanLimits } from "./plan.ts";
import { type Surge, surgePeak } from "./snatch.ts";
import { divide, type NotSnubbed, type Snubbed, withSnubber } from "./snubber.ts";
import { hardestInUse, type InUse } from "./strength-in-use.ts";

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

/** A candidate under the plan's load: strength, give, angle, room, weight. */
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
  /** Of strength in use, by one measure for chain, rope and snubber; null where nothing states a breaking load. */
  readonly inUse: InUse | null;
  /** Of the snubber's strength in use; null without one. */
  readonly ropeShare: number | null;
  /** From the mean load to the peak; null where they are one. */
  readonly give: Give | null;
  readonly perLoad: GivePerLoad | null;
  readonly stowed: Stowed;
  readonly price: number | null;
  /** Standard uncertainties at the peak from the load and from what the rig states; null where they cannot be known. */
  readonly u: { readonly anchorAngle: number; readonly span: number; readonly peak: number } | null;
  /** The input beside whose estimate there is no equilibrium; null where `u` is known. */
  readonly cannotMove: string | null;
  readonly passed: readonly (keyof PlanLimits)[];
}

/** Why a candidate cannot be weighed: its snubber, its rest under one of the loads, or a surge it never takes up. */
export type NotWeighedCause = NotSnubbed | NoEquilibrium | { readonly kind: "surgeNotTaken" };

/** A candidate that cannot be set beside the others, and why. */
export interface NotWeighed {
  readonly kind: "notWeighed";
  readonly name: string;
  readonly why: NotWeighedCause;
  readonly stowed: Stowed;
}

/** @param withU whether uncertainties are asked for: they take most of the time */
export function weigh(
  candidate: Candidate,
  load: DesignLoad,
  { surge, surgeU = 0 }: Pick<Plan, "surge" | "surgeU">,
  limits: PlanLimits,
  withU = true,
): Weighed | NotWeighed {
  const { name } = candidate;
  const ofRode = stowed(stowedRode(candidate));
  const none = (why: NotWeighedCause): NotWeighed => ({ kind: "notWeighed", name, why, stowed: ofRode });
  const snubbed = candidate.snubber === undefined ? null : withSnubber(candidate.rig, candidate.snubber);
  if (snubbed !== null && "kind" in snubbed) return none(snubbed);
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
    inUse: hardestInUse(
      rig,
      peak.loads,
      candidate.ends,
      snubbed === null ? null : { line: snubbed.line, share: ropeShare! },
    ),
    ropeShare,
    give: give !== null && give.kind === "give" ? give : null,
    perLoad: givePerLoad(rig, mean.settled.horizontal, load.at),
    stowed: ofRode,
    price: candidate.price ?? null,
    ...(withU ? uncertaintyOf(rig, load, surge, surgeU) : { u: null, cannotMove: null }),
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
): { mean: State; peak: State; peakFrom: Weighed["peakFrom"] } | { why: NotWeighedCause } {
  const mean = at(rig, { at: load.at, newtons: load.mean.value });
  if (!("loads" in mean)) return { why: mean };
  const brief = load.peaked ? at(rig, { at: load.at, newtons: load.peak.value }) : mean;
  if (!("loads" in brief)) return { why: brief };
  const still = { mean, peak: brief, peakFrom: load.peaked ? ("peaks" as const) : ("mean" as const) };
  if (surge === undefined) return still;
  const ridden = surgePeak(rig, mean.settled.horizontal, surge);
  if (ridden?.kind !== "peak") return { why: { kind: "surgeNotTaken" } };
  if (ridden.bow <= brief.settled.bow.tension) return still;
  const snatched = at(rig, { at: "bow", newtons: ridden.bow });
  if (!("loads" in snatched)) return { why: snatched };
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

/** First order: the load (mean and peak together), the surge, and what the rig states, each moved by a part of its own uncertainty. */
function uncertaintyOf(
  rig: Rig,
  load: DesignLoad,
  surge: Surge | undefined,
  surgeU: number,
): Pick<Weighed, "u" | "cannotMove"> {
  const own = [...rigInputs(rig), ...(surge === undefined ? [] : quickInputs(rig))];
  const inputs = [
    ...own,
    { name: "load", value: 0, u: load.mean.u > 0 ? 1 : 0 },
    { name: "surge", value: 0, u: surge === undefined ? 0 : surgeU },
  ];
  if (inputs.every(({ u }) => u === 0)) return { u: { anchorAngle: 0, span: 0, peak: 0 }, cannotMove: null };
  const first = jacobian(
    (x, out) => {
      out.fill(Number.NaN);
      const move: Record<string, number> = {};
      own.forEach(({ input }, i) => {
        if (input !== undefined) move[input] = (move[input] ?? 0) + x[i]!;
      });
      const there = movedRig(rig, move);
      const shifted = (one: { value: number; u: number }) => ({ ...one, value: one.value + x[own.length]! * one.u });
      const found =
        there &&
        statesOf(
          there,
          { ...load, mean: shifted(load.mean), peak: shifted(load.peak) },
          surge && surgedBy(surge, x[own.length + 1]!),
        );
      if (found === null || "why" in found) return;
      const { anchor, span, bow } = found.peak.settled;
      out.set([anchor.angleToBottom, span, bow.tension]);
    },
    3,
    inputs,
    surge === undefined ? undefined : RUN_SHARE,
  );
  if (first.kind !== "jacobian") return { u: null, cannotMove: first.kind === "cannotMove" ? first.input : null };
  const [anchorAngle, span, peak] = combined(first).u;
  return { u: { anchorAngle: anchorAngle!, span: span!, peak: peak! }, cannotMove: null };
}

function surgedBy(surge: Surge, more: number): Surge {
  if (surge.kind === "speed") return { ...surge, speed: Math.max(0, surge.speed + more) };
  return surge.kind === "distance" ? { ...surge, distance: Math.max(0, surge.distance + more) } : surge;
}

function passedBy(answer: Omit<Weighed, "passed">, limits: PlanLimits): readonly (keyof PlanLimits)[] {
  const values: Readonly<Record<keyof PlanLimits, number | null>> = {
    workingLoad: answer.workingLoad,
    breakingLoad: answer.breakingLoad,
    strength: answer.inUse?.share ?? null,
    ropeShare: answer.ropeShare,
    anchorAngle: answer.peak.anchor.angleToBottom,
    peak: answer.peak.bow.tension,
    weight: answer.stowed.weight,
    volume: answer.stowed.volume.value,
    span: answer.peak.span,
    price: answer.price,
  };
  return (Object.keys(values) as (keyof PlanLimits)[]).filter((field) => {
    const [value, limit] = [values[field], limits[field]];
    return limit !== undefined && value !== null && value > limit * (1 + 1e-12);
  });
}
