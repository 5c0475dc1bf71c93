import { DEGREES } from "../../quantity/index.ts";
import type { AnchorPath } from "../anchor/index.ts";
import type { MarkCause } from "./cause.ts";
import type { HeldLoad } from "./held.ts";
import type { CorrectedMark, Mark } from "./marks.ts";
import type { TraceReduction } from "./reduction.ts";
import type { NoSetCause, Reversal } from "./set-and-reset.ts";
import type { Measured, Span } from "./trace.ts";
import type { NoZeroCause, SlackRead, Zero } from "./zero.ts";

/** Format of a reduction as JSON. */
export const TRACED_FORMAT = "rodebench/traced@1";

type Json = string | number | boolean | null | readonly Json[] | { readonly [key: string]: Json };

/** Why things are as they are, in words. */
export interface TraceWords {
  readonly mark: (why: MarkCause) => string;
  readonly held: (why: HeldLoad["why"]) => string;
  readonly noZero: (why: NoZeroCause) => string;
  readonly noSet: (why: NoSetCause) => string;
  readonly reversal: (reversal: Reversal) => string;
}

/** A reduction as a JSON document: SI, the unit in each field's name; times in s on the log's own clock. */
export function tracedToJson(r: TraceReduction, say: TraceWords): { [key: string]: Json } {
  return {
    format: TRACED_FORMAT,
    readAt: r.readAt,
    log: {
      ...span(r.log),
      readings: r.log.readings,
      dropped: r.log.dropped,
      interval_s: r.log.interval,
      gaps: r.log.gaps.map(span),
      noise_N: r.log.noise,
    },
    zero: zero(r.zero, say),
    filter: {
      bandwidth_Hz: r.filter.bandwidth,
      timeConstant_s: r.filter.timeConstant,
      limitedByLog: r.filter.limitedByLog,
      grain_s: r.filter.grain,
      keeps: r.filter.keeps.map((k) => ({ peak_s: k.seconds, share: k.share })),
    },
    plateaus: r.plateaus.map((p) => ({
      id: p.id,
      ...span(p),
      duration_s: p.to - p.from,
      load_N: p.load.value,
      u_N: p.load.u,
      creep_N_per_s: p.creep.value,
      creepU_N_per_s: p.creep.u,
      scatter_N: p.scatter,
      independent: p.effective,
    })),
    peaks: r.peaks.map((p) => ({
      id: p.id,
      at_s: p.at,
      load_N: p.load.value,
      u_N: p.load.u,
      filtered_N: p.filtered,
      prominence_N: p.prominence,
      alone: p.alone,
      above: p.above.map((a) => ({ share: a.share, ...span(a), duration_s: a.seconds })),
    })),
    peakCount: r.peakCount,
    sustained: r.sustained.map((s) => ({ for_s: s.duration, load_N: s.load.value, u_N: s.load.u, ...span(s) })),
    above: r.above.map((a) => ({ load_N: a.level, upcrossings: a.upcrossings, duration_s: a.seconds })),
    cycles: {
      deadBand_N: r.cycles.deadBand,
      total: r.cycles.total,
      classes: r.cycles.classes.map((c) => ({
        rangeAbove_N: c.above,
        rangeUpTo_N: c.upTo,
        cycles: c.cycles,
        mean_N: c.cycles > 0 ? c.mean : null,
      })),
    },
    path: r.path && path(r.path),
    drags: r.drags.map((d) => ({
      id: d.id,
      ...span(d),
      seenIn: d.seenIn,
      load_N: d.load.value,
      u_N: d.load.u,
      lost: d.lost && newtons(d.lost),
      distance: d.distance && metres(d.distance),
      why: say.mark(d.why),
    })),
    easings: r.easings.map((e) => ({
      id: e.id,
      ...span(e),
      load_N: e.load.value,
      u_N: e.load.u,
      lost: newtons(e.lost),
      why: say.mark(e.why),
    })),
    firstMovement:
      r.first.kind === "moved"
        ? {
            kind: r.first.kind,
            at_s: r.first.at.value,
            u_s: r.first.at.u,
            by: r.first.by,
            unseen_m: r.first.unseen,
          }
        : r.first.kind === "none"
          ? { kind: r.first.kind, unseen_m: r.first.unseen }
          : { kind: r.first.kind, why: r.first.why, fell_s: r.first.fell },
    set:
      r.set.kind === "measured"
        ? { kind: r.set.kind, ...metres(r.set.distance), from_s: r.set.from, to_s: r.set.to, give: r.set.give }
        : { kind: r.set.kind, why: say.noSet(r.set.why) },
    way: r.way.map((w) => ({ plateau: w.plateau, at_s: w.at, load: newtons(w.load), way: metres(w.way) })),
    reversals: r.reversals.map((v) => ({
      id: v.id,
      ...span(v),
      turn_deg: v.turn === null ? null : v.turn * DEGREES,
      before: v.before && newtons(v.before),
      after: v.after && newtons(v.after),
      outcome:
        v.outcome.kind === "reset"
          ? {
              kind: v.outcome.kind,
              at_s: v.outcome.at,
              share: v.outcome.share,
              distance: v.outcome.distance && metres(v.outcome.distance),
            }
          : { ...v.outcome },
      why: say.reversal(v),
    })),
    protocol: r.protocol && {
      steps: r.protocol.steps.map(({ planned, outcome }) => ({
        load_N: planned.load,
        hold_s: planned.hold,
        outcome:
          outcome.kind === "notReached"
            ? { kind: outcome.kind }
            : { kind: outcome.kind, plateau: outcome.plateau, off: outcome.off, held_s: outcome.held },
      })),
      unplanned: r.protocol.unplanned,
    },
    marks: r.corrected.marks.map((m) => ({
      ...markToJson(m, say),
      origin: m.origin,
      automatic: m.automatic && m.origin === "corrected" ? markToJson(m.automatic, say) : null,
    })),
    takenAway: r.corrected.takenAway.map((t) => markToJson(t.mark, say)),
    correctionsWithoutMark: r.corrected.unmatched,
    held: heldToJson(r.held, say),
    holdRule: { heldFor_s: r.settings.heldFor, heldWithin_m: r.settings.heldWithin, tracked: r.path !== null },
  };
}

/** A mark as JSON: `value_N` or, for a turn, `value_deg`. */
function markToJson(m: Mark | CorrectedMark, say: TraceWords): { [key: string]: Json } {
  const value =
    m.of === "angle" ? { value_deg: m.value * DEGREES, u_deg: m.u * DEGREES } : { value_N: m.value, u_N: m.u };
  return { id: m.id, kind: m.kind, ...span(m), ...value, why: say.mark(m.why) };
}

/** A held load as JSON has it. */
export function heldToJson(held: HeldLoad, say: TraceWords): { [key: string]: Json } {
  if (held.kind === "notKnown") return { kind: held.kind, why: say.held(held.why), untold: held.untold };
  return {
    kind: held.kind,
    load_N: held.newtons,
    u_N: held.u,
    at: held.at,
    mark: held.mark,
    why: say.held(held.why),
    untold: held.untold,
  };
}

function path(p: AnchorPath): { [key: string]: Json } {
  return {
    stretches: p.stretches.map((s) => ({
      ...span(s),
      direction_deg: s.direction.value * DEGREES,
      directionU_deg: s.direction.u * DEGREES,
      by: s.direction.by,
    })),
    movements: p.movements.map((m) => ({
      ...span(m),
      ...metres(m.distance),
      begins_s: m.begins.value,
      beginsU_s: m.begins.u,
    })),
  };
}

function zero(z: Zero, say: TraceWords): { [key: string]: Json } {
  if (z.kind === "notFound") return { kind: z.kind, why: say.noZero(z.why) };
  if (z.kind === "fixed") return { kind: z.kind, side: z.side, slack: slack(z.slack) };
  return {
    kind: z.kind,
    before: slack(z.before),
    after: slack(z.after),
    drift_N_per_s: z.rate.value,
    driftU_N_per_s: z.rate.u,
  };
}

function slack(s: SlackRead): { [key: string]: Json } {
  return { ...span(s), read_N: s.mean, u_N: s.u };
}

function span(s: Span): { from_s: number; to_s: number } {
  return { from_s: s.from, to_s: s.to };
}

function newtons(m: Measured): { value_N: number; u_N: number } {
  return { value_N: m.value, u_N: m.u };
}

function metres(m: Measured): { value_m: number; u_m: number } {
  return { value_m: m.value, u_m: m.u };
}
