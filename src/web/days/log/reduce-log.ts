/** The reduction of a pull's log with its marks as corrected, in the worker: one question, one answer of plain data. */
import {
  type Carried,
  type Correction,
  carryHeld,
  type Drag,
  giveOf,
  type HeldLoad,
  type MatchedStep,
  type Peak,
  type PlannedStep,
  type Plateau,
  type ReadAt,
  type Reversal,
  reduceTrace,
  type SetDistance,
  type Span,
  type TraceReduction,
  type Zero,
} from "../../../pull/index.ts";
import { InputError } from "../../../quantity/index.ts";
import { readRig } from "../../../rode/index.ts";

export interface LogQuestion {
  readonly time: Float64Array;
  readonly load: Float64Array;
  readonly readAt: ReadAt;
  readonly corrections: readonly Correction[];
  readonly slack: readonly Span[];
  readonly steps: readonly PlannedStep[];
  /** The rig as deployed, as its file; null: none is told. */
  readonly rigFile: string | null;
}

export type ReducedLog =
  | {
      readonly kind: "reduced";
      readonly held: HeldLoad;
      /** Null without a rig, or when nothing is known to be held. */
      readonly carried: Carried | null;
      readonly zero: Zero;
      readonly plateaus: readonly Plateau[];
      readonly peaks: readonly Peak[];
      readonly peakCount: number;
      readonly drags: readonly Drag[];
      readonly set: SetDistance;
      readonly reversals: readonly Reversal[];
      readonly steps: readonly MatchedStep[];
      readonly log: TraceReduction["log"];
      readonly bandwidth: number;
      /** Loads of the marks as they stand, N, by where they lie. */
      readonly marks: readonly {
        readonly kind: string;
        readonly from: number;
        readonly value: number;
        readonly u: number;
      }[];
      readonly corrected: number;
      readonly unmatched: number;
    }
  | { readonly kind: "refused"; readonly line: string };

/** Time before a drag over which its load is taken, s. */
const BEFORE = 2;

export function reduceLog(question: LogQuestion): ReducedLog {
  try {
    const rig = question.rigFile === null ? null : readRig(question.rigFile, "rig");
    const give = rig === null ? null : giveOf(rig, question.readAt);
    const asked = (corrections: readonly Correction[]) =>
      reduceTrace(
        { time: question.time, load: question.load },
        {
          readAt: question.readAt,
          corrections,
          ...(question.slack.length === 0 ? {} : { slack: question.slack }),
          ...(question.steps.length === 0 ? {} : { steps: question.steps }),
          ...(give === null ? {} : { give }),
        },
      );
    const bare = question.corrections.some(isUnread)
      ? asked(question.corrections.filter((one) => !isUnread(one)))
      : null;
    const r = asked(
      bare === null ? question.corrections : question.corrections.map((one) => (isUnread(one) ? read(one, bare) : one)),
    );
    return {
      kind: "reduced",
      held: r.held,
      carried: rig === null || r.held.kind === "notKnown" ? null : carryHeld(r.held, rig),
      zero: r.zero,
      plateaus: r.plateaus,
      peaks: r.peaks,
      peakCount: r.peakCount,
      drags: r.drags,
      set: r.set,
      reversals: r.reversals,
      steps: r.protocol?.steps ?? [],
      log: r.log,
      bandwidth: r.filter.bandwidth,
      marks: r.standing.marks
        .filter((m) => m.of === "force")
        .map(({ kind, from, value, u }) => ({ kind, from, value, u })),
      corrected: r.standing.marks.filter((m) => m.origin !== "automatic").length + r.standing.takenAway.length,
      unmatched: r.standing.unmatched.length,
    };
  } catch (error) {
    if (error instanceof InputError) return { kind: "refused", line: error.message };
    throw error;
  }
}

/** A drag added by hand, whose load nobody has read yet. */
const isUnread = (one: Correction): one is Extract<Correction, { change: "add" }> =>
  one.change === "add" && one.mark.kind === "drag";

function read(one: Extract<Correction, { change: "add" }>, bare: TraceReduction): Correction {
  const { time, load } = bare.series;
  let [n, sum, squares] = [0, 0, 0];
  for (let i = 0; i < time.length; i++) {
    if (time[i]! < one.mark.from - BEFORE || time[i]! > one.mark.from) continue;
    n++;
    sum += load[i]!;
    squares += load[i]! ** 2;
  }
  if (n === 0) return one;
  const mean = sum / n;
  return {
    ...one,
    mark: {
      ...one.mark,
      value: mean,
      u: Math.sqrt(Math.max(0, squares / n - mean ** 2)),
      why: `marked by hand as a drag; the mean load of the ${BEFORE} s before`,
    },
  };
}
