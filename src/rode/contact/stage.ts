/**
 * A rode is laid out in stages, from the anchor to the bow. Each stage starts where the rode touches something and has one
 * unknown: how far it rests there, or how much is borne there. In every stage a larger value gives a rode that lies
 * nowhere lower (its weight does not fall with height, so two walks never cross), which is what bisection needs.
 */
import type { CompiledRode } from "../compile.ts";
import { POINT, record, type Trace } from "../trace.ts";
import { type Cursor, copy } from "./cursor.ts";
import { floatableFrom, restableFrom, restOnBottom, restOnSurface } from "./resting.ts";

export type Stage =
  /** At the anchor: value ≥ 0 is the lift above the bottom's slope, N; below 0 minus what rests (resting.ts). */
  | { readonly kind: "anchor"; readonly H: number }
  /** Touching the bottom, tangent to it: minus what rests from here. */
  | { readonly kind: "touching"; readonly from: Cursor }
  /** A heavy point come down to the bottom: from 0 to −1 the share borne of what brings it to rest, then as `touching`. */
  | { readonly kind: "landing"; readonly from: Cursor }
  /** A point in the surface, with all that hang at the same place: their weight, N, between that in water and that in air. */
  | { readonly kind: "pointAfloat"; readonly from: Cursor }
  /** A floating line touching the surface: of m that can lie, value > 0 lies m − value, then rises; < 0 lies m + value, then dives. */
  | { readonly kind: "lineAfloat"; readonly from: Cursor };

export interface Start {
  readonly cursor: Cursor;
  /** Tension at the anchor, N (anchor stage only). */
  readonly anchor: number;
  readonly grounded: number;
}

/** Bounds of a stage's value; the upper one of the anchor stage is open. */
export function bounds(rode: CompiledRode, stage: Stage): [low: number, high: number] {
  switch (stage.kind) {
    case "anchor":
      return [-restableFrom(rode, anchorCursor(stage.H)), Number.POSITIVE_INFINITY];
    case "touching":
      return [-restableFrom(rode, stage.from), 0];
    case "landing":
      return [-restableFrom(rode, stage.from), 0];
    case "pointAfloat":
      return togetherFrom(rode, stage.from.part);
    case "lineAfloat": {
      const most = floatableFrom(rode, stage.from);
      return [-most, most];
    }
  }
}

/** The place and state from which the rode hangs free, for a value of the stage's unknown. */
export function begin(rode: CompiledRode, stage: Stage, value: number, trace: Trace | null): Start {
  switch (stage.kind) {
    case "anchor": {
      const foot = anchorCursor(stage.H);
      if (value >= 0) {
        foot.V = stage.H * rode.tanSlope + value;
        return { cursor: foot, anchor: Math.hypot(foot.H, foot.V), grounded: 0 };
      }
      // Tension is known where the rode leaves the bottom: find it at the anchor by taking the friction back off.
      const atLift = stage.H / rode.cosSlope;
      const passed = restOnBottom(rode, foot, 0, -value, null).tension;
      const laid = restOnBottom(rode, foot, atLift - passed, -value, trace);
      return { cursor: laid.cursor, anchor: Math.max(0, atLift - passed), grounded: laid.grounded };
    }
    case "touching": {
      const laid = restOnBottom(rode, stage.from, stage.from.H / rode.cosSlope, -value, trace);
      return { cursor: laid.cursor, anchor: 0, grounded: laid.grounded };
    }
    case "landing":
      return land(rode, stage.from, -value, trace);
    case "pointAfloat":
      return float(rode, stage.from, value, trace);
    case "lineAfloat": {
      const most = floatableFrom(rode, stage.from);
      const cursor = restOnSurface(rode, stage.from, most - Math.abs(value), value >= 0, trace);
      cursor.z = rode.surface;
      cursor.inAir = value >= 0;
      return { cursor, anchor: 0, grounded: 0 };
    }
  }
}

/**
 * Points of weight W in one place meet the bottom, which bears a normal force N and holds back by friction:
 * H₂ = H₁ + N (sin + μ cos), V₂ = V₁ + W − N (cos − μ sin); the rode lies on beyond them when V₂ = H₂ tan(slope).
 */
function land(rode: CompiledRode, from: Cursor, amount: number, trace: Trace | null): Start {
  const cursor = copy(from);
  let last = from.part;
  let w = 0;
  for (; last < rode.count && rode.isLine[last] === 0 && rode.low[last]! >= 0; last++) w += rode.low[last]!;
  const points = last - from.part;
  const most = Math.max(0, (from.V + w - rode.tanSlope * from.H) * rode.cosSlope);
  const N = most * Math.min(1, amount / points);
  if (trace !== null) {
    for (let i = from.part; i < last; i++)
      record(trace, i, POINT, cursor.x, cursor.z, 0, cursor.H, cursor.V, rode.low[i]!, 0, 0);
  }
  // φ = sin + μ cos, so cos − μ sin = (1 − φ sin)/cos.
  cursor.H += N * rode.restDrag;
  cursor.V += w - (N * (1 - rode.restDrag * rode.sinSlope)) / rode.cosSlope;
  cursor.part = last;
  cursor.offset = 0;
  if (amount <= points) return { cursor, anchor: 0, grounded: 0 };
  const laid = restOnBottom(rode, cursor, cursor.H / rode.cosSlope, amount - points, trace);
  return { cursor: laid.cursor, anchor: 0, grounded: laid.grounded };
}

/** Weight of the points that hang at one place from a part on, N: all in water, all in air. */
function togetherFrom(rode: CompiledRode, part: number): [wet: number, dry: number] {
  let [wet, dry] = [0, 0];
  for (let i = part; i < rode.tail && rode.isLine[i] === 0; i++) {
    wet += rode.low[i]!;
    dry += rode.high[i]!;
  }
  return [wet, dry];
}

/** Points in the surface weigh `value` together; each is taken as deep in the water as the others. */
function float(rode: CompiledRode, from: Cursor, value: number, trace: Trace | null): Start {
  const cursor = copy(from);
  const [wet, dry] = togetherFrom(rode, from.part);
  const share = dry > wet ? (value - wet) / (dry - wet) : 0;
  cursor.z = rode.surface;
  cursor.offset = 0;
  for (; cursor.part < rode.tail && rode.isLine[cursor.part] === 0; cursor.part++) {
    const w = rode.low[cursor.part]! + share * (rode.high[cursor.part]! - rode.low[cursor.part]!);
    if (trace !== null) record(trace, cursor.part, POINT, cursor.x, cursor.z, 0, cursor.H, cursor.V, w, 0, 0);
    cursor.V += w;
  }
  // Above the surface only if the rode now rises.
  cursor.inAir = cursor.V > 0;
  return { cursor, anchor: 0, grounded: 0 };
}

function anchorCursor(H: number): Cursor {
  return { part: 0, offset: 0, x: 0, z: 0, H, V: 0, inAir: false };
}
