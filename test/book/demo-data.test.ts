/** The demonstration's readings against the model it states, with chance held still: every term by itself. */
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { type SimulatedPull, simulateLog, simulatePull } from "../../src/book/demo/simulate.ts";
import { story } from "../../src/book/demo/story.ts";
import { createDemoBook } from "../../src/book/index.ts";
import type { Rng } from "../../src/statistics/index.ts";
import { folder } from "./folder.ts";

/** Chance that always falls the same way. */
const still = (normal: number, uniform = 0.5, exponential = 1): Rng =>
  ({ normal: () => normal, uniform: () => uniform, exponential: () => exponential }) as unknown as Rng;
const { zero_N: zero, noise_N: noise, everySecond } = story.cell;
const at = { latitude_deg: 0.25, longitude_deg: -29.4, depth_m: 6, wind_m_per_s: 4 };
const pull = (kind: SimulatedPull["result"]["kind"]): SimulatedPull => ({
  steps: [
    { load_N: 1000, duration_s: 30 },
    { load_N: 2000, duration_s: 10 },
  ],
  result: { kind, load_N: 2000, u_N: 20 },
  endedBy: "drag",
  moved_m: 1,
});

describe("the load cell of the demonstration", () => {
  // Twenty seconds of slack, four to take up each step, each held its time, and twenty seconds more: 88 s.
  it.each(["heldTo", "gaveWay"] as const)(
    "reads the steps of a pull that %s, taken up in four seconds each",
    (kind) => {
      const { times, columns } = simulateLog(still(0), pull(kind), 5000, at);
      expect(times).toHaveLength(88 * everySecond);
      expect([times[0], times.at(-1)]).toEqual([5000, expect.closeTo(5088 - 1 / everySecond, 6)]);
      const load = (t: number) => columns.load![Math.round(t * everySecond)]! - zero;
      for (const [t, newtons] of [
        [0, 0],
        [19.9, 0],
        [21, 250],
        [23, 750],
        [24, 1000],
        [53.9, 1000],
        [54, 1000],
        [56, 1500],
        [58, 2000],
        [68, 2000],
        ...(kind === "heldTo"
          ? // The engine is let go: nothing is left after eight seconds.
            [
              [70, 1500],
              [72, 1000],
              [76, 0],
              [80, 0],
            ]
          : // It broke out: a third of it, and the boat gathers way.
            [
              [68.1, 700],
              [80, 700],
            ]),
      ] as const)
        expect(load(t!), `at ${t} s`).toBeCloseTo(newtons!, 6);
      // Once a second: depth, wind and place; two millimetres astern for each newton, half a metre a second on giving way.
      const rows = Array.from({ length: 88 }, (_, s) => s * everySecond);
      for (const i of rows) {
        const t = i / everySecond;
        const astern = 0.002 * load(t) + (kind === "gaveWay" && t > 68 ? 0.5 * (t - 68) : 0);
        expect(columns.depth![i]).toBe(6);
        expect(columns.wind![i]).toBe(4);
        expect(columns.latitude![i]).toBe(0.25);
        // A degree of longitude at the equator is 111.32 km; places are kept to 1e-7 of a degree.
        expect(Math.abs(columns.longitude![i]! - (-29.4 - astern / 111_320))).toBeLessThan(6e-8);
      }
      for (const name of ["depth", "wind", "latitude", "longitude"])
        expect(
          columns[name]!.filter((value) => !Number.isNaN(value)),
          name,
        ).toHaveLength(rows.length);
    },
  );

  it("wanders as it says: a hundredth about the load, the cell's noise, metres of place, decimetres of depth", () => {
    const { columns } = simulateLog(still(1), pull("gaveWay"), 0, at);
    expect(columns.load![0]).toBeCloseTo(zero + noise, 9);
    // The wander adds a tenth each reading and keeps 0.995 of itself: 0.1 (1 − 0.995ⁿ)/0.005 after n.
    const i = 24 * everySecond;
    const sway = (0.1 * (1 - 0.995 ** (i + 1))) / 0.005;
    expect(columns.load![i]).toBeCloseTo(1000 * (1 + 0.012 * sway) + zero + noise, 6);
    expect(columns.depth![0]).toBeCloseTo(6.05, 9);
    expect(columns.wind![0]).toBeCloseTo(4.8, 9);
    expect(columns.latitude![0]).toBeCloseTo(0.250006, 9);
    expect(columns.longitude![0]).toBeCloseTo(-29.399994, 9);
    // However it falls, a load is not below nothing, nor wind.
    const low = simulateLog(still(-1), pull("gaveWay"), 0, { ...at, wind_m_per_s: 0.5 }).columns;
    expect(Math.min(...low.load!)).toBeCloseTo(zero - noise, 9);
    expect(low.wind![0]).toBe(0);
  });
});

describe("a pull of the demonstration", () => {
  const { engine, step } = story;
  it("ends where the anchor gives way or the engine gives no more, by steps below that", () => {
    const gave = simulatePull(still(0), 1600, 0.3, 1.1);
    expect(gave.result).toEqual({ kind: "gaveWay", load_N: 1760, u_N: 30 });
    const below = Math.ceil(1760 / step.load_N) - 1;
    expect(gave.steps).toEqual([
      ...Array.from({ length: below }, (_, i) => ({ load_N: (i + 1) * step.load_N, duration_s: step.seconds })),
      { load_N: 1760, duration_s: 5 },
    ]);
    expect(gave.moved_m).toBe(3);
    const held = simulatePull(still(0), 2 * engine.thrust_N, 0.3, 1);
    expect(held).toMatchObject({
      result: { kind: "heldTo", load_N: engine.thrust_N, u_N: 20 },
      endedBy: "engine limit",
      moved_m: 1.3,
    });
    expect(held.steps.at(-1)).toEqual({ load_N: engine.thrust_N, duration_s: 60 });
    const never = simulatePull(still(0), 0.6 * step.load_N, 0.3, 1);
    expect(never).toMatchObject({ result: { kind: "neverSet", u_N: 20 }, endedBy: "drag", moved_m: 12 });
    expect(never.steps).toEqual([{ load_N: Math.round(0.6 * step.load_N), duration_s: 10 }]);
    // Lognormal about the median: a deviate of one is a factor of exp(spread).
    expect(simulatePull(still(1), 1000, 0.3, 1).result.load_N).toBe(Math.round(1000 * Math.exp(0.3)));
    expect(simulatePull(still(-1), 4 * engine.thrust_N, 0.1, 1).result.load_N).toBe(
      Math.round(engine.thrust_N - engine.u_N),
    );
  });
  it.each([
    [0.5, "drag"],
    [0.74, "drag"],
    [0.76, "roll-out"],
    [0.89, "roll-out"],
    [0.91, "break-out"],
  ])("by the lot of %d ends by %s", (lot, endedBy) => {
    expect(simulatePull(still(0, lot), 1600, 0.3, 1).endedBy).toBe(endedBy);
  });
});

it("the demonstration's pulls lie at their day's depth and place, one after another, the boat pulling east or so", () => {
  const book = createDemoBook(join(folder(), "demo.book"));
  const days = book.list("day");
  for (const [i, day] of days.entries()) {
    const pulls = book.list("pull", { where: { day: day.id } });
    expect(pulls.map(({ number }) => number)).toEqual(Array.from({ length: 12 }, (_, n) => n + 1));
    for (const [n, one] of pulls.entries()) {
      // Five standard deviations of a decimetre and of six degrees.
      expect(Math.abs(one.depth_m! - story.days[i]!.depth_m)).toBeLessThan(0.56);
      expect(Math.abs(one.heading_deg! - 90)).toBeLessThan(31);
      expect(one.scope).toBe(5);
      expect(one.startedAt).toBe(new Date(Date.parse(`${day.date}T08:00:00Z`) + n * 22 * 60_000).toISOString());
    }
    expect(new Set(pulls.map(({ depth_m }) => depth_m)).size).toBeGreaterThan(1);
    const logs = book.list("log").filter(({ pull }) => pulls.some(({ id }) => id === pull));
    expect(logs.map(({ name }) => name)).toEqual(["load cell, pull 1", "load cell, pull 2"]);
    const site = book.get("site", day.site!)!;
    for (const [n, { id }] of logs.entries())
      for (const { times, columns } of book.logs.rows(id, ["depth", "latitude", "longitude"])) {
        expect(times[0]).toBeGreaterThanOrEqual(Date.parse(pulls[n]!.startedAt!) / 1000);
        const near = (name: string, about: number, by: number) => {
          for (const value of columns[name]!)
            if (!Number.isNaN(value)) expect(Math.abs(value - about)).toBeLessThan(by);
        };
        near("depth", story.days[i]!.depth_m, 0.3);
        near("latitude", site.latitude_deg!, 4e-5);
        near("longitude", site.longitude_deg!, 3e-4);
      }
  }
  book.close();
});
