/** The log of a pull with its marks as people corrected them, and the evidence that it and the pull's records give together. */
import {
  type Correction,
  type Drag,
  giveOf,
  type HeldLoad,
  type MarkCause,
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
} from "../pull/index.ts";
import { InputError } from "../quantity/index.ts";
import type { RecordOf } from "../record/index.ts";
import type { Doubt } from "./doubt.ts";
import { deploymentOfCase, type PullEvidence, pullEvidence } from "./evidence.ts";
import { asPulled, howPulled } from "./how-pulled.ts";
import type { TrackApart } from "./log-channels.ts";
import { type LogReadings, traceBesideVeers, traceOfLog } from "./log-trace.ts";
import type { PullCase } from "./pull-case.ts";
import { lengthOutAt, type Veer } from "./veers.ts";
import type { LogVerdict } from "./verdict.ts";

/** A pull's log with its marks, and the pull it is of. */
export interface PullLogQuestion extends LogReadings {
  readonly readAt: ReadAt;
  readonly corrections: readonly Correction[];
  /** Slack stretches that a person pointed at. */
  readonly slack: readonly Span[];
  /** Veers while it ran, by its marks and those of the pull's other logs. */
  readonly veers?: readonly Veer[];
  /** The pull it is the log of; null for a log of no pull. */
  readonly about: Omit<PullCase, "log"> | null;
}

/** A log reduced with its marks as corrected, or the line it was refused with. */
export type ReducedLog =
  | {
      readonly kind: "reduced";
      readonly held: HeldLoad;
      /** What the load had to do to count as held, s and m, and whether a track told the anchor's movement. */
      readonly rule: { readonly heldFor: number; readonly heldWithin: number; readonly tracked: boolean };
      /** What it says of the pull. */
      readonly verdict: LogVerdict;
      /** What the log, not the record, says of the pull, carried in the pull's own water; null for a log of no pull. */
      readonly evidence: PullEvidence | null;
      readonly zero: Zero;
      readonly plateaus: readonly Plateau[];
      readonly peaks: readonly Peak[];
      readonly peakCount: number;
      /** The clock of the track by load and track, asked where it lies in another log and none is stated. */
      readonly clock: TraceReduction["clock"];
      /** The pull's track ran at another time. */
      readonly apart: TrackApart | null;
      readonly drags: readonly Drag[];
      readonly first: TraceReduction["first"];
      readonly set: SetDistance;
      /** How far the anchor had gone by the end of each load held. */
      readonly way: TraceReduction["way"];
      readonly reversals: readonly Reversal[];
      readonly steps: readonly MatchedStep[];
      readonly log: TraceReduction["log"];
      readonly bandwidth: number;
      /** Loads of the marks as they stand, N, by where they lie. */
      readonly marks: readonly {
        readonly kind: string;
        readonly from: number;
        readonly to: number;
        readonly why: MarkCause;
        readonly value: number;
        readonly u: number;
      }[];
      readonly corrected: number;
      readonly unmatched: number;
    }
  | { readonly kind: "refused"; readonly line: string };

/** Time before a drag over which its load is taken, s. */
const BEFORE = 2;

/** One question, one answer of plain data: it may be asked in a worker. */
export function reducePullLog(question: PullLogQuestion): ReducedLog {
  try {
    const { about, veers = [] } = question;
    const deployment = about === null ? null : deploymentOfCase(about, [] as Doubt[]);
    const give = deployment === null ? null : giveOf(deployment.rig, question.readAt);
    const steps = plannedSteps(about?.pull ?? null);
    const how = howPulled(about);
    const made = asPulled(traceOfLog(question), how);
    const asksClock = question.places?.beside === true && how.trackClock === undefined;
    const { trace, trackOverVeer } = traceBesideVeers(made.trace, veers);
    const reduceWith = (corrections: readonly Correction[], asks: boolean) =>
      reduceTrace(trace, {
        ...(asks ? { clock: "told" as const } : {}),
        readAt: question.readAt,
        settings: made.settings,
        corrections,
        ...(question.slack.length === 0 ? {} : { slack: question.slack }),
        ...(steps.length === 0 ? {} : { steps }),
        ...(give === null ? {} : { give }),
      });
    const without = question.corrections.some(isWithoutLoad)
      ? reduceWith(
          question.corrections.filter((one) => !isWithoutLoad(one)),
          false,
        )
      : null;
    const r = reduceWith(
      without === null
        ? question.corrections
        : question.corrections.map((one) => (isWithoutLoad(one) ? withLoad(one, without) : one)),
      asksClock,
    );
    const { clock } = r;
    const apart = question.apart ?? null;
    const unmatched = r.corrected.unmatched.length;
    const { held } = r;
    const on = held.kind === "notKnown" ? undefined : r.corrected.marks.find(({ id }) => id === held.mark);
    const paidOut = on === undefined ? null : lengthOutAt(veers, on.from);
    const log: LogVerdict = {
      ...{ held, zeroFound: r.zero.kind !== "notFound", unmatched, paidOut, trackOverVeer },
      clockOff: clock?.kind === "told" && clock.off ? clock.offset : null,
      apart: apart?.seconds ?? null,
    };
    return {
      kind: "reduced",
      held,
      rule: { heldFor: r.settings.heldFor, heldWithin: r.settings.heldWithin, tracked: r.path !== null },
      verdict: log,
      evidence:
        about === null
          ? null
          : pullEvidence({ ...about, pull: { ...about.pull, result: null, loadAt: question.readAt }, log }),
      zero: r.zero,
      plateaus: r.plateaus,
      peaks: r.peaks,
      peakCount: r.peakCount,
      clock,
      apart,
      drags: r.drags,
      first: r.first,
      set: r.set,
      way: r.way,
      reversals: r.reversals,
      steps: r.protocol?.steps ?? [],
      log: r.log,
      bandwidth: r.filter.bandwidth,
      marks: r.corrected.marks
        .filter((m) => m.of === "force")
        .map(({ kind, from, to, why, value, u }) => ({ kind, from, to, why, value, u })),
      corrected: r.corrected.marks.filter((m) => m.origin !== "automatic").length + r.corrected.takenAway.length,
      unmatched,
    };
  } catch (error) {
    if (error instanceof InputError) return { kind: "refused", line: error.message };
    throw error;
  }
}

/** Steps of a pull's record as a protocol to hold the log against. */
export function plannedSteps(pull: Pick<RecordOf<"pull">, "steps"> | null): PlannedStep[] {
  return (pull?.steps ?? [])
    .filter((step) => step.load_N > 0)
    .map((step) => ({ load: step.load_N, hold: step.duration_s ?? 0 }));
}

/** A drag added by hand, whose load nobody has read yet. */
const isWithoutLoad = (one: Correction): one is Extract<Correction, { change: "add" }> =>
  one.change === "add" && one.mark.kind === "drag";

function withLoad(one: Extract<Correction, { change: "add" }>, reduction: TraceReduction): Correction {
  const { time, load } = reduction.series;
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
      why: { kind: "byHandMeanBefore", seconds: BEFORE },
    },
  };
}
