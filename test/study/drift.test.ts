import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { rng } from "../../src/statistics/index.ts";
import { driftOf, type Fix } from "../../src/study/index.ts";

const DEGREE = Math.PI / 180;

/**
 * A place so far away on the ellipsoid of WGS 84, by its own radii of curvature worked out here: N = a/√(1 − e² sin² φ),
 * M = N (1 − e²)/(1 − e² sin² φ).
 */
function moved(
  latitude: number,
  longitude: number,
  east: number,
  north: number,
): { latitude: number; longitude: number } {
  const e2 = 0.00669437999014;
  const w = 1 - e2 * Math.sin(latitude * DEGREE) ** 2;
  const n = 6378137 / Math.sqrt(w);
  return {
    latitude: latitude + north / ((n * (1 - e2)) / w) / DEGREE,
    longitude: longitude + east / (n * Math.cos(latitude * DEGREE)) / DEGREE,
  };
}

describe("drift since a pull began", () => {
  it("is the distance gone, along and across the pull, wherever it is and whichever way", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -70, max: 70, noNaN: true }),
        fc.double({ min: -180, max: 180, noNaN: true }),
        fc.double({ min: -60, max: 60, noNaN: true }),
        fc.double({ min: -60, max: 60, noNaN: true }),
        fc.double({ min: 0, max: 2 * Math.PI, noNaN: true }),
        (latitude, longitude, along, across, direction) => {
          const east = along * Math.sin(direction) + across * Math.cos(direction);
          const north = along * Math.cos(direction) - across * Math.sin(direction);
          const there = moved(latitude, longitude, east, north);
          const fixes: Fix[] = [
            ...[0, 3, 6].map((time) => ({ time, latitude, longitude })),
            ...[100, 102, 104].map((time) => ({ time, ...there })),
          ];
          const drift = driftOf(fixes, direction)!;
          // Sixty metres on a plane that touches the earth: within a millimetre, as its docstring says of a kilometre.
          expect(drift.along).toBeCloseTo(along, 2);
          expect(drift.across).toBeCloseTo(across, 2);
          expect(drift.distance).toBeCloseTo(Math.hypot(along, across), 2);
          expect(driftOf(fixes, null)).toMatchObject({ along: null, across: null });
        },
      ),
    );
  });

  it("states a ± that holds the truth at least as often as it says, with a receiver that wanders slowly", () => {
    const random = rng(5);
    let held = 0;
    const trials = 300;
    for (let k = 0; k < trials; k++) {
      // An error of 1.5 m each way that lasts for a minute: first order, a place a second.
      const keep = Math.exp(-1 / 60);
      const [error, fixes]: [number[], Fix[]] = [[1.5 * random.normal(), 1.5 * random.normal()], []];
      for (let time = 0; time <= 300; time++) {
        for (const i of [0, 1]) error[i] = keep * error[i]! + Math.sqrt(1 - keep * keep) * 1.5 * random.normal();
        // The receiver states the circle that holds 95 %: 1.5 m times √(−2 ln 0.05) = 2.4477.
        fixes.push({ time, ...moved(54.2, 10.4, error[0]!, error[1]! - time / 30), accuracy: 1.5 * 2.4477 });
      }
      const { along, u } = driftOf(fixes, Math.PI)!;
      // The first and last places are some five and two and a half seconds inside the ends: 0.25 m of ten.
      if (Math.abs(along! - 9.75) <= 2 * u) held++;
    }
    expect(held / trials).toBeGreaterThan(0.94);
  });

  it("takes each end for the mean of its places, ten seconds first and five last, each no better than its scatter", () => {
    // Metres east and north by the time; logs begin at any time of the clock.
    for (const began of [0, 7000]) {
      const at = (time: number, east: number, north: number, accuracy?: number): Fix => ({
        time: began + time,
        ...moved(54, 10, east, north),
        ...(accuracy === undefined ? {} : { accuracy }),
      });
      // First: 0, 10 and 20 m east, mean 10, spread per direction √(200/3/2). The fix at 10.5 s belongs to neither end.
      const first = [at(0, 0, 0), at(5, 10, 0), at(10, 20, 0)];
      const between = [at(10.5, 900, 900), at(94.5, 900, 900)];
      // Last: 30 and 38 m north of the first place, mean 34, spread √(16/2).
      const last = [at(95, 10, 30), at(100, 10, 38)];
      const drift = driftOf([...first, ...between, ...last], 0)!;
      expect(drift.distance).toBeCloseTo(34, 2);
      expect(drift.along).toBeCloseTo(34, 2);
      expect(drift.across).toBeCloseTo(0, 2);
      expect(drift.u).toBeCloseTo(Math.sqrt(100 / 3 + 8), 2);
      // What a receiver states of one place counts where it is more than they scatter: a circle of 95 % of 24.477 m is 10 m.
      const stated = driftOf([...first, ...between, at(95, 10, 30, 24.477), at(100, 10, 38)], 0)!;
      expect(stated.u).toBeCloseTo(Math.sqrt(100 / 3 + 100), 2);
      // Places that stand still and state nothing: a metre at each end.
      expect(driftOf([at(0, 0, 0), at(60, 5, 0)], 0)!.u).toBeCloseTo(Math.SQRT2, 12);
      expect(driftOf([at(0, 0, 0), at(10, 5, 0)], 0)).not.toBeNull();
    }
  });

  it("is not told before its two ends can be told apart", () => {
    expect(driftOf([], 0)).toBeNull();
    expect(
      driftOf(
        [
          { time: 0, latitude: 1, longitude: 1 },
          { time: 9, latitude: 1, longitude: 1 },
        ],
        0,
      ),
    ).toBeNull();
  });
});
