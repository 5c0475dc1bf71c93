/**
 * A load held, at both ends of the rode as deployed, with the angle at which it pulled at the anchor.
 *
 * Uncertainty (JCGM 100:2008, eq. 10) from the load read, mass per length, rise and length paid out, each across its
 * whole standard uncertainty, so that it does not vanish at a corner (the anchor just not lifted). What may have been
 * altogether otherwise (another line paid out, the load read at the other end) adds the change over √3.
 */
import type { Measured, ReadAt } from "../pull/index.ts";
import { type NoEquilibrium, type Rig, type Settled, settle } from "../rode/index.ts";
import { combined, jacobian } from "../statistics/index.ts";
import { ONE_SIDED } from "./assumptions.ts";
import { type Deployment, deployed } from "./deployment.ts";
import type { DeploymentInput, Doubt } from "./doubt.ts";

/** A load at both ends and the angle at the anchor, each with its ±. */
export interface CarriedLoad {
  readonly kind: "carried";
  /** End at which the load was read. */
  readonly readAt: ReadAt;
  /** Loads at both ends, N. */
  readonly anchor: Measured;
  readonly bow: Measured;
  /** Angle of the rode above the bottom at the anchor, rad. */
  readonly angleToBottom: Measured;
  /** What each source adds to the uncertainty of the three, largest share of the angle first. */
  readonly sources: readonly UncertaintySource[];
  readonly settled: Settled;
  readonly doubts: readonly Doubt[];
}

/** What one source adds to each ±, which is the root of the sum of their squares. */
export interface UncertaintySource {
  readonly input: DeploymentInput;
  /** N, N, rad */
  readonly anchor: number;
  readonly bow: number;
  readonly angleToBottom: number;
}

/** What is read off an equilibrium, in the order of `UncertaintySource`. */
const ANSWERS = [
  (s: Settled) => s.anchor.tension,
  (s: Settled) => s.bow.tension,
  (s: Settled) => s.anchor.angleToBottom,
] as const;

/**
 * @param load N at `readAt`
 * @param endKnown false: the end is a guess, and the other one counts as possible
 */
export function carryLoad(
  deployment: Deployment,
  load: Measured,
  readAt: ReadAt,
  endKnown = true,
): CarriedLoad | NoEquilibrium {
  const answer = settle(deployment.rig, { at: readAt, newtons: load.value });
  if (answer.kind !== "settled") return answer;
  const at = (rig: Rig | null, newtons = load.value, end = readAt): Settled | null => {
    const moved = rig === null ? null : settle(rig, { at: end, newtons: Math.max(0, newtons) });
    return moved?.kind === "settled" ? moved : null;
  };
  const { uMass, rise, paidOut } = deployment;
  const inputs: { readonly input: DeploymentInput; readonly u: number; readonly at: (by: number) => Settled | null }[] =
    [
      { input: "load", u: load.u, at: (by) => at(deployment.rig, load.value + by) },
      { input: "mass per length", u: uMass, at: (by) => at(deployed(deployment, { mass: 1 + by })) },
      { input: "rise", u: rise.u, at: (by) => at(deployed(deployment, { rise: by })) },
      { input: "length paid out", u: paidOut.share, at: (by) => at(deployed(deployment, { length: 1 + by })) },
    ];
  const doubts: Doubt[] = [];
  const sources: UncertaintySource[] = [];
  const add = (input: DeploymentInput, [anchor, bow, angleToBottom]: ArrayLike<number> & Iterable<number>): void => {
    sources.push({ input, anchor: anchor!, bow: bow!, angleToBottom: angleToBottom! });
  };
  const otherwise = (settled: Settled) => ANSWERS.map((read) => ONE_SIDED * Math.abs(read(settled) - read(answer)));
  for (const { input, u, at: movedBy } of inputs) {
    if (!(u > 0)) continue;
    const model = ([by]: Float64Array, out: Float64Array): void => {
      const settled = by === 0 ? answer : movedBy(by!);
      ANSWERS.forEach((read, k) => {
        out[k] = settled === null ? Number.NaN : read(settled);
      });
    };
    // One at a time: an input that cannot be moved is told, and the others count all the same.
    const moved = jacobian(model, ANSWERS.length, [{ name: input, value: 0, u }], "across");
    if (moved.kind !== "jacobian") doubts.push({ kind: "cannotMove", input, sides: 2 });
    else {
      if (moved.oneSided.length > 0) doubts.push({ kind: "cannotMove", input, sides: 1 });
      add(input, moved.contributions[0]!);
    }
  }
  const otherLines = deployment.otherParts.map((part) => at(deployed(deployment, { part }))).filter((s) => s !== null);
  if (otherLines.length > 0) add("line paid out", otherwise(furthest(otherLines, answer)));
  if (!endKnown) {
    const other = at(deployment.rig, load.value, readAt === "bow" ? "anchor" : "bow");
    if (other === null) doubts.push({ kind: "cannotMove", input: "end read", sides: 1 });
    else add("end read", otherwise(other));
  }
  sources.sort((a, b) => b.angleToBottom - a.angleToBottom);
  const values = Float64Array.from(ANSWERS, (read) => read(answer));
  const contributions = sources.map(({ anchor, bow, angleToBottom }) => Float64Array.of(anchor, bow, angleToBottom));
  const { u } = combined({ values, contributions });
  const measured = (i: 0 | 1 | 2): Measured => ({ value: values[i]!, u: u[i]! });
  return {
    kind: "carried",
    readAt,
    anchor: measured(0),
    bow: measured(1),
    angleToBottom: measured(2),
    sources,
    settled: answer,
    doubts,
  };
}

function furthest(candidates: readonly Settled[], from: Settled): Settled {
  const off = (s: Settled) => Math.abs(s.anchor.angleToBottom - from.anchor.angleToBottom);
  return candidates.reduce((a, b) => (off(b) > off(a) ? b : a));
}
