/** A series of pulls as the table that comparing anchors reads: one row a pull, loads at the anchor. */
import { DEGREES } from "../quantity/index.ts";
import { type Rig, settle } from "../rode/index.ts";
import type { CarriedLoad } from "./carried.ts";
import { type PullEvidence, pullEvidence } from "./evidence.ts";
import type { PullCase } from "./pull-case.ts";

/** A row of the pulls table, names and units as in its file; null where nothing is known. */
export interface HoldingRow {
  /** Id of the pull. */
  readonly pull: string;
  readonly anchor: string;
  /** Load at the anchor it held, N; equal to `gaveWayBy_N` where it gave way at that load. */
  readonly heldTo_N: number | null;
  /** Load at the anchor by which it had given way, N; alone: it never held. */
  readonly gaveWayBy_N: number | null;
  /** Standard uncertainty of the load it gave way by, or else of the one it held, N. */
  readonly uncertainty_N: number | null;
  readonly mass_kg: number | null;
  /** Angle of the rode above the bottom at the anchor, degrees, at the load the pull is known by. */
  readonly anchorAngle_deg: number | null;
  /** The same at the load it held, where it gave way by another. */
  readonly anchorAngleHeld_deg: number | null;
  /** Degrees by which that angle grows with each unit of the load's natural logarithm. */
  readonly anchorAngleRise_deg: number | null;
  readonly seabed: string | null;
  readonly site: string | null;
  /** Date, such as 2031-05-17. */
  readonly day: string | null;
  readonly ending: string | null;
  readonly tester: string | null;
}

/** Why a pull says nothing that can be compared. */
export type LeftOutCause =
  /** The pull names no anchor. */
  | "noAnchor"
  /** Neither the record nor a log says what it held. */
  | "noResult"
  /** It never set, and nobody wrote with what load it was pulled. */
  | "noLoad"
  /** The load was read at the bow, and without a rig nothing carries it to the anchor. */
  | "noRig"
  /** The rig as deployed has no equilibrium at that load. */
  | "noEquilibrium";

/** A pull left out of a comparison, with the cause. */
export interface LeftOut {
  /** Id of the pull, and its place in the list given, counted from 1. */
  readonly pull: string;
  readonly row: number;
  readonly cause: LeftOutCause;
}

/** Rows for a comparison, those left out, and the evidence of each. */
export interface HoldingInput {
  readonly rows: readonly HoldingRow[];
  readonly leftOut: readonly LeftOut[];
  /** The evidence of every pull given, those left out too, in their order. */
  readonly evidence: readonly PullEvidence[];
}

/** Rows of some pulls; one put aside in the book is best not given at all. */
export function holdingRows(cases: readonly PullCase[]): HoldingInput {
  const rows: HoldingRow[] = [];
  const leftOut: LeftOut[] = [];
  const evidence = cases.map((about, i) => {
    const found = pullEvidence(about);
    const row = rowOf(about, found);
    if (typeof row === "string") leftOut.push({ pull: about.pull.id, row: i + 1, cause: row });
    else rows.push(row);
    return found;
  });
  return { rows, leftOut, evidence };
}

function rowOf(about: PullCase, evidence: PullEvidence): HoldingRow | LeftOutCause {
  const { pull, day, site, seabed, anchor } = about;
  const { verdict, heldTo, gaveWayBy, readAt } = evidence;
  if (anchor === null) return "noAnchor";
  if (verdict.kind === "notKnown") return "noResult";
  if (verdict.kind === "neverSet" && verdict.by === null) return "noLoad";
  if (heldTo?.kind === "noEquilibrium" || gaveWayBy?.kind === "noEquilibrium") return "noEquilibrium";
  if (evidence.deployment === null && readAt !== "anchor") return "noRig";
  const read = (which: "heldTo" | "gaveWayBy"): number | null => {
    const carried = evidence[which];
    if (carried?.kind === "carried") return carried.anchor.value;
    // Read at the anchor itself: no rode is needed.
    if (verdict.kind === "between") return verdict[which].value;
    if (verdict.kind === "neverSet") return which === "gaveWayBy" ? verdict.by!.value : null;
    return which === "heldTo" || verdict.kind === "gaveWay" ? verdict.load.value : null;
  };
  const known = gaveWayBy ?? heldTo;
  const atAnchor =
    verdict.kind === "between" ? verdict.gaveWayBy : verdict.kind === "neverSet" ? verdict.by! : verdict.load;
  const isBetween = heldTo?.kind === "carried" && gaveWayBy?.kind === "carried" && heldTo !== gaveWayBy;
  return {
    pull: pull.id,
    anchor: anchor.name ?? anchor.id,
    heldTo_N: read("heldTo"),
    gaveWayBy_N: read("gaveWayBy"),
    uncertainty_N: known?.kind === "carried" ? known.anchor.u : atAnchor.u,
    mass_kg: anchor.mass_kg ?? null,
    anchorAngle_deg: known?.kind === "carried" ? known.angleToBottom.value * DEGREES : null,
    anchorAngleHeld_deg: isBetween ? heldTo.angleToBottom.value * DEGREES : null,
    anchorAngleRise_deg:
      known?.kind === "carried" && evidence.deployment !== null
        ? angleRise(evidence.deployment.rig, known) * DEGREES
        : null,
    seabed: seabed?.name ?? null,
    site: site?.name ?? null,
    day: day?.date ?? null,
    ending: pull.endedBy ?? null,
    tester: day?.testers ?? null,
  };
}

/** Change of ln load to either side over which the rise of the angle is taken: a thousandth of the load. */
const ASIDE = 1e-3;

/** dθ/d ln T of the rode as it lay, rad, by central differences; by one side where the other has no equilibrium. */
function angleRise(rig: Rig, { anchor, angleToBottom }: CarriedLoad): number {
  const angleAt = (by: number): number | null => {
    const moved = settle(rig, { at: "anchor", newtons: anchor.value * Math.exp(by) });
    return moved.kind === "settled" ? moved.anchor.angleToBottom : null;
  };
  const [below, above] = [angleAt(-ASIDE), angleAt(ASIDE)];
  const span = (below === null ? 0 : ASIDE) + (above === null ? 0 : ASIDE);
  return span === 0 ? 0 : ((above ?? angleToBottom.value) - (below ?? angleToBottom.value)) / span;
}
