/** What a pull held, by its record or by its log: still at the end the load was read at. */
import type { HeldLoad, Measured, ReadAt } from "../pull/index.ts";
import type { RecordOf } from "../record/index.ts";
import { ASSUMED } from "./assumptions.ts";
import type { Doubt } from "./doubt.ts";

/** Loads in N at the end read. Comparing anchors these are an exact, a right-, an interval- and a left-censored value. */
export type Verdict =
  | { readonly kind: "gaveWay"; readonly load: Measured }
  | { readonly kind: "heldTo"; readonly load: Measured }
  | { readonly kind: "between"; readonly heldTo: Measured; readonly gaveWayBy: Measured }
  /** It never took hold; `by` the most it was pulled with, null where nobody wrote it. */
  | { readonly kind: "neverSet"; readonly by: Measured | null }
  | { readonly kind: "notKnown" };

/** What a log says of its pull: the answer of its reduction that evidence needs. */
export interface LogVerdict {
  readonly held: HeldLoad;
  readonly zeroFound: boolean;
  /** Corrections that find no mark any more. */
  readonly unmatched: number;
}

/** What a record or a log says was held, and where it was read. */
export interface ReadVerdict {
  readonly verdict: Verdict;
  readonly from: "record" | "log" | null;
  readonly readAt: ReadAt;
  readonly endKnown: boolean;
  readonly doubts: readonly Doubt[];
}

/** As a book holds it: a result of an earlier program may lack its load. */
type PullFields = Partial<Omit<RecordOf<"pull">, "id" | "hidden">>;
const gaveWayEndings: readonly string[] = ["drag", "roll-out", "break-out"];

/**
 * The verdict of a pull's record where it has one, else that of its log.
 * A record that it gave way without a load tells of its steps: it held the last but one and gave way by the last.
 */
export function verdictOf(pull: PullFields, log: LogVerdict | null): ReadVerdict {
  const doubts: Doubt[] = [];
  const recorded = recordedVerdict(pull, doubts);
  const logged = log === null ? null : loggedVerdict(log.held);
  const from = recorded.kind !== "notKnown" ? "record" : logged !== null && logged.kind !== "notKnown" ? "log" : null;
  if (log !== null) {
    if (!log.zeroFound) doubts.push({ kind: "zeroNotFound" });
    if (log.unmatched > 0) doubts.push({ kind: "correctionsUnmatched", count: log.unmatched });
  }
  if (from !== "record" && log !== null && log.held.untold !== null)
    doubts.push({ kind: "logCannotTell", what: log.held.untold });
  if (from === "record" && logged !== null) compare(recorded, logged, doubts);
  if (from === null) doubts.push({ kind: "noResult" });
  contradiction(pull, from === "log" ? logged! : recorded, doubts);
  const told = from === "log" && log?.held.kind !== "notKnown" ? log?.held.at : pull.loadAt;
  const readAt = told ?? "bow";
  if (!told && from !== null) doubts.push({ kind: "endUnknown", taken: readAt });
  return {
    verdict: from === "log" ? logged! : recorded,
    from,
    readAt,
    endKnown: Boolean(told),
    doubts,
  };
}

/** The load a verdict is known by, N; null where it has none. */
export function loadOf(verdict: Verdict): Measured | null {
  if (verdict.kind === "notKnown") return null;
  if (verdict.kind === "between") return verdict.gaveWayBy;
  return verdict.kind === "neverSet" ? verdict.by : verdict.load;
}

function recordedVerdict(pull: PullFields, doubts: Doubt[]): Verdict {
  const { result, steps } = pull;
  if (!result || result.kind === "none") return { kind: "notKnown" };
  const measured = (newtons: number, u: number | undefined): Measured => {
    if (u !== undefined) return { value: newtons, u };
    const assumed = ASSUMED.load * newtons;
    doubts.push({ kind: "uncertaintyUnstated", u: assumed });
    return { value: newtons, u: assumed };
  };
  const load = result.load_N;
  if (result.kind === "neverSet")
    return { kind: "neverSet", by: load !== undefined && load > 0 ? measured(load, result.u_N) : null };
  if (load !== undefined && load > 0) return { kind: result.kind, load: measured(load, result.u_N) };
  const loads = (steps ?? []).map((step) => step.load_N).filter((newtons) => newtons > 0);
  const [before, last] = [loads.at(-2), loads.at(-1)];
  if (last === undefined) return { kind: "notKnown" };
  if (result.kind === "heldTo") return { kind: "heldTo", load: measured(last, undefined) };
  if (before === undefined || before >= last) return { kind: "gaveWay", load: measured(last, undefined) };
  return { kind: "between", heldTo: measured(before, undefined), gaveWayBy: measured(last, undefined) };
}

function loggedVerdict(held: HeldLoad): Verdict {
  if (held.kind === "notKnown") return { kind: "notKnown" };
  return { kind: held.kind, load: { value: held.newtons, u: held.u } };
}

function compare(recorded: Verdict, logged: Verdict, doubts: Doubt[]): void {
  const [a, b] = [loadOf(recorded), loadOf(logged)];
  if (a === null || b === null) return;
  const heldOn = (verdict: Verdict) => verdict.kind === "heldTo";
  if (heldOn(recorded) === heldOn(logged) && Math.abs(a.value - b.value) <= 2 * Math.hypot(a.u, b.u)) return;
  doubts.push({
    kind: "resultDiffersFromLog",
    result: { kind: recorded.kind, newtons: a.value },
    log: { kind: logged.kind, newtons: b.value },
  });
}

function contradiction(pull: PullFields, verdict: Verdict, doubts: Doubt[]): void {
  const ending = pull.endedBy;
  if (!ending || verdict.kind === "notKnown") return;
  // Gear that fails, or a tester who stops, ends a pull whatever the anchor did.
  const unlike = verdict.kind === "heldTo" ? gaveWayEndings.includes(ending) : ending === "engine limit";
  if (unlike) doubts.push({ kind: "endingContradicts", ending, result: verdict.kind });
}
