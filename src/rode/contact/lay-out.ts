/**
 * Lays a rode out for a given horizontal force at its lowest free end, whatever it touches: stage by stage, the unknown of
 * each bracketed between a walk that ends too low and one that ends too high. When the bracket has shrunk to neighbouring
 * numbers and the two walks still differ in what they meet, the rode touches something there, and the next stage begins.
 */
import type { CompiledRode } from "../compile.ts";
import type { Trace } from "../trace.ts";
import type { Cursor } from "./cursor.ts";
import { begin, bounds, type Stage } from "./stage.ts";
import type { Stepper } from "./stepper.ts";
import { type Event, type Stop, TO_BOW, type Walk, walk } from "./walk.ts";

export interface Leg {
  readonly stage: Stage;
  readonly value: number;
  /** Where the leg ends and the next begins; the last ends at the bow. */
  readonly stop: Stop;
}

export interface LaidOut {
  readonly legs: Leg[];
  readonly end: Cursor;
  /** Tension at the anchor, N, and the lift there above the slope. */
  readonly anchor: number;
  readonly lift: number;
  readonly grounded: number;
}

/** The rode cannot be laid out: it lies below the roller even at full lift, or above it however much rests. */
export type Refusal = "aground" | "stuck";

interface Tried {
  readonly value: number;
  readonly start: Cursor;
  readonly walked: Walk;
  /** Height of the end over the bow roller, m; −∞ when the walk hit the bottom. */
  readonly over: number;
}

/** Where rounding forbids the end of a stiff rode to close as its steps could, it may stay open by this share of the lengths. */
const PASSABLE = 1e-10;
/** Of what counts as closed: no try can do better. */
const FINE = 1e-3;

export function layOut(rode: CompiledRode, stepper: Stepper, H: number, trace: Trace | null = null): LaidOut | Refusal {
  const legs: Leg[] = [];
  let stage: Stage = { kind: "anchor", H };
  for (let i = 0; i < 4 * rode.count + 8; i++) {
    const found = settleStage(rode, stepper, stage);
    if (found === "aground") return "aground";
    if (found.next === "stuck") return "stuck";
    legs.push({ stage, value: found.value, stop: found.next?.stop ?? TO_BOW });
    if (found.next === null) return replay(rode, stepper, legs, trace);
    stage = found.next.stage;
  }
  return "stuck";
}

/** Walks the found legs again, recording. */
export function replay(rode: CompiledRode, stepper: Stepper, legs: Leg[], trace: Trace | null): LaidOut {
  if (trace !== null) trace.rows = 0;
  let anchor = 0;
  let grounded = 0;
  let end: Cursor | null = null;
  legs.forEach((leg, i) => {
    const start = begin(rode, leg.stage, leg.value, trace);
    if (i === 0) anchor = start.anchor;
    grounded += start.grounded;
    end = walk(rode, stepper, start.cursor, trace, leg.stop).end;
  });
  return { legs, end: end!, anchor, lift: Math.max(0, legs[0]!.value), grounded };
}

interface StageFound {
  readonly value: number;
  /** What comes next; null: the bow. */
  readonly next: null | "stuck" | { readonly stage: Stage; readonly stop: Stop };
}

/** A rode that comes down on the bottom above the surface has run ashore. */
function ashore(rode: CompiledRode, below: Event | undefined): boolean {
  return below?.what === "hit" && below.cursor.x >= rode.ashore * (1 - 1e-9);
}

function settleStage(rode: CompiledRode, stepper: Stepper, stage: Stage): StageFound | "aground" {
  const closed = stepper.accuracy * (rode.rise + rode.totalLength);
  const attempt = (value: number): Tried => {
    const start = begin(rode, stage, value, null).cursor;
    const walked = walk(rode, stepper, start);
    return { value, start, walked, over: walked.arrived ? walked.end.z - rode.rise : Number.NEGATIVE_INFINITY };
  };
  const [bottom, top] = bounds(rode, stage);
  let lo = attempt(bottom);
  if (lo.over >= 0) return stage.kind === "anchor" ? "aground" : { value: bottom, next: null };
  let hi: Tried;
  if (top === Number.POSITIVE_INFINITY) {
    let reach = Math.max(Math.abs(rode.totalLow), stage.kind === "anchor" ? stage.H : 1, 1e-9);
    hi = attempt(0);
    if (hi.over < 0) {
      lo = hi;
      for (hi = attempt(reach); hi.over < 0 && reach < 1e30; hi = attempt(reach)) {
        lo = hi;
        reach *= 8;
      }
      if (hi.over < 0) return "aground";
    }
  } else {
    hi = attempt(top);
    // At its upper bound a stage repeats the walk that brought it here; rounding may leave it a hair low.
    if (hi.over < 0) return { value: top, next: hi.walked.arrived ? null : "stuck" };
  }
  let stale = 0;
  let nearest = Number.POSITIVE_INFINITY;
  for (let i = 0; i < 400; i++) {
    const best = Math.abs(hi.over) < Math.abs(lo.over) ? hi : lo;
    const miss = Math.abs(best.over);
    // Closed, and another try would not close it further: the load of a stiff rode hangs on the last digit.
    if (miss <= FINE * closed || (miss <= closed && miss > 0.25 * nearest)) return { value: best.value, next: null };
    nearest = miss;
    let value = 0.5 * (lo.value + hi.value);
    if (stale < 3 && alike(lo, hi)) {
      const secant = lo.value - (lo.over * (hi.value - lo.value)) / (hi.over - lo.over);
      if (secant > lo.value && secant < hi.value) value = secant;
    }
    if (!(value > lo.value && value < hi.value)) break;
    const tried = attempt(value);
    // A secant that keeps moving one end only is followed by a bisection.
    const before = hi.value - lo.value;
    if (tried.over < 0) lo = tried;
    else hi = tried;
    stale = hi.value - lo.value > 0.5 * before ? stale + 1 : 0;
  }
  if (alike(lo, hi)) {
    const best = Math.abs(lo.over) < Math.abs(hi.over) ? lo : hi;
    const passable = Math.abs(best.over) <= PASSABLE * (rode.rise + rode.totalLength);
    return { value: best.value, next: passable ? null : "stuck" };
  }
  return pin(rode, stage, lo, hi);
}

/** Whether two walks start alike and meet the same things: between them nothing is touched. */
function alike(lo: Tried, hi: Tried): boolean {
  const a = lo.walked;
  const b = hi.walked;
  if (lo.start.inAir !== hi.start.inAir) return false;
  if (a.arrived !== b.arrived || a.events.length !== b.events.length) return false;
  return a.events.every((event, i) => event.what === b.events[i]!.what && event.part === b.events[i]!.part);
}

/** Two walks from neighbouring values differ in what they meet: which touch lies between them. */
function pin(rode: CompiledRode, stage: Stage, lo: Tried, hi: Tried): StageFound | "aground" {
  if (stage.kind === "pointAfloat" && lo.start.inAir !== hi.start.inAir) {
    // The point lies in the surface and so does the floating line that follows it.
    return { value: hi.value, next: { stage: touchAt(rode, "lineAfloat", hi.start), stop: { at: "start" } } };
  }
  let i = 0;
  const a = lo.walked.events;
  const b = hi.walked.events;
  while (i < a.length && i < b.length && a[i]!.what === b[i]!.what && a[i]!.part === b[i]!.part) i++;
  const below: Event | undefined = a[i];
  const above: Event | undefined = b[i];
  const nth = (events: readonly Event[], what: "trough" | "crest") =>
    events.slice(0, i + 1).filter((event) => event.what === what).length;
  const atPoint = (kind: "landing" | "pointAfloat", event: Event): StageFound => ({
    value: hi.value,
    next: { stage: touchAt(rode, kind, event.cursor), stop: { at: "point", part: event.part } },
  });
  if (ashore(rode, below)) return "aground";
  if (below?.what === "hit") {
    if (above?.what === "trough")
      return {
        value: hi.value,
        next: { stage: touchAt(rode, "touching", above.cursor), stop: { at: "trough", nth: nth(b, "trough") } },
      };
    if (above !== undefined && rode.isLine[above.part] === 0) return atPoint("landing", above);
  }
  if (below?.what === "pointInWater" && above?.what === "pointInAir" && below.part === above.part)
    return atPoint("pointAfloat", above);
  const after = b[i + 1];
  if (
    below?.what === "pointInWater" &&
    above?.what === "emerges" &&
    after?.what === "pointInAir" &&
    after.part === below.part
  )
    return atPoint("pointAfloat", after);
  if (below?.what === "submerges" && above?.what === "pointInAir") return atPoint("pointAfloat", above);
  const atCrest = (tried: Tried, event: Event): StageFound => ({
    value: tried.value,
    next: {
      stage: touchAt(rode, "lineAfloat", event.cursor),
      stop: { at: "crest", nth: nth(tried.walked.events, "crest") },
    },
  });
  if (below?.what === "crest" && above?.what === "emerges") return atCrest(lo, below);
  if (below?.what === "submerges" && above?.what === "crest") return atCrest(hi, above);
  return { value: hi.value, next: "stuck" };
}

/** The stage that begins where a rode touches bottom or surface, put just on it. */
export function touchAt(rode: CompiledRode, kind: Exclude<Stage["kind"], "anchor">, at: Cursor): Stage {
  const onBottom = at.x * rode.tanSlope;
  switch (kind) {
    case "touching":
      return { kind, from: { ...at, z: onBottom, V: at.H * rode.tanSlope } };
    case "landing":
      return { kind, from: { ...at, z: onBottom } };
    case "pointAfloat":
      return { kind, from: { ...at, z: rode.surface } };
    case "lineAfloat":
      return { kind, from: { ...at, z: rode.surface, V: 0 } };
  }
}
