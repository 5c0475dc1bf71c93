/** What a load at the bow is at the anchor, and what it is to the gear, in the water of a pull. */
import { type Rig, readRig, settle, settleTraced, strengthOf } from "../../rode/index.ts";
import { type CarriedLoad, carryLoad, type Deployment, deploymentOf } from "../../study/index.ts";
import { type DeckPull, deployedAt } from "./pull.ts";

/** A pull's rig in its own water, as it lies at a step. */
export const deploymentOfPull = (pull: Pick<DeckPull, "rig" | "deployed" | "steps">, step = 0): Deployment =>
  deploymentOf(readRig(pull.rig.file, pull.rig.name), deployedAt(pull, step));

/** null where the rode has no equilibrium under it */
export function atTheAnchor(deployment: Deployment, newtons: number, u: number): CarriedLoad | null {
  const carried = carryLoad(deployment, { value: newtons, u }, "bow");
  return carried.kind === "carried" ? carried : null;
}

/** The load at the bow that pulls so at the anchor, N. */
export function atTheBow(deployment: Deployment, newtons: number): number | null {
  const carried = carryLoad(deployment, { value: newtons, u: 0 }, "anchor");
  return carried.kind === "carried" ? carried.bow.value : null;
}

/** Loads between which the rode's give is straight enough, of the one asked. */
const NEAR_ASKED = [0.9, 1, 1.15, 1.4];

/** How far the rode lets the boat go back at a load near the one asked at the bow, m; null where it has no equilibrium. */
export function giveNear({ rig }: Deployment, asked: number): ((newtons: number) => number) | null {
  const points = NEAR_ASKED.flatMap((share) => {
    const settled = settle(rig, { at: "bow", newtons: share * asked });
    return settled.kind === "settled" ? [{ load: share * asked, span: settled.span }] : [];
  });
  if (points.length < NEAR_ASKED.length) return null;
  return (newtons) => {
    const next = points.findIndex(({ load }, i) => i > 0 && (newtons <= load || i === points.length - 1));
    const [a, b] = [points[next - 1]!, points[next]!];
    return a.span + ((b.span - a.span) * (newtons - a.load)) / (b.load - a.load);
  };
}

/** The part that uses most of its working load limit. */
export interface Weakest {
  readonly part: string;
  readonly share: number;
  readonly limit: number;
}

/** null where no part states a limit */
export function weakestOf(rig: Rig, newtons: number): Weakest | null {
  const traced = settleTraced(rig, { at: "bow", newtons });
  if (!("settled" in traced)) return null;
  let weakest: Weakest | null = null;
  for (const { name, load, workingLoad } of strengthOf(rig, traced))
    if (workingLoad !== null && (weakest === null || load / workingLoad > weakest.share))
      weakest = { part: name, share: load / workingLoad, limit: workingLoad };
  return weakest;
}

/** From this share of a working load limit on it is warned of. */
export const NEAR = 0.8;
