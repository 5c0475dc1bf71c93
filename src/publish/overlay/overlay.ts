/** What an overlay shows at each frame: the load of the log at that time, and the rode as it lies under it. */
import { certaintyOf, type Pull, type Rig, type RodeShape, settleTraced, shapeOf } from "../../rode/index.ts";
import { type FrameRate, nanosecondsOf } from "./frame-time.ts";

/** A log as an overlay reads it: the load with its zero taken off. */
export interface OverlayLog {
  /** s, never falling */
  readonly time: Float64Array;
  /** N */
  readonly load: Float64Array;
  /** Standard uncertainty of a load, N; none where it is not known. */
  readonly u?: number;
}

/** How a clip and a log lie beside each other. */
export interface Sync {
  readonly rate: FrameRate;
  /** Frame of the clip at which the mark is seen, and when that is in the log, ns from its first reading. */
  readonly markFrame: number;
  readonly markNs: bigint;
}

/** When a frame of the clip is, ns from the log's first reading. */
export function logTimeOf(frame: number, { rate, markFrame, markNs }: Sync): bigint {
  return markNs + nanosecondsOf(frame - markFrame, rate);
}

/** A gap longer than this between two readings is one nothing is told in, s. */
const GAP = 2;

/** The load at a time, straight between two readings; null before the first, after the last and in a gap. */
export function loadAt({ time, load }: OverlayLog, ns: bigint): number | null {
  const start = time[0];
  if (start === undefined) return null;
  const t = start + Number(ns) / 1e9;
  let [low, high] = [0, time.length - 1];
  if (t < time[0]! || t > time[high]!) return null;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (time[middle]! <= t) low = middle;
    else high = middle;
  }
  const [t0, t1] = [time[low]!, time[high]!];
  // At a reading itself, also at the last one before a gap.
  if (t === t0 || t === t1) return finite(load[t === t0 ? low : high]!);
  if (t1 - t0 > GAP) return null;
  return finite(load[low]! + ((load[high]! - load[low]!) * (t - t0)) / (t1 - t0));
}

const finite = (value: number): number | null => (Number.isFinite(value) ? value : null);

/** The rode under a load, as it is drawn, with the angle it pulls its anchor at. */
export interface RodeNow {
  readonly shape: RodeShape;
  /** rad above the level, at the anchor, and its standard uncertainty; null where none is known */
  readonly angle: number;
  readonly angleU: number | null;
}

/** Loads the angle's ± is worked out at; between them it is taken straight. */
const STEPS = 60;

/** Asks the rode under any load up to the highest. */
export function rodeUnder(
  rig: Rig,
  at: "anchor" | "bow",
  highest: number,
  loadU: number,
): (newtons: number) => RodeNow | null {
  const pull = (newtons: number): Pull => ({ at, newtons });
  const known = Array.from({ length: STEPS + 1 }, (_, i) => {
    const newtons = highest * (0.02 + (0.98 * i) / STEPS);
    return certaintyOf(rig, pull(newtons), loadU)?.anchorAngle ?? null;
  });
  const uAt = (newtons: number): number | null => {
    const place = Math.max(0, Math.min(STEPS, ((newtons / highest - 0.02) / 0.98) * STEPS));
    const low = Math.min(STEPS - 1, Math.floor(place));
    const [a, b] = [known[low], known[low + 1]];
    return a === null || b === null ? null : a! + (place - low) * (b! - a!);
  };
  return (newtons) => {
    if (!(newtons > 0)) return null;
    const traced = settleTraced(rig, pull(newtons));
    if (!("settled" in traced)) return null;
    return { shape: shapeOf(traced), angle: traced.settled.anchor.angle, angleU: uAt(newtons) };
  };
}
