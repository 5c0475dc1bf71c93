/** A planned series as `--json` prints it: SI, with the unit in the field's name. */
import { DEGREES } from "../quantity/index.ts";
import type { Against, Had, NextPull, PlannedPull, PowerAnswer, Series, SeriesPlan } from "../series/index.ts";

const RPM = 60;
const iso = (seconds: number) => new Date(seconds * 1000).toISOString().replace(".000Z", "Z");

export function seriesDocument(plan: SeriesPlan, power: PowerAnswer | null, next: readonly NextPull[]): object {
  return {
    format: "rodebench/series-plan@1",
    series: plan.series.name,
    question: plan.series.question,
    seed: plan.series.seed,
    ...holdFields(plan.series),
    held: plan.series.pulls.length,
    table: plan.table.map((cell) => ({
      site: cell.site,
      anchorAngle_deg: cell.angle * DEGREES,
      load_N: cell.load,
      had: cell.had === null ? null : hadFields(cell.had),
      depths_m: cell.depths === null ? null : [cell.depths.least, cell.depths.most],
      against: cell.against.map(({ rode, against }) => ({ rode, against: against.map(againstFields) })),
    })),
    pulls: plan.pulls.map(pullFields),
    withoutHour: plan.withoutHour,
    time_s: plan.time,
    power: power === null ? null : powerFields(power),
    next: next.map(({ anchor, angle, gain, gainPerHour, ended, reason }) => ({
      anchor,
      anchorAngle_deg: angle * DEGREES,
      gain,
      gain_per_h: gainPerHour,
      ended,
      reason: reason.kind,
    })),
  };
}

/** How long each load is held, and when it counts as held. */
export const holdFields = ({ hold, holdRule: { heldFor, heldWithin } }: Series): object => ({
  hold_s: hold,
  holdRule: { heldFor_s: heldFor, heldWithin_m: heldWithin },
});

export function pullFields(pull: PlannedPull): object {
  const { number, code, day, block, round, anchor, angle, at, level, how } = pull;
  return {
    number,
    code,
    block,
    round,
    date: day.date,
    site: day.site,
    at: iso(at),
    anchor,
    anchorAngle_deg: angle * DEGREES,
    level_m: level,
    kind: how.kind,
    ...(how.kind === "had"
      ? {
          ...hadFields(how.at),
          charted_m: how.charted,
          loads: how.loads.map(({ load, bow, speed }) => ({
            load_N: load,
            bow_N: bow,
            engine_rpm: speed === null ? null : speed * RPM,
          })),
          warnings: how.warnings.map((one) =>
            one.kind === "tideMovesAngle"
              ? { kind: one.kind, by_deg: one.by * DEGREES, gauge_deg: one.gauge * DEGREES }
              : { kind: one.kind, load_N: one.load, asked_N: one.asked, against: one.against.map(againstFields) },
          ),
        }
      : {}),
    ...(how.kind === "notHad" ? { against: how.against.map(againstFields), byTide: how.byTide } : {}),
  };
}

function hadFields(had: Had): object {
  return {
    rode: had.rode,
    depth_m: had.depth,
    length_m: had.length,
    scope: had.scope,
    span_m: had.span,
    bow_N: had.bow,
    horizontal_N: had.horizontal,
    bowAngle_deg: had.bowAngle * DEGREES,
    angleByDepth_deg_per_m: had.angleByDepth * DEGREES,
    weakest:
      had.weakest === null ? null : { part: had.weakest.part, load_N: had.weakest.load, limit_N: had.weakest.limit },
  };
}

function againstFields(one: Against): object {
  switch (one.kind) {
    case "engineTooSmall":
      return { kind: one.kind, needed_N: one.needed, most_N: one.most };
    case "rodeTooShort":
      return { kind: one.kind, needed_m: one.needed, aboard_m: one.aboard };
    case "noRoom":
      return { kind: one.kind, needed_m: one.needed, room_m: one.room };
    case "pastWorkingLoad":
      return { kind: one.kind, part: one.part, load_N: one.load, limit_N: one.limit };
    case "tooSteep":
      return { kind: one.kind };
    case "tooShallow":
      return { kind: one.kind, depth_m: one.depth, needed_m: one.needed };
  }
}

function powerFields(power: PowerAnswer): object {
  if (power.kind === "massUnknown") return { kind: power.kind };
  return {
    kind: power.kind,
    from: power.from,
    enough: power.enough,
    rows: power.rows.map(({ repeats, pulls, share, low, high, wrong, ended, hours }) => ({
      repeats,
      pulls,
      share,
      low,
      high,
      wrong,
      ended,
      time_s: hours * 3600,
    })),
  };
}
