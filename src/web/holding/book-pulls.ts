/** The pulls of the book as comparing reads them, in columns a choice runs over; made in the worker. */
import type { Pull } from "../../holding/index.ts";
import {
  type ClockRemark,
  clockRemarks,
  comparablePulls,
  type LogVerdict,
  type NotComparable,
  pullCases,
  type StudyRecords,
} from "../../study/index.ts";
import type { HoldingState } from "./state.ts";

/** Sign of a pull that is of no book, in the place of its series. */
export const BESIDE = "beside";

export interface BookPulls {
  readonly pulls: readonly Pull[];
  /** Id of each pull, of its series (empty: none), and a sign of its version. */
  readonly ids: readonly string[];
  readonly series: readonly string[];
  readonly versions: readonly string[];
  readonly leftOut: readonly { readonly pull: string; readonly cause: NotComparable }[];
  /** What is to be said of the clocks of pulls. */
  readonly remarks: readonly Pick<ClockRemark, "pull" | "doubt">[];
}

/** @param logs what logs say of pulls whose records do not, by the pull's id */
export function bookPulls(records: StudyRecords, logs: ReadonlyMap<string, LogVerdict> = new Map()): BookPulls {
  const shown = records.pull.filter(({ hidden }) => !hidden);
  const { pulls, ids, leftOut, evidence } = comparablePulls(pullCases(records, shown, logs));
  const series = new Map(shown.map((pull) => [pull.id, pull.series ?? ""]));
  return {
    pulls,
    ids,
    series: ids.map((id) => series.get(id)!),
    versions: pulls.map((pull) => versionOf(pull)),
    leftOut: leftOut.map(({ pull, cause }) => ({ pull, cause })),
    remarks: clockRemarks(evidence).map(({ pull, doubt }) => ({ pull, doubt })),
  };
}

/** The same for the same content: FNV-1a over what the pull says. */
export function versionOf(pull: Pull): string {
  let hash = 0x811c9dc5;
  // What it was judged by is told beside; a conclusion kept before pulls told it is of the same pulls.
  const { holdRule: _, ...said } = pull;
  for (const character of JSON.stringify(said)) {
    hash = Math.imul(hash ^ character.codePointAt(0)!, 0x01000193);
  }
  return (hash >>> 0).toString(16).padStart(8, "0");
}

/** Places of the pulls chosen; those left out by hand are not among them. */
export function chosenPulls(book: BookPulls, state: HoldingState, putAside: ReadonlySet<string>): number[] {
  const anchors = new Set(state.anchors);
  const { series, seabed, site, from, to } = state;
  const chosen: number[] = [];
  for (let i = 0; i < book.pulls.length; i++) {
    const pull = book.pulls[i]!;
    if (series !== "" && book.series[i] !== series && book.series[i] !== BESIDE) continue;
    if (anchors.size > 0 && !anchors.has(pull.anchor)) continue;
    if (seabed !== "" && pull.seabed !== seabed) continue;
    if (site !== "" && pull.site !== site) continue;
    if (from !== "" && !(pull.day !== undefined && pull.day >= from)) continue;
    if (to !== "" && !(pull.day !== undefined && pull.day <= to)) continue;
    if (putAside.has(book.ids[i]!)) continue;
    chosen.push(i);
  }
  return chosen;
}
