import { comesToRest } from "./comes-to-rest.ts";
import { type Even, meanOver, sums } from "./even.ts";
import { median, scaleAboutMedian } from "./order.ts";
import type { TraceSettings } from "./settings.ts";
import type { Measured, Span } from "./trace.ts";

/** The part of a slack stretch that its zero was read in, and what the cell read there, N. */
export interface SlackRead extends Span {
  readonly mean: number;
  readonly u: number;
}

/**
 * What the cell reads at no load. Between a slack stretch before and one after the pull the zero is taken to have
 * moved in a straight line; with one stretch only it is taken to have stood still, and the drift is not known.
 */
export type Zero =
  | { readonly kind: "drifting"; readonly before: SlackRead; readonly after: SlackRead; readonly rate: Measured }
  | { readonly kind: "fixed"; readonly slack: SlackRead; readonly side: "before" | "after" }
  | { readonly kind: "notFound"; readonly why: NoZeroCause };

/** Why there is no zero: the load does not change; its lowest is this share of the highest, so no slack; no slack stretch is so long, s. */
export type NoZeroCause =
  | { readonly kind: "unchanging" }
  | { readonly kind: "neverSlack"; readonly share: number }
  | { readonly kind: "tooShort"; readonly shortest: number };

/** Half-way between two slack stretches the zero is off a straight line by so much of what it moved. */
const BENT = 0.15;
/** What a slack stretch began with is read over so many seconds. */
const BEGAN = 2;
/** Grains so many scatters off the others are glitches. */
const GLITCH = 4;
/** A slack rode still carries something: so much of the highest load is not told from the zero. */
const STILL = 0.0004;

/** The zero at a time, N, and its standard uncertainty; 0 ± 0 when none was found. */
export function zeroAt(zero: Zero, t: number): Measured {
  if (zero.kind === "notFound") return { value: 0, u: 0 };
  if (zero.kind === "fixed") return { value: zero.slack.mean, u: zero.slack.u };
  const t1 = middle(zero.before);
  const t2 = middle(zero.after);
  const share = (t - t1) / (t2 - t1);
  const moved = zero.after.mean - zero.before.mean;
  // A cell that warms moves its zero at first faster than a straight line; at either end nothing of that is left.
  const bent = share > 0 && share < 1 ? BENT * 4 * share * (1 - share) * moved : 0;
  return {
    value: zero.before.mean + share * moved,
    u: Math.hypot((1 - share) * zero.before.u, share * zero.after.u, bent),
  };
}

/** Loads with the zero taken off, N; the line is worked out once and not for each reading. */
export function withoutZero(
  zero: Zero,
  count: number,
  timeOf: (i: number) => number,
  value: Float64Array,
): Float64Array {
  const out = new Float64Array(count);
  const from = zero.kind === "drifting" ? middle(zero.before) : 0;
  const rate = zero.kind === "drifting" ? zero.rate.value : 0;
  const base = zeroAt(zero, from).value;
  for (let i = 0; i < count; i++) out[i] = value[i]! - base - rate * (timeOf(i) - from);
  return out;
}

function middle(span: Span): number {
  return (span.from + span.to) / 2;
}

/** Lowest and highest load kept for a few seconds, N: what shares of the range are taken of. */
export function rangeOf(even: Even, seconds: number): { low: number; high: number } {
  const width = Math.max(1, Math.round(seconds / even.grain));
  const s = sums(even.value);
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let k = 0; k + width <= even.value.length || k === 0; k++) {
    const m = meanOver(s, k, Math.min(k + width, even.value.length));
    if (m < low) low = m;
    if (m > high) high = m;
  }
  return { low, high };
}

/**
 * Finds the zero and its drift from the slack stretches before and after the pull.
 * @param given slack stretches the user points at, s; they are believed
 */
export function findZero(even: Even, settings: TraceSettings, given: readonly Span[] = []): Zero {
  const { low, high } = rangeOf(even, settings.slack.shortest);
  if (given.length > 0) return fromStretches(given.map((span) => slackRead(even, span, high, settings)));
  if (!(high > low)) return { kind: "notFound", why: { kind: "unchanging" } };
  const range = high - low;
  if (Math.abs(low - settings.slack.load) > settings.slack.believed * range)
    return { kind: "notFound", why: { kind: "neverSlack", share: low / high } };
  // Only what lies before the first and after the last pull is sure to be slack: between, a rode may hang in a bight.
  const half = low + range / 2;
  const n = even.value.length;
  let first = 0;
  while (first < n && !(even.value[first]! > half)) first++;
  let last = n - 1;
  while (last >= 0 && !(even.value[last]! > half)) last--;
  const before = slackEnd(even, 0, first, low, range, settings).at(-1);
  const after = slackEnd(even, last + 1, n, low, range, settings)[0];
  const reads = [before, after].filter((s) => s !== undefined).map((s) => slackRead(even, s, high, settings));
  if (reads.length === 0) return { kind: "notFound", why: { kind: "tooShort", shortest: settings.slack.shortest } };
  if (reads.length === 1) return { kind: "fixed", slack: reads[0]!, side: before ? "before" : "after" };
  return fromStretches(reads);
}

/**
 * Slack stretches in the grains [from, to) before or after the pull. A zero that drifts leaves either side a lowest
 * load of its own; it is believed to be slack when it lies near that of the whole.
 */
function slackEnd(even: Even, from: number, to: number, low: number, range: number, settings: TraceSettings): Span[] {
  const side = { start: even.start + from * even.grain, grain: even.grain, value: even.value.subarray(from, to) };
  if ((to - from) * even.grain < settings.slack.shortest) return [];
  const lowest = rangeOf(side, settings.slack.shortest).low;
  if (!(lowest - low <= 2 * settings.slack.below * range)) return [];
  return below(side, lowest + settings.slack.below * range, settings.slack.shortest);
}

function fromStretches(reads: readonly SlackRead[]): Zero {
  const sorted = [...reads].sort((a, b) => a.from - b.from);
  const before = sorted[0]!;
  const after = sorted.at(-1)!;
  if (before === after) return { kind: "fixed", slack: before, side: "before" };
  const dt = middle(after) - middle(before);
  return {
    kind: "drifting",
    before,
    after,
    rate: { value: (after.mean - before.mean) / dt, u: Math.hypot(after.u, before.u) / dt },
  };
}

/** Stretches of grains no higher than a limit, at least so long, s. */
export function below(even: Even, limit: number, shortest: number): Span[] {
  const spans: Span[] = [];
  let first = -1;
  for (let k = 0; k <= even.value.length; k++) {
    const low = k < even.value.length && even.value[k]! <= limit;
    if (low && first < 0) first = k;
    if (!low && first >= 0) {
      if ((k - first) * even.grain >= shortest - 1e-9)
        spans.push({ from: even.start + first * even.grain, to: even.start + k * even.grain });
      first = -1;
    }
  }
  return spans;
}

/**
 * What the cell read in a slack stretch. The foot of a ramp, a light load while slack is taken up, or a rode that comes to
 * rest lie below the limit too: the lowest part of it is looked at, with as much before, and what that comes to is the zero.
 * @param high highest load kept, N
 */
function slackRead(even: Even, span: Span, high: number, settings: TraceSettings): SlackRead {
  const from = Math.max(0, Math.ceil((span.from - even.start) / even.grain - 1e-9));
  const to = Math.min(even.value.length, Math.floor((span.to - even.start) / even.grain + 1e-9));
  const [first, last] = lowestPart(even.value, from, to, Math.round(settings.slack.shortest / even.grain));
  const part = withoutGaps(even.value.subarray(first, last));
  const m = median(part);
  const far = Math.max(GLITCH * scaleAboutMedian(part), settings.cell.step);
  const kept = part.filter((v) => Math.abs(v - m) <= far);
  // A rode that has not fallen since it went slack has nothing left to fall.
  const began = median(withoutGaps(even.value.subarray(from, Math.min(to, from + Math.ceil(BEGAN / even.grain)))));
  const rest = comesToRest(kept, even.grain, Math.max(0, began - m));
  return {
    from: even.start + first * even.grain,
    to: even.start + last * even.grain,
    mean: rest.value - settings.slack.load,
    u: Math.hypot(rest.u, settings.slack.u, settings.cell.step / Math.sqrt(12), Math.max(0, STILL * high)),
  };
}

/**
 * The third of the grains [from, to) with the lowest mean and as much before it, at least so many; all of them where they
 * are level.
 */
function lowestPart(value: Float64Array, from: number, to: number, shortest: number): [number, number] {
  const n = Math.max(shortest, Math.ceil((to - from) / 3));
  if (to - from <= n) return [from, to];
  const s = sums(value.subarray(from, to));
  let [best, lowest] = [from, Number.POSITIVE_INFINITY];
  for (let k = 0; k + n <= to - from; k++) {
    const mean = meanOver(s, k, k + n);
    if (mean < lowest) [best, lowest] = [from + k, mean];
  }
  const part = withoutGaps(value.subarray(best, best + n));
  const above = median(withoutGaps(value.subarray(from, to))) - median(part);
  return above > 2 * scaleAboutMedian(part) ? [Math.max(from, best - n), best + n] : [from, to];
}

const withoutGaps = (values: Float64Array): Float64Array => values.filter((v) => !Number.isNaN(v));
