/** How a pull was made, from its record to its log: each field by its own name, its own unit and its own sign. */
import { describe, expect, it } from "vitest";
import type { Trace } from "../../src/pull/index.ts";
import { asPulled, fieldsOfHow, howPulled } from "../../src/study/index.ts";
import { caseOf, record } from "./cases.ts";

/** No two of them alike, so that none can stand for another. */
const fields = {
  heldFor_s: 11,
  heldWithin_m: 0.7,
  calibration: 1.03,
  tare_N: -42,
  slackLoad_N: 65,
  pulls: "ahead",
  bearing_deg: 210,
  anchorLatitude_deg: 54.21,
  anchorLongitude_deg: 10.43,
  trackClock_s: -3.5,
} as const;
const how = {
  heldFor: 11,
  heldWithin: 0.7,
  calibration: 1.03,
  tare: -42,
  slackLoad: 65,
  pulls: "ahead",
  bearing: (210 * Math.PI) / 180,
  anchorAt: { latitude: 54.21, longitude: 10.43 },
  trackClock: -3.5,
} as const;

describe("how a pull was made", () => {
  it("is read field by field from its record, and written there the same", () => {
    expect(howPulled({ pull: caseOf(fields).pull, series: null })).toEqual({
      ...how,
      bearing: expect.closeTo(how.bearing, 14),
    });
    expect(fieldsOfHow(how)).toEqual({ ...fields, bearing_deg: expect.closeTo(210, 11) });
    expect(fieldsOfHow({ trackClock: 0 })).toMatchObject({ trackClock_s: 0 });
    expect(Object.values(fieldsOfHow({})).filter((value) => value !== undefined)).toEqual([]);
  });

  it("leaves out what nobody wrote, and an anchor of which half is written; nought is a value", () => {
    expect(howPulled(null)).toEqual({});
    expect(howPulled({ pull: caseOf({}).pull, series: null })).toEqual({});
    for (const half of [{ anchorLatitude_deg: 54 }, { anchorLongitude_deg: 10 }])
      expect(howPulled({ pull: caseOf(half).pull, series: null })).toEqual({});
    const nought = { tare_N: 0, bearing_deg: 0, anchorLatitude_deg: 0, anchorLongitude_deg: 0, trackClock_s: 0 };
    expect(howPulled({ pull: caseOf(nought).pull, series: null })).toEqual({
      tare: 0,
      bearing: 0,
      anchorAt: { latitude: 0, longitude: 0 },
      trackClock: 0,
    });
  });

  it("has the hold rule of its series where the pull has none of its own, each half by itself", () => {
    const series = record("series", "s", { heldFor_s: 20, heldWithin_m: 2 });
    const ruleOf = (own: Parameters<typeof caseOf>[0]) => howPulled({ pull: caseOf(own).pull, series });
    expect(ruleOf({})).toEqual({ heldFor: 20, heldWithin: 2 });
    expect(ruleOf({ heldFor_s: 9 })).toEqual({ heldFor: 9, heldWithin: 2 });
    expect(ruleOf({ heldWithin_m: 0.4 })).toEqual({ heldFor: 20, heldWithin: 0.4 });
  });
});

describe("a log as it was pulled", () => {
  const trace: Trace = {
    time: Float64Array.of(0, 1, 2),
    load: Float64Array.of(-42, 58, 958),
    track: {
      time: Float64Array.of(0.5, 1.5),
      east: Float64Array.of(1, 2),
      north: Float64Array.of(3, 4),
      origin: { latitude: 54.2, longitude: 10.4 },
    },
    heading: { time: Float64Array.of(0.25, 1.25), value: Float64Array.of(1, 2) },
  } as unknown as Trace;

  it("is less its tare, times its calibration, with track and headings on the clock of the load", () => {
    const made = asPulled(trace, how).trace;
    // 1.03 (reading + 42)
    expect([...made.load]).toEqual([0, 103, 1030].map((newtons) => expect.closeTo(newtons, 10)));
    expect([...made.time]).toEqual([0, 1, 2]);
    expect([...made.track!.time]).toEqual([-3, -2]);
    expect([...made.heading!.time]).toEqual([-3.25, -2.25]);
    expect([...asPulled(trace, { calibration: 2 }).trace.load]).toEqual([-84, 116, 1916]);
    expect([...asPulled(trace, { tare: 8 }).trace.load]).toEqual([-50, 50, 950]);
    const bare = asPulled({ time: trace.time, load: trace.load }, { trackClock: 4 }).trace;
    expect(Object.keys(bare)).toEqual(["time", "load"]);
  });

  it("tells the reduction what was told of it, and nothing else", () => {
    const { settings } = asPulled(trace, how);
    const { anchor, ...rest } = settings;
    expect(rest).toEqual({
      heldFor: 11,
      heldWithin: 0.7,
      slack: { load: 65 },
      bearing: how.bearing,
      pulls: "ahead",
    });
    // A minute of latitude is a mile of 1852 m, within 0.5 % (1843 m at the equator, 1862 m at the poles).
    expect(anchor!.north / (0.01 * 60 * 1852)).toBeCloseTo(1, 2);
    expect(anchor!.east / (0.03 * 60 * 1852 * Math.cos((54.2 * Math.PI) / 180))).toBeCloseTo(1, 2);
    expect(asPulled(trace, {}).settings).toEqual({});
    expect(asPulled({ time: trace.time, load: trace.load }, how).settings).not.toHaveProperty("anchor");
  });
});

describe("a trace of which nothing is told", () => {
  it("stays as it was read: load, track and times", () => {
    const track = { time: Float64Array.of(1, 2), north: Float64Array.of(0, 1), east: Float64Array.of(0, 2) };
    const trace = { time: Float64Array.of(1, 2), load: Float64Array.of(10, 20), track } as unknown as Trace;
    const same = asPulled(trace, {});
    expect(same.settings).toEqual({});
    expect(same.trace.load).toBe(trace.load);
    expect([...same.trace.track!.time]).toEqual([1, 2]);
    expect([...asPulled(trace, { trackClock: 5 }).trace.track!.time]).toEqual([6, 7]);
    expect([...asPulled(trace, { tare: 4 }).trace.load]).toEqual([6, 16]);
    expect([...asPulled(trace, { calibration: 2, tare: 4 }).trace.load]).toEqual([12, 32]);
  });
});
