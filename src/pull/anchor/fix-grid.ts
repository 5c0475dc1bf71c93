import { evenly, meanOver } from "../trace/even.ts";
import type { Loaded } from "../trace/loaded.ts";
import { median } from "../trace/order.ts";
import type { TraceSettings } from "../trace/settings.ts";
import { readings, type Track } from "../trace/trace.ts";

/** Fixes and load on one even grid of time. */
export interface FixGrid {
  readonly start: number;
  /** s */
  readonly step: number;
  readonly east: Float64Array;
  readonly north: Float64Array;
  /** Load, zero taken off, N. */
  readonly load: Float64Array;
  /** Mean over one step of what some shape makes of the load in its finest grains. */
  readonly shaped: (k: number, shape: (newtons: number) => number) => number;
  /** 1 where the rode is tight enough to say where the anchor is, and there is a fix. */
  readonly tight: Uint8Array;
  /** Standard deviation of what is white in a fix, m. */
  readonly white: number;
}

/** Below this share of the highest load the rode hangs too slack to say where the anchor is. */
export const TIGHT = 0.1;
/** More steps are not worth their time: longer logs get longer ones. */
const MOST = 1500;
/** A fix so far from the median of its neighbours, m, and in times their scatter, is a glitch. */
const GLITCH = { metres: 3, times: 8, reach: 3 };

export function fixGrid(track: Track, loaded: Loaded, settings: TraceSettings): FixGrid {
  const { even } = loaded;
  const end = even.start + even.grain * even.value.length;
  const raw = [track.east, track.north].map((one) => readings(track.time, one, 4 * settings.longestGap, "track"));
  const leftOut = glitches(raw[0]!.value, raw[1]!.value);
  const step = Math.max(1, raw[0]!.interval, (end - even.start) / MOST);
  const [east, north] = raw.map((one) => evenly(one, step, even.start, end, leftOut).value) as [
    Float64Array,
    Float64Array,
  ];
  const each = step / even.grain;
  const load = Float64Array.from(east, (_, k) =>
    meanOver(loaded.sums, Math.round(k * each), Math.round((k + 1) * each)),
  );
  const tight = Uint8Array.from(load, (f, k) =>
    f > TIGHT * loaded.top && Number.isFinite(east[k]! + north[k]!) ? 1 : 0,
  );
  const white = Math.max(0.02, whiteOf(east, north));
  const shaped = (k: number, shape: (newtons: number) => number): number => {
    let [sum, n] = [0, 0];
    for (let j = Math.round(k * each); j < Math.round((k + 1) * each); j++) {
      const f = even.value[j] ?? Number.NaN;
      if (Number.isNaN(f)) continue;
      sum += shape(f);
      n++;
    }
    return n > 0 ? sum / n : shape(load[k]!);
  };
  return { start: even.start, step, east, north, load, shaped, tight, white };
}

/** 1 where a fix stands far from the median of its neighbours. */
function glitches(east: Float64Array, north: Float64Array): Uint8Array {
  const offOf = (axis: Float64Array): Float64Array =>
    axis.map((v, i) => v - median(axis.slice(Math.max(0, i - GLITCH.reach), i + GLITCH.reach + 1)));
  const [e, n] = [offOf(east), offOf(north)];
  const far = e.map((v, i) => Math.hypot(v, n[i]!));
  const limit = Math.max(GLITCH.metres, GLITCH.times * median(far.slice()));
  return Uint8Array.from(far, (d) => (d > limit ? 1 : 0));
}

/**
 * Second differences are nearly free of what is slow; those of white noise have six times its variance. Their length in
 * the plane has the median √(2 ln 2) standard deviations, whichever way north lies.
 */
function whiteOf(east: Float64Array, north: Float64Array): number {
  const second = (v: Float64Array, k: number): number => v[k - 1]! - 2 * v[k]! + v[k + 1]!;
  const lengths: number[] = [];
  for (let k = 1; k + 1 < east.length; k++) {
    const d = Math.hypot(second(east, k), second(north, k));
    if (!Number.isNaN(d)) lengths.push(d);
  }
  return lengths.length < 8 ? 0.2 : median(Float64Array.from(lengths)) / Math.sqrt(12 * Math.LN2);
}
