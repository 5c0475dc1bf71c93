/** How a pull was made and read, as its record and its series' protocol say: what the reduction of its log takes from them. */
import { onPlaneOf, type SettingsChange, type Trace, trackLater } from "../pull/index.ts";
import { DEGREE, DEGREES } from "../quantity/index.ts";
import type { FieldsOf } from "../record/index.ts";
import { holdRuleOfSeries, usualHoldRule } from "./hold-rule.ts";
import type { PullCase } from "./pull-case.ts";

/** What was told; what is absent leaves the reduction as it is. */
export interface HowPulled {
  /** The hold rule: a load counts as held when kept so long, s, the anchor moving by less meanwhile, m. */
  readonly heldFor?: number;
  readonly heldWithin?: number;
  /** True load for each newton read above the tare, by the cell's calibration. */
  readonly calibration?: number;
  /** What the cell shows with nothing on it, N. */
  readonly tare?: number;
  /** What the cell truly carries while the rode is slack, N. */
  readonly slackLoad?: number;
  readonly pulls?: "astern" | "ahead";
  /** Which way the boat lay from the anchor, rad clockwise from true north. */
  readonly bearing?: number;
  /** Where the anchor lay, degrees. */
  readonly anchorAt?: { readonly latitude: number; readonly longitude: number };
  /** Added to the times of track and headings to be on the clock of the load, s. */
  readonly trackClock?: number;
}

/** As the records say; the pull's own hold rule before that of its series' record, and this before that of the series' plan. */
export function howPulled(about: Pick<PullCase, "pull" | "series"> | null): HowPulled {
  if (about === null) return {};
  const { pull, series } = about;
  const { anchorLatitude_deg: latitude, anchorLongitude_deg: longitude, bearing_deg: bearing } = pull;
  const planned = series === null || series === undefined ? {} : holdRuleOfSeries(series);
  return {
    ...told("heldFor", pull.heldFor_s ?? planned.heldFor),
    ...told("heldWithin", pull.heldWithin_m ?? planned.heldWithin),
    ...told("calibration", pull.calibration),
    ...told("tare", pull.tare_N),
    ...told("slackLoad", pull.slackLoad_N),
    ...(pull.pulls ? { pulls: pull.pulls } : {}),
    ...(typeof bearing === "number" ? { bearing: bearing * DEGREE } : {}),
    ...(typeof latitude === "number" && typeof longitude === "number" ? { anchorAt: { latitude, longitude } } : {}),
    ...told("trackClock", pull.trackClock_s),
  };
}

/** How a pull was made and read, with the usual hold rule, as far as none is stated, where a pull was judged by its log. */
export function howJudged(about: Pick<PullCase, "pull" | "series">, byLog: boolean): HowPulled {
  const how = howPulled(about);
  return byLog ? { ...usualHoldRule, ...how } : how;
}

/** What was told as fields of a pull's record. */
export function fieldsOfHow(how: HowPulled): FieldsOf<"pull"> {
  const { heldFor, heldWithin, calibration, tare, slackLoad, pulls, bearing, anchorAt, trackClock } = how;
  return {
    heldFor_s: heldFor,
    heldWithin_m: heldWithin,
    calibration,
    tare_N: tare,
    slackLoad_N: slackLoad,
    pulls,
    bearing_deg: bearing === undefined ? undefined : bearing * DEGREES,
    anchorLatitude_deg: anchorAt?.latitude,
    anchorLongitude_deg: anchorAt?.longitude,
    trackClock_s: trackClock,
  };
}

/** A trace with its load as the cell's calibration has it and its track on the clock of the load, and the settings told. */
export function asPulled(trace: Trace, how: HowPulled): { readonly trace: Trace; readonly settings: SettingsChange } {
  const { calibration = 1, tare = 0, trackClock = 0 } = how;
  const { track } = trace;
  const anchor = how.anchorAt && track && onPlaneOf(track, how.anchorAt);
  return {
    trace: {
      ...trackLater(trace, trackClock),
      load: calibration === 1 && tare === 0 ? trace.load : trace.load.map((newtons) => calibration * (newtons - tare)),
    },
    settings: {
      ...told("heldFor", how.heldFor),
      ...told("heldWithin", how.heldWithin),
      ...(how.slackLoad === undefined ? {} : { slack: { load: how.slackLoad } }),
      ...told("bearing", how.bearing),
      ...(how.pulls === undefined ? {} : { pulls: how.pulls }),
      ...(anchor ? { anchor } : {}),
    },
  };
}

/** A field where something was told, none where nothing was. */
function told<K extends string>(name: K, value: number | null | undefined): { readonly [P in K]?: number } {
  return typeof value === "number" ? ({ [name]: value } as { readonly [P in K]: number }) : {};
}
