import { type Even, meanOver, sums } from "./even.ts";
import { median, scaleAboutMedian } from "./order.ts";
import { meanOfGrains } from "./scatter.ts";
import type { TraceSettings } from "./settings.ts";
import type { Measured, Span } from "./trace.ts";

/** A stretch where the rode was slack, and what the cell read there, N. */
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
/** A slack rode still carries something: so much of the highest load is not told from the zero. */
const STILL = 0.0008;

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
  if (given.length > 0) return fromStretches(given.map((span) => slackRead(even, span, settings)));
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
  const reads = [before, after].filter((s) => s !== undefined).map((s) => slackRead(even, s, settings));
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
 * rest lie below the limit too: the quietest and lowest part of it is the zero, less what it still falls by, which is in
 * its ± too.
 */
function slackRead(even: Even, span: Span, settings: TraceSettings): SlackRead {
  const from = Math.max(0, Math.ceil((span.from - even.start) / even.grain - 1e-9));
  const to = Math.min(even.value.length, Math.floor((span.to - even.start) / even.grain + 1e-9));
  const all = even.value.subarray(from, to).filter((v) => !Number.isNaN(v));
  const part = lowestPart(all, Math.round(settings.slack.shortest / even.grain));
  const m = median(part);
  const far = Math.max(4 * scaleAboutMedian(part), settings.cell.step);
  const kept = part.filter((v) => Math.abs(v - m) <= far);
  const { mean, u } = meanOfGrains(kept, 0, kept.length);
  const still = STILL * rangeOf(even, settings.slack.shortest).high;
  const falls = stillFalls(kept);
  return {
    from: span.from,
    to: span.to,
    mean: mean - falls - settings.slack.load,
    u: Math.hypot(u, settings.slack.u, settings.cell.step / Math.sqrt(12), Math.max(0, still), falls),
  };
}

/** How much lower its second half lies than its first: as much again a rode that comes to rest is taken to lose. */
function stillFalls(part: Float64Array): number {
  const half = part.length >> 1;
  const mean = (of: Float64Array): number => of.reduce((sum, v) => sum + v, 0) / of.length;
  return half > 0 ? Math.max(0, mean(part.subarray(0, half)) - mean(part.subarray(part.length - half))) : 0;
}

/** The third of a stretch with the lowest mean, at least so many grains; all of it where it is level. */
function lowestPart(all: Float64Array, shortest: number): Float64Array {
  const n = Math.max(shortest, Math.ceil(all.length / 3));
  if (all.length <= n) return all;
  const s = sums(all);
  let best = 0;
  for (let k = 0; k + n <= all.length; k++) if (meanOver(s, k, k + n) < meanOver(s, best, best + n)) best = k;
  const part = all.subarray(best, best + n);
  const above = median(all) - median(part);
  return above > 2 * scaleAboutMedian(part) ? part : all;
}
