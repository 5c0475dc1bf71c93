/** What a pull says of its anchor: the rig as it lay, what was held, carried to the anchor, and what to doubt. */
import type { ReadAt } from "../pull/index.ts";
import { InputError } from "../quantity/index.ts";
import { type NoEquilibrium, type Rig, readRig } from "../rode/index.ts";
import { type CarriedLoad, carryLoad } from "./carried.ts";
import { type Deployment, type DeploymentRecord, deploymentOf } from "./deployment.ts";
import type { Doubt } from "./doubt.ts";
import type { PullCase } from "./pull-case.ts";
import { type Verdict, verdictOf } from "./verdict.ts";

/** What one pull says of its anchor, and every reason to doubt it. */
export interface PullEvidence {
  /** Id of the pull. */
  readonly pull: string;
  /** The rig in the pull's own water; null without a rig that can be read. */
  readonly deployment: Deployment | null;
  /** The same when it held what it held: another one where it was veered before it gave way. */
  readonly deploymentHeld: Deployment | null;
  /** What was held, at the end the load was read at. */
  readonly verdict: Verdict;
  /** Whether the verdict is the record's or the log's; null where neither knows. */
  readonly from: "record" | "log" | null;
  readonly readAt: ReadAt;
  /** The loads of the verdict carried to both ends; null without a rig, or where the verdict has no such load. */
  readonly heldTo: CarriedLoad | NoEquilibrium | null;
  readonly gaveWayBy: CarriedLoad | NoEquilibrium | null;
  /** Every reason to trust it less, typed. */
  readonly doubts: readonly Doubt[];
}

/** Never throws for what a record holds: what cannot be read is a doubt. */
export function pullEvidence(about: PullCase): PullEvidence {
  const read = verdictOf(about.pull, about.log);
  const doubts: Doubt[] = [...read.doubts];
  const { verdict, paidOut } = read;
  const deployment = deploymentOfCase(about, doubts, verdict.kind === "heldTo" ? paidOut.heldTo : paidOut.gaveWayBy);
  const deploymentHeld =
    verdict.kind === "between" && paidOut.heldTo !== paidOut.gaveWayBy
      ? deploymentOfCase(about, [], paidOut.heldTo)
      : deployment;
  if (deployment !== null) doubts.push(...deployment.doubts);
  const carried = (
    load: { value: number; u: number } | null,
    deployment: Deployment | null,
  ): CarriedLoad | NoEquilibrium | null => {
    if (deployment === null || load === null) return null;
    const answer = carryLoad(deployment, load, read.readAt, read.endKnown);
    if (answer.kind === "noEquilibrium") doubts.push({ kind: "noEquilibrium", newtons: load.value, none: answer });
    else doubts.push(...answer.doubts.filter((doubt) => !doubts.some((known) => isSame(known, doubt))));
    return answer;
  };
  const heldTo = carried(
    verdict.kind === "heldTo" || verdict.kind === "gaveWay"
      ? verdict.load
      : verdict.kind === "between"
        ? verdict.heldTo
        : null,
    deploymentHeld,
  );
  const gaveWayBy =
    verdict.kind === "gaveWay"
      ? heldTo
      : carried(
          verdict.kind === "between" ? verdict.gaveWayBy : verdict.kind === "neverSet" ? verdict.by : null,
          deployment,
        );
  return {
    pull: about.pull.id,
    deployment,
    deploymentHeld,
    verdict,
    from: read.from,
    readAt: read.readAt,
    heldTo,
    gaveWayBy,
    doubts,
  };
}

/** What a pull's records say of how its rig lay. */
export function deploymentRecordOf({ pull, depthByLevel }: Pick<PullCase, "pull" | "depthByLevel">): DeploymentRecord {
  return { depth: pull.depth_m, depthByLevel, scope: pull.scope, paidOut: pull.paidOut_m };
}

/**
 * A rig in the water of a pull that may have been veered.
 * @param paidOut m that were then out, whatever is told of the length and scope it began with; null: as it was at first
 */
export function deploymentVeered(filed: Rig, record: DeploymentRecord, paidOut: number | null): Deployment {
  const first = deploymentOf(filed, record);
  if (paidOut === null || paidOut === first.length.value) return first;
  const then = deploymentOf(filed, { ...record, paidOut, scope: null });
  return { ...then, doubts: [{ kind: "veered", first: first.length.value, paidOut }, ...then.doubts] };
}

/**
 * The rig of a pull in the pull's own water; what stands in the way is added to `doubts`.
 * @param paidOut m, where it was veered to that; null: as it was at first
 */
export function deploymentOfCase(
  about: Pick<PullCase, "pull" | "rigFile" | "depthByLevel">,
  doubts: Doubt[],
  paidOut: number | null = null,
): Deployment | null {
  if (about.rigFile === null) {
    doubts.push({ kind: "noRig" });
    return null;
  }
  try {
    const filed = readRig(about.rigFile, "rig");
    try {
      return deploymentVeered(filed, deploymentRecordOf(about), paidOut);
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      doubts.push({ kind: "deploymentUnreadable", line: error.message });
    }
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    doubts.push({ kind: "rigUnreadable", line: error.message });
  }
  return null;
}

const isSame = (a: Doubt, b: Doubt): boolean => JSON.stringify(a) === JSON.stringify(b);
