import { uniformFloat64 } from "pure-rand/distribution/uniformFloat64";
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";
import type { Trace } from "../../../src/pull/trace/trace.ts";

/**
 * A seeded simulator of pulls whose truth is known: steps held with creep, gusts, surge of the boat, drags that rebuild
 * or are the end, easings, a gauge with offset, drift, noise and spikes, a wandering satellite fix, a reversal.
 * All of it is a function of time, so that the same pull can be logged at any rate.
 */
export interface SimulatedPull {
  readonly trace: Trace;
  readonly truth: {
    readonly plateaus: readonly { from: number; to: number; mean: number }[];
    readonly drags: readonly { from: number; to: number; before: number; distance: number }[];
    readonly easings: readonly { from: number; to: number }[];
    readonly gusts: readonly { at: number; height: number }[];
    readonly spikes: readonly { at: number; height: number }[];
    readonly zero: { atStart: number; rate: number };
    readonly reversal: { from: number; to: number; resets: boolean } | null;
    readonly top: number;
  };
}

export interface Scene {
  readonly seed: number;
  /** Readings a second. */
  readonly rate?: number;
  readonly track?: boolean;
  readonly heading?: boolean;
  readonly reversal?: boolean;
  /** Standard deviation of the surge, as a share of the load. */
  readonly surge?: number;
  /** Standard deviation of one reading, as a share of the highest load. */
  readonly noise?: number;
  readonly spikes?: number;
  readonly drags?: boolean;
  readonly gusts?: boolean;
  /** Highest load, N. */
  readonly top?: number;
}

export function simulatePull(scene: Scene): SimulatedPull {
  const random = numbers(scene.seed);
  const top = scene.top ?? between(random, 1500, 12_000);
  const surge = scene.surge ?? between(random, 0.002, 0.03);
  const noise = scene.noise ?? between(random, 0.001, 0.01);
  const knots: [t: number, load: number][] = [[0, 0]];
  const plateaus: { from: number; to: number; mean: number }[] = [];
  const drags: { from: number; to: number; before: number; distance: number }[] = [];
  const easings: { from: number; to: number }[] = [];
  const gusts: { at: number; height: number; width: number }[] = [];
  const pulls: { from: number; to: number; side: 1 | -1 }[] = [];
  let t = between(random, 8, 20);
  let load = 0;
  hold(0);

  const reversal = scene.reversal ? { from: 0, to: 0, resets: random() < 0.6 } : null;
  onePull(1, 1);
  if (reversal) {
    reversal.from = t;
    t += between(random, 20, 40);
    hold(0);
    reversal.to = t;
    onePull(-1, reversal.resets ? 1 : 0.3);
  }
  t += between(random, 8, 20);
  knots.push([t, 0]);
  const end = t;

  // The gauge.
  const atStart = between(random, -0.05, 0.05) * top;
  const rate = (between(random, -0.02, 0.02) * top) / end;
  const swings = waves(random, 6, 2.5, 7);
  const samples = scene.rate ?? 10;
  const count = Math.floor(end * samples) + 1;
  const time = new Float64Array(count);
  const values = new Float64Array(count);
  const grit = numbers(scene.seed + 7919);
  for (let i = 0; i < count; i++) {
    const s = i / samples;
    time[i] = s;
    values[i] = trueLoad(s) * (1 + surge * swings(s)) + atStart + rate * s + noise * top * normal(grit);
  }
  const spikes: { at: number; height: number }[] = [];
  const wanted = scene.spikes ?? Math.floor(between(random, 0, 6));
  for (let k = 0; k < wanted; k++) {
    const height = (random() < 0.5 ? -1 : 1) * between(random, 0.2, 1.5) * top;
    const i = Math.min(count - 3, Math.max(2, Math.floor(between(random, 2, end - 2) * samples)));
    if (spikes.some((s) => Math.abs(s.at - time[i]!) < 1)) continue;
    values[i]! += height;
    spikes.push({ at: time[i]!, height });
  }

  return {
    trace: {
      time,
      load: values,
      ...(scene.track ? { track: track() } : {}),
      ...(scene.heading ? { heading: heading() } : {}),
    },
    truth: {
      plateaus: plateaus.map((p) => ({ ...p, mean: meanOf(p.from, p.to) })),
      drags,
      easings,
      gusts,
      spikes,
      zero: { atStart, rate },
      reversal,
      top,
    },
  };

  function hold(level: number): void {
    load = level;
    knots.push([t, level]);
  }

  function onePull(side: 1 | -1, share: number): void {
    const started = t;
    const steps = 1 + Math.floor(random() * 4);
    let gone = false;
    for (let k = 1; k <= steps && !gone; k++) {
      t += between(random, 8, 20);
      const level = (share * top * (k - 0.3 * random())) / steps;
      hold(level);
      const wantsDrag = (scene.drags ?? true) && random() < 0.35;
      gone = stay(level, between(random, 12, 50), wantsDrag);
    }
    if (!gone && random() < 0.25 && load > 0.5 * share * top) {
      // A step down again, let off slowly.
      const from = t;
      t += between(random, 5, 9);
      hold(load * between(random, 0.4, 0.7));
      easings.push({ from, to: t });
      stay(load, between(random, 12, 30), false);
    }
    const from = t;
    t += between(random, 3, 8);
    hold(0);
    easings.push({ from, to: t });
    pulls.push({ from: started, to: t, side });
  }

  /** Holds a level with creep; it may drag at the end. Returns true when that was the end of the pull. */
  function stay(level: number, seconds: number, drag: boolean): boolean {
    const from = t;
    t += seconds;
    const creep = between(random, -0.04, 0.02) * Math.min(1, seconds / 40);
    hold(level * (1 + creep));
    plateaus.push({ from, to: t, mean: 0 });
    if ((scene.gusts ?? true) && seconds > 20 && random() < 0.4)
      gusts.push({
        at: from + seconds * between(random, 0.3, 0.7),
        height: between(random, 0.15, 0.5) * level,
        width: between(random, 1, 3),
      });
    if (!drag) return false;
    const before = load;
    const began = t;
    t += between(random, 0.4, 2);
    hold(before * (1 - between(random, 0.18, 0.6)));
    const stopped = t;
    const rebuilds = random() < 0.5;
    drags.push({ from: began, to: stopped, before, distance: between(random, 1, 6) });
    if (rebuilds) {
      t += between(random, 5, 12);
      hold(before);
      const again = t;
      t += between(random, 12, 30);
      hold(before);
      plateaus.push({ from: again, to: t, mean: 0 });
      return false;
    }
    const low = t;
    t += between(random, 9, 16);
    hold(load);
    plateaus.push({ from: low, to: t, mean: 0 });
    return true;
  }

  function trueLoad(s: number): number {
    let v = steady(s);
    for (const g of gusts)
      if (Math.abs(s - g.at) < g.width / 2) v += g.height * Math.cos((Math.PI * (s - g.at)) / g.width);
    return v;
  }

  function steady(s: number): number {
    let a = 0;
    let b = knots.length - 1;
    while (b - a > 1) {
      const m = (a + b) >> 1;
      if (knots[m]![0] <= s) a = m;
      else b = m;
    }
    const [t0, v0] = knots[a]!;
    const [t1, v1] = knots[b]!;
    return t1 > t0 ? v0 + (v1 - v0) * Math.min(1, (s - t0) / (t1 - t0)) : v1;
  }

  function meanOf(from: number, to: number): number {
    const n = 4000;
    let sum = 0;
    for (let k = 0; k < n; k++) sum += trueLoad(from + ((k + 0.5) * (to - from)) / n);
    return sum / n;
  }

  function track(): NonNullable<Trace["track"]> {
    const course = between(random, 0, 2 * Math.PI);
    const wander = [waves(random, 5, 40, 200), waves(random, 5, 40, 200)];
    const n = Math.floor(end) + 1;
    const out = { time: new Float64Array(n), east: new Float64Array(n), north: new Float64Array(n) };
    for (let i = 0; i < n; i++) {
      let along = 0;
      let side = 1;
      for (const p of pulls) if (i >= p.from - 1) side = p.side;
      const middle = reversal ? (reversal.from + reversal.to) / 2 : end;
      if (i > middle) side = -1;
      // The rode gives as its catenary straightens: most of it at small loads. The anchor's own way adds up.
      along += 25 + (6 * trueLoad(i)) / (trueLoad(i) + 0.15 * top);
      for (const d of drags)
        if (side === (d.from > middle ? -1 : 1))
          along += d.distance * Math.min(1, Math.max(0, (i - d.from) / (d.to - d.from + 1)));
      along *= side;
      out.time[i] = i;
      out.east[i] = along * Math.sin(course) + 0.6 * wander[0]!(i) + 0.15 * normal(grit);
      out.north[i] = along * Math.cos(course) + 0.6 * wander[1]!(i) + 0.15 * normal(grit);
    }
    return out;
  }

  function heading(): NonNullable<Trace["heading"]> {
    const first = between(random, 0, 2 * Math.PI);
    const n = Math.floor(end) + 1;
    const out = { time: new Float64Array(n), angle: new Float64Array(n) };
    for (let i = 0; i < n; i++) {
      const turned = reversal && i > (reversal.from + reversal.to) / 2 ? Math.PI * 0.9 : 0;
      out.time[i] = i;
      out.angle[i] = first + turned + 0.1 * normal(grit);
    }
    return out;
  }
}

function waves(random: () => number, count: number, shortest: number, longest: number): (t: number) => number {
  const parts = Array.from(
    { length: count },
    () => [(2 * Math.PI) / between(random, shortest, longest), 2 * Math.PI * random()] as const,
  );
  const scale = Math.sqrt(2 / count);
  return (t) => {
    let sum = 0;
    for (const [w, phase] of parts) sum += Math.sin(w * t + phase);
    return scale * sum;
  };
}

/** Seeded numbers, even in [0, 1). */
export function numbers(seed: number): () => number {
  // Small seeds begin alike: spread the bits and let the first draws go.
  const generator = xoroshiro128plus(Math.imul(seed ^ 0x5bd1e995, 0x9e3779b1));
  for (let k = 0; k < 32; k++) uniformFloat64(generator);
  return () => uniformFloat64(generator);
}

export function between(random: () => number, low: number, high: number): number {
  return low + (high - low) * random();
}

export function normal(random: () => number): number {
  return Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}
