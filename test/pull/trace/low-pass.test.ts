import { describe, expect, it } from "vitest";
import { gainAt, lowPass, lowPassOf, peakKept } from "../../../src/pull/trace/low-pass.ts";
import { type Readings, readings } from "../../../src/pull/trace/trace.ts";
import { numbers } from "./simulated-pull.ts";

function logOf(rate: number, seconds: number, at: (t: number) => number): Readings {
  const n = Math.round(rate * seconds) + 1;
  const time = Float64Array.from({ length: n }, (_, i) => i / rate);
  return readings(time, time.map(at), 3, "load");
}

/** Amplitude of a sine of the given frequency in the middle of a series, by its projection on sine and cosine. */
function amplitude(log: Readings, values: Float64Array, frequency: number): number {
  const periods = Math.floor((log.time.at(-1)! * frequency) / 2);
  const from = log.time.at(-1)! / 4;
  const to = from + periods / frequency;
  let s = 0;
  let c = 0;
  let n = 0;
  for (let i = 0; i < log.time.length; i++) {
    if (log.time[i]! < from || log.time[i]! >= to - 1e-9) continue;
    s += values[i]! * Math.sin(2 * Math.PI * frequency * log.time[i]!);
    c += values[i]! * Math.cos(2 * Math.PI * frequency * log.time[i]!);
    n++;
  }
  return (2 * Math.hypot(s, c)) / n;
}

describe("the low-pass", () => {
  it.each([
    [0.5, 10],
    [0.5, 100],
    [2, 10],
    [0.1, 1],
  ])("has the gain 1/√2 at the bandwidth it states (%d Hz at %d readings a second)", (bandwidth, rate) => {
    const filter = lowPassOf(bandwidth, 1 / rate);
    // Both are closed forms of the same kernel: rounding only.
    expect(gainAt(filter, bandwidth, 1 / rate)).toBeCloseTo(Math.SQRT1_2, 12);
    const log = logOf(rate, 60 / bandwidth, (t) => Math.sin(2 * Math.PI * bandwidth * t));
    // The projection takes whole periods of whole intervals: 1e-3 covers what the ends leave.
    expect(Math.abs(amplitude(log, lowPass(log, filter), bandwidth) - Math.SQRT1_2)).toBeLessThan(1e-3);
  });

  it.each([0.05, 0.25, 1, 2])("does to a sine of %d Hz what its gain says", (frequency) => {
    const filter = lowPassOf(0.5, 0.05);
    const log = logOf(20, 40 / frequency, (t) => Math.sin(2 * Math.PI * frequency * t));
    expect(Math.abs(amplitude(log, lowPass(log, filter), frequency) - gainAt(filter, frequency, 0.05))).toBeLessThan(
      1e-3,
    );
  });

  it("takes a quarter of the log's rate when the log is too slow, and says so", () => {
    expect(lowPassOf(0.5, 2)).toMatchObject({ bandwidth: 0.125, limitedByLog: true });
    expect(lowPassOf(0.5, 0.1)).toMatchObject({ bandwidth: 0.5, limitedByLog: false });
  });

  it.each([0.2, 0.5, 1, 2])("keeps of a peak of %d s the share it states", (seconds) => {
    const filter = lowPassOf(0.5, 0.001);
    const log = logOf(1000, 10, (t) => (Math.abs(t - 5) < seconds / 2 ? 1 : 0));
    // The pulse's edges fall within a reading: half a millisecond of the peak, 2e-3 of the shortest.
    expect(Math.abs(Math.max(...lowPass(log, filter)) - peakKept(filter, seconds))).toBeLessThan(2e-3);
  });

  it("leaves a constant as it is, at ends and gaps and uneven times too", () => {
    const random = numbers(3);
    let t = 0;
    const time = Float64Array.from({ length: 500 }, (_, i) => {
      t += i === 250 ? 60 : 0.02 + 0.2 * random();
      return t;
    });
    const log = readings(time, new Float64Array(500).fill(7), 3, "load");
    for (const v of lowPass(log, lowPassOf(0.5, log.interval))) expect(Math.abs(v - 7)).toBeLessThan(1e-12);
  });

  it("does not delay: a pulse read at uneven times keeps its centre", () => {
    const random = numbers(11);
    let t = 0;
    const times: number[] = [];
    while (t < 40) {
      t += 0.01 + 0.09 * random();
      times.push(t);
    }
    const time = Float64Array.from(times);
    const log = readings(
      time,
      time.map((s) => Math.exp(-((s - 20) ** 2) / 2)),
      3,
      "load",
    );
    const out = lowPass(log, lowPassOf(0.5, log.interval));
    let sum = 0;
    let moment = 0;
    for (let i = 1; i + 1 < time.length; i++) {
      const w = (time[i + 1]! - time[i - 1]!) / 2;
      sum += w * out[i]!;
      moment += w * out[i]! * time[i]!;
    }
    // Uneven weights near the pulse move its centre by a small part of the interval (0.055 s).
    expect(Math.abs(moment / sum - 20)).toBeLessThan(0.01);
  });

  it("never overshoots a step", () => {
    const log = logOf(10, 20, (t) => (t < 10 ? 0 : 1));
    const out = lowPass(log, lowPassOf(0.5, 0.1));
    expect(Math.max(...out)).toBeLessThanOrEqual(1);
    expect(Math.min(...out)).toBeGreaterThanOrEqual(0);
  });

  it("does not carry load across a gap", () => {
    const time = Float64Array.from([0, 0.1, 0.2, 0.3, 10, 10.1, 10.2, 10.3]);
    const log = readings(time, Float64Array.from([0, 0, 0, 0, 1, 1, 1, 1]), 3, "load");
    expect([...lowPass(log, lowPassOf(0.5, 0.1))]).toEqual([0, 0, 0, 0, 1, 1, 1, 1]);
  });
});
