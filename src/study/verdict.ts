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
  /** Channel of the log that the load was read from, where it is told. */
  readonly cell?: string;
  /** Corrections that find no mark any more. */
  readonly unmatched: number;
  /** Rode out when the held load was read, m; null or absent: what was out at first. */
  readonly paidOut?: number | null;
  /** The rode was veered while the log ran, which had a track: that is not looked at. */
  readonly trackOverVeer?: boolean;
  /** What load and track say is to be added to the track's times, s, where nobody stated it and it stands clear of none. */
  readonly clockOff?: Measured | null;
  /** How far apart the pull's track and the load ran, s, as `TrackApart` counts it; null or absent: they overlap. */
  readonly apart?: number | null;
}

/** What a record or a log says was held, and where it was read. */
export interface ReadVerdict {
  readonly verdict: Verdict;
  readonly from: "record" | "log" | null;
  readonly readAt: ReadAt;
  readonly endKnown: boolean;
  /** Rode out at each load of the verdict, m; null: what was out at first. */
  readonly paidOut: LengthsOut;
  readonly doubts: readonly Doubt[];
}

/** Rode out at the load that was held and at the one by which it gave way, m; null: what was out at first. */
export interface LengthsOut {
  readonly heldTo: number | null;
  readonly gaveWayBy: number | null;
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
    if (log.trackOverVeer === true && from !== "record") doubts.push({ kind: "trackOverVeer" });
    if (log.clockOff && from !== "record") doubts.push({ kind: "trackClockOff", offset: log.clockOff });
    if (typeof log.apart === "number" && from !== "record") doubts.push({ kind: "trackApart", seconds: log.apart });
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
  const out = log?.paidOut ?? null;
  return {
    paidOut: from === "log" ? { heldTo: out, gaveWayBy: out } : recordedLengths(pull, recorded),
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

/** As the result tells it; else by the steps: it gave way in the last, and held in the one of the greatest load. */
function recordedLengths({ result, steps }: PullFields, verdict: Verdict): LengthsOut {
  // A result as it was kept by an earlier program has none.
  const out = (result as { readonly paidOut_m?: number } | null | undefined)?.paidOut_m;
  if (out !== undefined) return { heldTo: out, gaveWayBy: out };
  const all = steps ?? [];
  const loaded = all.flatMap(({ load_N }, i) => {
    const told = all.slice(0, i + 1).findLast(({ paidOut_m }) => paidOut_m !== undefined);
    return load_N > 0 ? [{ load_N, out: told?.paidOut_m ?? null }] : [];
  });
  const last = loaded.at(-1)?.out ?? null;
  if (verdict.kind === "between") return { heldTo: loaded.at(-2)?.out ?? null, gaveWayBy: last };
  if (verdict.kind !== "heldTo" || (result && "load_N" in result ? result.load_N : undefined) === undefined)
    return { heldTo: last, gaveWayBy: last };
  const greatest = loaded.reduce((most, { load_N }) => Math.max(most, load_N), 0);
  return { heldTo: loaded.findLast(({ load_N }) => load_N === greatest)?.out ?? null, gaveWayBy: null };
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
