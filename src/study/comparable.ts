/** The pulls of a book as comparing anchors reads them, with why the others are left out. */
import { type Hold, loadError, type Pull } from "../holding/index.ts";
import { DEGREE } from "../quantity/index.ts";
import { type HoldingInput, type HoldingRow, holdingRows, type LeftOutCause } from "./holding-rows.ts";
import { howJudged } from "./how-pulled.ts";
import type { PullCase } from "./pull-case.ts";

/** Pulls that can be compared, with their ids, those left out, and the evidence of each. */
export interface Comparable {
  readonly pulls: readonly Pull[];
  /** Id of each pull, in the same order. */
  readonly ids: readonly string[];
  readonly leftOut: readonly { readonly pull: string; readonly row: number; readonly cause: NotComparable }[];
  readonly evidence: HoldingInput["evidence"];
}

/** `noneReached`: at that load at the bow the rode at rest carries all of it, and none reaches the anchor. */
export type NotComparable = LeftOutCause | "noneReached";

/** The pulls of a book as comparing anchors reads them, with why the others are left out. */
export function comparablePulls(cases: readonly PullCase[]): Comparable {
  const { rows, leftOut, evidence } = holdingRows(cases);
  const areas = new Map(cases.map(({ pull, anchor }) => [pull.id, anchor?.flukeArea_m2 ?? null]));
  const places = new Map(cases.map(({ pull }, i) => [pull.id, i + 1]));
  const byLog = new Set(evidence.flatMap(({ pull, from }) => (from === "log" ? [pull] : [])));
  const rules = new Map(cases.map((about) => [about.pull.id, ruleOf(about, byLog.has(about.pull.id))]));
  const pulls: Pull[] = [];
  const ids: string[] = [];
  const out: { pull: string; row: number; cause: NotComparable }[] = [...leftOut];
  for (const row of rows) {
    const hold = holdOf(row);
    if (hold === null) {
      out.push({ pull: row.pull, row: places.get(row.pull)!, cause: "noneReached" });
      continue;
    }
    const area = areas.get(row.pull) ?? null;
    ids.push(row.pull);
    pulls.push({
      anchor: row.anchor,
      hold,
      ...(row.mass_kg === null ? {} : { mass: row.mass_kg }),
      ...(area === null ? {} : { flukeArea: area }),
      ...(row.anchorAngle_deg === null ? {} : { anchorAngle: row.anchorAngle_deg * DEGREE }),
      ...(row.anchorAngleHeld_deg === null || hold.kind !== "between"
        ? {}
        : { angleHeld: row.anchorAngleHeld_deg * DEGREE }),
      ...(row.anchorAngleRise_deg === null ? {} : { angleRise: row.anchorAngleRise_deg * DEGREE }),
      ...(row.uncertainty_N === null ? {} : { loadError: loadError(row.uncertainty_N, hold) }),
      ...(row.seabed === null ? {} : { seabed: row.seabed }),
      ...(row.site === null ? {} : { site: row.site }),
      ...(row.day === null ? {} : { day: row.day }),
      ...(row.ending === null ? {} : { ending: row.ending }),
      ...(row.tester === null ? {} : { tester: row.tester }),
      ...(rules.get(row.pull) ?? {}),
    });
  }
  return { pulls, ids, leftOut: out.sort((a, b) => a.row - b.row), evidence };
}

/** The hold rule a pull was judged by: that of its log, else what is stated whole. */
function ruleOf(about: PullCase, byLog: boolean): Pick<Pull, "holdRule"> {
  const { heldFor, heldWithin } = howJudged(about, byLog);
  return heldFor === undefined || heldWithin === undefined ? {} : { holdRule: { heldFor, heldWithin } };
}

function holdOf({ heldTo_N: heldTo, gaveWayBy_N: gaveWayBy }: HoldingRow): Hold | null {
  if (gaveWayBy === null) return heldTo !== null && heldTo > 0 ? { kind: "heldTo", newtons: heldTo } : null;
  if (!(gaveWayBy > 0)) return null;
  if (heldTo === null || !(heldTo > 0)) return { kind: "neverHeld", newtons: gaveWayBy };
  return heldTo >= gaveWayBy ? { kind: "gaveWay", newtons: gaveWayBy } : { kind: "between", heldTo, gaveWayBy };
}
