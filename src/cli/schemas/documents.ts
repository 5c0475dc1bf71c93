/**
 * Longer answers, to the depth at which programs pick fields. Groups below it may grow: what is not named here is not
 * promised.
 */
import * as z from "zod";
import { type AnswerFormat, answerFormat } from "./answer.ts";

const uncertain = z.looseObject({ value: z.number(), u: z.number().describe("standard uncertainty") });
const group = z.looseObject({});
const loadEnd = z.enum(["anchor", "bow", "horizontal"]);
/** Load at one end of a rode over a ride. */
const factor = z.looseObject({ factor: z.number(), low: z.number(), high: z.number() });
const ridden = z.looseObject({
  mean_N: z.number(),
  u_N: z.number(),
  deviation_N: z.number(),
  largest_N: z.number(),
  least_N: z.number(),
  extremes: z.looseObject({ storm_s: z.number(), mostProbable_N: uncertain, belowNineInTen_N: uncertain }).nullable(),
});
const overRides = z
  .looseObject({ rides: z.int(), mean: z.number(), u: z.number().nullable(), largest: z.number() })
  .nullable();
const swept = {
  sweep: z.string(),
  rides: z.looseObject({ whole: z.int(), asked: z.int(), done: z.int() }),
  file: z.string().nullable(),
  cases: z.array(
    z.looseObject({
      rig: z.string(),
      boat: z.string(),
      weather: z.string(),
      rides: z.int(),
      bowMean_N: overRides,
      bowLargest_N: overRides,
      anchorLargest_N: overRides,
    }),
  ),
};
const standsAgainst = z.array(z.looseObject({ kind: z.string() }));
const plannedPull = {
  number: z.int(),
  code: z.string(),
  date: z.string(),
  site: z.string(),
  at: z.string().describe("RFC 3339, in UT"),
  anchor: z.string(),
  anchorAngle_deg: z.number().describe("at the anchor above the bottom"),
  level_m: z.number().nullable(),
  kind: z.enum(["had", "notHad", "levelNotTold"]),
  rode: z.string().optional(),
  depth_m: z.number().optional(),
  charted_m: z.number().optional(),
  length_m: z.number().optional(),
  loads: z
    .array(z.looseObject({ load_N: z.number(), bow_N: z.number(), engine_rpm: z.number().nullable() }))
    .optional(),
  warnings: z.array(z.looseObject({ kind: z.string() })).optional(),
  against: standsAgainst.optional(),
};
const clockRemarks = z
  .array(z.looseObject({ row: z.int(), why: z.string() }))
  .describe("what is to be said of the clocks of pulls");
const plannedHold = {
  hold_s: z.number().describe("each load is held so long"),
  holdRule: z.looseObject({ heldFor_s: z.number(), heldWithin_m: z.number() }),
};
const said = { assumed: z.array(z.string()), caution: z.string() };

export const documents: readonly AnswerFormat[] = [
  answerFormat("weather@1", "weather --wind", {
    boat: z.string(),
    wind_m_per_s: uncertain,
    beaufort: z.looseObject({ force: z.int(), name: z.string() }),
    measured: z.array(z.looseObject({ at: loadEnd, mean_N: group })),
    roads: z.array(
      z.looseObject({
        at: loadEnd,
        windage_N: uncertain,
        swinging: z.boolean(),
        points_N: uncertain,
        agree: z.boolean(),
      }),
    ),
    tablesBeside: z
      .looseObject({
        wind_m_per_s: z.number(),
        printed_N: z.array(z.number()),
        points_N: uncertain,
        agree: z.boolean(),
      })
      .optional(),
    ...said,
  }),
  answerFormat("wind-worth@1", "weather --load", {
    boat: z.string(),
    load_N: uncertain,
    measured: z.array(z.looseObject({ at: loadEnd })),
    ...said,
  }),
  answerFormat("shock@1", "shock", {}),
  answerFormat("choice@1", "choose", {
    plan: z.string(),
    load: z.looseObject({ at: loadEnd, mean_N: uncertain }),
    criteria: z.array(z.string()),
    candidates: z.array(
      z.looseObject({
        name: z.string(),
        kind: z.enum(["weighed", "notWeighed"]),
        weight_kg: z.number(),
        notBeaten: z.boolean(),
        why: z.string().optional(),
        passed: z.array(z.string()).optional(),
      }),
    ),
    table: z.array(z.looseObject({ load_N: z.number(), cells: z.array(group.nullable()) })),
  }),
  answerFormat("series-plan@1", "series", {
    series: z.string(),
    question: z.enum(["compare", "letsGo", "afterVeer"]),
    seed: z.int(),
    ...plannedHold,
    held: z.int().describe("pulls held already that were counted"),
    table: z.array(
      z.looseObject({
        site: z.string(),
        anchorAngle_deg: z.number(),
        load_N: z.number(),
        had: z
          .looseObject({ rode: z.string(), depth_m: z.number(), length_m: z.number(), bow_N: z.number() })
          .nullable(),
        depths_m: z.tuple([z.number(), z.number()]).nullable(),
        against: z.array(z.looseObject({ rode: z.string(), against: standsAgainst })),
      }),
    ),
    pulls: z.array(z.looseObject(plannedPull)),
    withoutHour: z.int(),
    time_s: z.number(),
    power: z
      .looseObject({
        kind: z.enum(["told", "massUnknown"]),
        enough: z.int().nullable().optional(),
        rows: z.array(z.looseObject({ repeats: z.int(), pulls: z.int(), share: z.number() })).optional(),
      })
      .nullable(),
    next: z.array(
      z.looseObject({ anchor: z.string(), anchorAngle_deg: z.number(), gain: z.number(), reason: z.string() }),
    ),
  }),
  answerFormat("planned-pull@1", "series --code", { ...plannedPull, ...plannedHold }),
  answerFormat("traced@1", "trace", {
    readAt: z.enum(["anchor", "bow"]),
    log: z.looseObject({ from_s: z.number(), to_s: z.number(), readings: z.int(), noise_N: z.number() }),
    zero: z.looseObject({ kind: z.string() }),
    plateaus: z.array(group),
    peaks: z.array(group),
    sustained: z.array(group),
    drags: z.array(group),
    trackClock: z
      .looseObject({
        kind: z.enum(["told", "notTold"]),
        offset_s: z.number().optional(),
        u_s: z.number().optional(),
        applied: z.boolean().optional(),
      })
      .nullable(),
    trackApart: z
      .looseObject({
        log: z.string(),
        seconds: z.number().describe("begins so long after the load; below zero: before"),
      })
      .nullable()
      .optional(),
    firstMovement: z.looseObject({
      kind: z.enum(["moved", "none", "notKnown"]),
      at_s: z.number().optional(),
      u_s: z.number().optional(),
      by: z.enum(["track", "hand"]).optional(),
      unseen_m: z.number().nullable().optional(),
      why: z.enum(["noTrack", "noLine"]).optional(),
      fell_s: z.number().nullable().optional(),
    }),
    way: z.array(
      z.looseObject({
        plateau: z.string(),
        at_s: z.number(),
        load: z.looseObject({ value_N: z.number(), u_N: z.number() }),
        way: z.looseObject({ value_m: z.number(), u_m: z.number() }),
      }),
    ),
    held: z.looseObject({ kind: z.enum(["heldTo", "gaveWay", "notKnown"]), why: z.string() }),
    holdRule: z.looseObject({ heldFor_s: z.number(), heldWithin_m: z.number(), tracked: z.boolean() }),
  }),
  answerFormat("compared@1", "compare", {
    pulls: z.int(),
    leftOut: z.array(z.looseObject({ row: z.int(), why: z.string() })),
    remarks: clockRemarks,
    holdRules: z
      .array(z.looseObject({ heldFor_s: z.number(), heldWithin_m: z.number(), pulls: z.int() }))
      .describe("hold rules the pulls were judged by, where they are told"),
    anchors: z.array(
      z.looseObject({
        anchor: z.string(),
        pulls: z.int(),
        gaveWay: z.int(),
        heldOn: z.int(),
        between: z.int(),
        neverHeld: z.int(),
        curve: z.array(z.looseObject({ load_N: z.number(), chance: z.number() })),
      }),
    ),
    logRank: z.looseObject({ chi2: z.number(), df: z.int(), p: z.number() }).nullable(),
    fits: z.array(
      z.looseObject({
        law: z.enum(["weibull", "lognormal", "loglogistic"]),
        terms: z.array(z.looseObject({ name: z.string(), value: z.number(), u: z.number() })),
        logScale: uncertain,
        logLikelihood: z.number(),
      }),
    ),
    holds: z.array(z.looseObject({ anchor: z.string(), median_N: z.number() })),
    pairs: z.array(z.looseObject({ first: z.string(), second: z.string(), moreInTheMean: z.number() })),
    testers: z
      .looseObject({
        spread: factor,
        each: z.array(factor.extend({ tester: z.string(), pulls: z.int() })),
      })
      .nullable()
      .describe("how testers differ, where several tested"),
    verdicts: z.array(z.string()),
  }),
  answerFormat("ridden@1", "ride", {
    rig: z.string(),
    boat: z.string(),
    seed: z.int(),
    seconds_s: z.number(),
    stopped: z.boolean(),
    broken: z.string().nullable(),
    windage_u: z.number().describe("relative standard uncertainty of the boat's windage"),
    bow: ridden,
    anchor: ridden,
    anchorAngle: z.looseObject({ mean_deg: z.number(), largest_deg: z.number(), atLargestLoad_deg: z.number() }),
    liftedShare: z.number(),
    exceedance: z.array(z.looseObject({ load_N: z.number(), share: z.number() })),
    snatches: z.int(),
    circle_m: z.number(),
    sideways_m: z.number(),
    sheer_deg: z.number(),
    cycles: z.array(z.looseObject({ from_N: z.number(), to_N: z.number(), count: z.number() })),
    parts: z.array(z.looseObject({ part: z.int(), name: z.string() })),
  }),
  answerFormat("swept@1", "sweep", { ...swept, shard: z.string() }),
  answerFormat("joined@1", "join", { ...swept, missing: z.array(z.string()) }),
  answerFormat("page-published@1", "publish page", {
    file: z.string().nullable(),
    bytes: z.int().optional(),
    gzip_bytes: z.int().optional(),
    title: z.string(),
    by: z.string(),
    setups: z.array(z.looseObject({ name: z.string(), load_N: z.number(), at: loadEnd })),
    boats: z.array(z.string()),
    holding: z
      .looseObject({
        pulls: z.int(),
        law: z.enum(["weibull", "lognormal"]),
        draws: z.int(),
        anchors: z.array(
          z.looseObject({ anchor: z.string(), mass_kg: z.number().nullable(), pulls: z.int(), heldOn: z.int() }),
        ),
        angle: z.boolean(),
        mass: z.boolean(),
        seabeds: z.array(z.string()),
      })
      .nullable(),
  }),
  answerFormat("figure-published@1", "publish figure", {
    file: z.string(),
    data: z.string().describe("the file of the figure's data, CSV"),
    title: z.string(),
    for: z.enum(["print", "web", "film", "film-4k", "film-tall"]),
    theme: z.enum(["light", "dark"]),
    ground: z.boolean(),
    uncertain: z.string().describe("what its ± are, or that there are none"),
    source: z.string(),
    bytes: z.int(),
    rows: z.int().describe("rows of its data"),
  }),
  answerFormat("overlay-published@1", "publish overlay", {
    folder: z.string(),
    frames: z.int().describe("written"),
    of: z.int().describe("asked for"),
    stopped: z.boolean(),
    width_px: z.int(),
    height_px: z.int(),
    rate: z.strictObject({ frames: z.int(), per_s: z.int() }).describe("frames in so many seconds, exactly"),
    length_s: z.number(),
    clip: z.string().nullable(),
  }),
  answerFormat("report-published@1", "publish report", {
    file: z.string(),
    title: z.string(),
    pulls: z.int(),
    units: z.enum(["metric", "us"]),
    bytes: z.int(),
    remarks: clockRemarks.optional(),
  }),
  answerFormat("data-published@1", "publish data", {
    folder: z.string(),
    title: z.string(),
    pulls: z.int(),
    leftOut: z.int(),
    remarks: clockRemarks,
    with: z.array(z.enum(["people", "remarks", "positions"])),
    channelsLeftOut: z.array(z.string()).describe("channels of logs left out, as they tell places"),
    licence: z.string(),
    files: z.array(z.looseObject({ path: z.string(), bytes: z.int() })),
  }),
  answerFormat("package-checked@1", "publish check", {
    folder: z.string(),
    title: z.string(),
    files: z.int(),
    pulls: z.int(),
    numbers: z.int(),
    answers: z.int(),
    differences: z.array(z.looseObject({ where: z.string(), published: z.string(), found: z.string() })),
  }),
  answerFormat("catalogue@1", "gear", {
    rows: z.array(z.looseObject({ kind: z.string(), name: z.string() })),
    sources: z.record(z.string(), group),
    caution: z.string(),
  }),
];
