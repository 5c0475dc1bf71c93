/** A sweep's list, its file and its rows: every field where it belongs. */
import { describe, expect, it } from "vitest";
import {
  deviationOf,
  readSweep,
  ride,
  rideAnswer,
  rideOfSweep,
  SWEEP_COLUMNS,
  shardRide,
  shardRides,
  sweepPaths,
  sweepTotals,
  uncertaintyOf,
} from "../../src/motion/index.ts";
import { sweepCases, sweepPlace, sweepQuestion } from "../../src/motion/sweep.ts";

const rigText = (name: string, length: number) => ({
  format: "rodebench/rig@1",
  name,
  setting: { medium: "water", depth: "6 m", rollerHeight: "1 m", bottomFriction: 0.6, current: "0.2 m/s" },
  rode: [
    { chain: { grade: "30", size: "8 mm", length: "12 m" } },
    { rope: { fibre: "polyamide", lay: "three-strand", diameter: "14 mm", length: `${length} m` } },
  ],
});
const boatText = (name: string) => ({
  format: "rodebench/boat@1",
  name,
  ...{ length: "9 m", waterline: "8 m", beam: "3 m", draught: "1.5 m", bodyDraught: "0.5 m" },
  ...{ displacement: "4000 kg", bowRollerHeight: "1 m" },
  windage: { shapes: [{ hull: { freeboard: "1.1 m" } }] },
});
const fields = {
  format: "rodebench/sweep@1",
  name: "two of each",
  rigs: [rigText("short", 14), rigText("long", 22)],
  boats: [boatText("one"), boatText("two"), boatText("three")],
  weather: [
    { wind: "16 kn", sea: "0.3 m, 2.5 s", current: "0.4 m/s" },
    { name: "squall", wind: "18 kn", gusts: "kaimal-b", shifts: ["20 s, 30 kn, 40 deg", "40 s, 20 kn, 10 deg"] },
  ],
  seeds: "4..6",
  hours: 0.02,
  storm: "2 h",
  elements: 8,
};
const read = (over: object = {}) => readSweep(JSON.stringify({ ...fields, ...over }), "sweep.json");
const KNOT = 1852 / 3600;

describe("a sweep file", () => {
  it("is read field by field, in SI", () => {
    const sweep = read();
    expect(sweep).toMatchObject({
      name: "two of each",
      seeds: { first: 4, count: 3 },
      duration: 72,
      storm: 7200,
      elements: 8,
    });
    expect(sweep.rigs.map(({ name }) => name)).toEqual(["short", "long"]);
    expect(sweep.boats.map(({ name }) => name)).toEqual(["one", "two", "three"]);
    const [calm, squall] = sweep.weathers;
    expect(calm).toMatchObject({
      name: "16 kn, 0.3 m, 2.5 s, 0.4 m/s",
      wind: expect.closeTo(16 * KNOT, 9),
      gusts: "froya",
      current: 0.4,
      shifts: [],
    });
    expect(calm!.sea).toMatchObject({ significantHeight: 0.3, peakPeriod: 2.5 });
    expect(squall).toMatchObject({ name: "squall", gusts: "kaimal-b", sea: null, current: null });
    expect(squall!.shifts).toEqual([
      { time: 20, speed: expect.closeTo(30 * KNOT, 9), toward: expect.closeTo((40 * Math.PI) / 180, 12) },
      { time: 40, speed: expect.closeTo(20 * KNOT, 9), toward: expect.closeTo((10 * Math.PI) / 180, 12) },
    ]);
  });

  it("takes the usual for what it does not say", () => {
    const { name: _name, seeds: _seeds, hours: _hours, storm: _storm, elements: _elements, ...bare } = fields;
    const sweep = readSweep(JSON.stringify(bare), "sweep.json");
    expect(sweep).toMatchObject({
      name: "sweep",
      seeds: { first: 1, count: 1 },
      duration: 3600,
      storm: 10_800,
      elements: 40,
    });
    expect(read({ seeds: 7 }).seeds).toEqual({ first: 7, count: 1 });
    expect(read({ seeds: "0..0" }).seeds).toEqual({ first: 0, count: 1 });
  });

  it("names files once each, rigs before boats, and reads them from what it is given", () => {
    const file = JSON.stringify({ ...fields, rigs: ["a.yaml", fields.rigs[1], "a.yaml"], boats: ["b.yaml"] });
    expect(sweepPaths(file, "sweep.json")).toEqual(["a.yaml", "b.yaml"]);
    const once = JSON.stringify({ ...fields, rigs: ["a.yaml", fields.rigs[1]], boats: ["b.yaml"] });
    const sweep = readSweep(once, "sweep.json", {
      "a.yaml": { text: JSON.stringify(fields.rigs[0]), place: "a.yaml" },
      "b.yaml": { text: JSON.stringify(fields.boats[2]), place: "b.yaml" },
    });
    expect([sweep.rigs.map(({ name }) => name), sweep.boats.map(({ name }) => name)]).toEqual([
      ["short", "long"],
      ["three"],
    ]);
  });

  it("is refused outside its bounds, and only there", () => {
    for (const elements of [5, 60]) expect(read({ elements }).elements).toBe(elements);
    for (const elements of [4, 2001, 8.5]) expect(() => read({ elements })).toThrow("a whole number from 5 to 2000");
    for (const [seeds, fine] of [
      ["2147483648", true],
      ["2147483649", false],
      ["-1", false],
      ["1..", false],
      ["1..2..3", false],
      ["1.5", false],
      ["3..2", false],
    ] as const) {
      if (fine) expect(read({ seeds }).seeds.first).toBe(Number(seeds));
      else expect(() => read({ seeds }), seeds).toThrow("seeds");
    }
    expect(() => read({ seeds: "0..833332" })).not.toThrow();
    expect(() => read({ seeds: "0..833333" })).toThrow("at most 10000000");
    expect(() => read({ storm: "0 h" })).toThrow("storm");
    for (const [list, place] of [
      ["rigs", "rigs"],
      ["boats", "boats"],
      ["weather", "weather"],
    ] as const)
      expect(() => read({ [list]: [fields[list][0], fields[list][0]] }), place).toThrow("names that differ");
    const air = { ...fields.rigs[0], setting: { medium: "air", rise: "7 m" } };
    expect(() => read({ rigs: [air] })).toThrow("a rig in water");
  });
});

describe("the list of a sweep", () => {
  it("runs through weathers first, boats, rigs, and seeds last", () => {
    const sweep = read();
    expect(sweepCases(sweep)).toBe(12);
    expect(sweepPlace(sweep, 0)).toEqual({ rig: 0, boat: 0, weather: 0, seed: 4 });
    expect(sweepPlace(sweep, 1)).toEqual({ rig: 0, boat: 0, weather: 1, seed: 4 });
    expect(sweepPlace(sweep, 5)).toEqual({ rig: 0, boat: 2, weather: 1, seed: 4 });
    expect(sweepPlace(sweep, 6)).toEqual({ rig: 1, boat: 0, weather: 0, seed: 4 });
    expect(sweepPlace(sweep, 35)).toEqual({ rig: 1, boat: 2, weather: 1, seed: 6 });
  });

  it("is cut into parts by what is left of a ride's number", () => {
    const sweep = read();
    expect([1, 2, 3, 4, 5].map((part) => shardRides(sweep, { part, of: 5 }))).toEqual([8, 7, 7, 7, 7]);
    expect(shardRides(sweep, { part: 40, of: 40 })).toBe(0);
    expect(shardRides(sweep, { part: 36, of: 40 })).toBe(1);
    expect([shardRide({ part: 3, of: 5 }, 0), shardRide({ part: 3, of: 5 }, 2)]).toEqual([2, 12]);
  });

  it("asks each ride what its rig, boat and weather say", () => {
    const sweep = read();
    const first = sweepQuestion(sweep, 8);
    expect(first).toMatchObject({
      boat: { name: "two" },
      rig: { name: "long", setting: { current: 0.4 } },
      seed: 4,
      duration: 72,
      elements: 8,
    });
    expect(first.wind).toEqual([{ time: 0, speed: expect.closeTo(16 * KNOT, 9), toward: 0 }]);
    expect(first.gusts).toEqual({ kind: "froya", wind: first.wind[0]!.speed, height: 10 });
    expect(first.sea).toMatchObject({ significantHeight: 0.3 });
    const second = sweepQuestion(sweep, 1);
    expect(second).toMatchObject({
      rig: { setting: { current: 0.2 } },
      sea: null,
      gusts: { kind: "kaimal", turbulence: "B" },
    });
    expect(second.wind.map(({ time }) => time)).toEqual([0, 20, 40]);
  });
});

describe("a row of a sweep", () => {
  it("says of its ride what the ride's answer says, each in its own column", () => {
    const sweep = read();
    const row = rideOfSweep(sweep, 13);
    const question = sweepQuestion(sweep, 13);
    const under = ride(question);
    if (!("goOn" in under)) throw new Error(under.cause);
    while (under.goOn(30));
    const a = rideAnswer(under, 7200);
    const DEG = 180 / Math.PI;
    const end = (name: string, of: typeof a.bow, extremes: typeof a.bowExtremes) => ({
      [`${name}_mean_N`]: of.mean,
      [`${name}_mean_u_N`]: of.u,
      [`${name}_deviation_N`]: of.deviation,
      [`${name}_largest_N`]: of.largest,
      [`${name}_mostProbable_N`]: extremes?.mostProbable.value ?? null,
      [`${name}_mostProbable_u_N`]: extremes?.mostProbable.u ?? null,
      [`${name}_nineInTen_N`]: extremes?.ninety.value ?? null,
      [`${name}_nineInTen_u_N`]: extremes?.ninety.u ?? null,
    });
    const shares = question.rig.rode.flatMap((part, i) =>
      part.workingLoad === undefined ? [] : [under.highest[i]! / part.workingLoad],
    );
    expect(row).toEqual({
      ride: 13,
      ...{ rig: "short", boat: "one", weather: "squall", seed: 5 },
      ...{ wind_m_per_s: question.wind[0]!.speed, seaHeight_m: null, seaPeriod_s: null, current_m_per_s: 0.2 },
      outcome: "ridden",
      seconds_s: a.seconds,
      ...end("bow", a.bow, a.bowExtremes),
      ...end("anchor", a.anchor, a.anchorExtremes),
      anchorAngle_mean_deg: a.angle.mean * DEG,
      anchorAngle_largest_deg: a.angle.largest * DEG,
      anchorAngle_atLargestLoad_deg: a.angleAtLargest * DEG,
      liftedShare: a.liftedShare,
      snatches: a.snatches,
      circle_m: a.circle,
      sideways_m: a.sideways,
      sheer_deg: a.sheer * DEG,
      still_bow_N: a.atRest!.bow.tension,
      still_anchor_N: a.atRest!.anchor.tension,
      bowOverStill: a.overStill!.bow,
      anchorOverStill: a.overStill!.anchor,
      highestOfWorkingLoad: shares.length === 0 ? null : Math.max(...shares),
    });
    expect(shares.length).toBeGreaterThan(0);
    expect(Object.keys(row)).toEqual(SWEEP_COLUMNS.map(([name]) => name));
    const told: number[] = [];
    rideOfSweep(sweep, 12, (share) => told.push(share));
    expect(told.every((share, i) => share >= (told[i - 1] ?? 0) && share <= 1)).toBe(true);
  });

  it("is summed by case: what it is a mean of, what it counts, what it leaves out", () => {
    const totals = sweepTotals();
    const row = (over: object) => ({ rig: "a", boat: "b", weather: "c", outcome: "ridden", ...over });
    const full = {
      ...{ bow_mean_N: 100, bow_largest_N: 250, anchor_largest_N: 200, anchorAngle_atLargestLoad_deg: 4 },
      ...{ liftedShare: 0.25, bowOverStill: 1.5, highestOfWorkingLoad: 0.1 },
    };
    totals.add(row(full));
    totals.add(row({ ...full, bow_largest_N: 350, highestOfWorkingLoad: null }));
    totals.add(row({ bow_mean_N: null, outcome: "noEquilibrium" }));
    totals.add(row({ bow_mean_N: null, outcome: "brokeOff" }));
    totals.add(row({ rig: "other", bow_mean_N: 7 }));
    const [one, other] = totals.cases();
    expect(one).toMatchObject({ rig: "a", boat: "b", weather: "c", rides: 4, without: 2, brokeOff: 1 });
    expect(other).toMatchObject({ rig: "other", rides: 1, without: 0, bowMean: { count: 1, mean: 7 } });
    expect(
      [one!.bowMean, one!.anchorLargest, one!.angleAtLargest, one!.liftedShare, one!.bowOverStill].map(
        ({ mean }) => mean,
      ),
    ).toEqual([...[100, 200, 4, 0.25, 1.5]]);
    expect(one!.bowLargest).toEqual({ count: 2, mean: 300, squares: 5000, largest: 350 });
    expect(one!.highestOfWorkingLoad).toMatchObject({ count: 1, mean: 0.1 });
    expect(deviationOf(one!.bowLargest)).toBeCloseTo(Math.sqrt(5000), 9);
    expect(uncertaintyOf(one!.bowLargest)).toBeCloseTo(50, 9);
    expect([deviationOf(one!.highestOfWorkingLoad), uncertaintyOf(one!.highestOfWorkingLoad)]).toEqual([null, null]);
  });
});
