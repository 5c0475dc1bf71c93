/** Round numbers: 1, 2 and 5 times a power of ten, for the marks of an axis, the bar of a scale and its top. */

const STEPS = [1, 2, 5];
/** Finer ones, for the top of an axis: a higher one leaves half of it empty. */
const TOPS = [1, 1.5, 2, 3, 5, 7.5];

/** The smallest of 1, 2, 5 × 10ⁿ not below a value above zero, in its unit: a length of a scale, a step of an axis. */
export function roundStep(value: number): number {
  return above(value, STEPS);
}

/** The smallest of 1, 1.5, 2, 3, 5, 7.5 × 10ⁿ not below a value above zero, in its unit: the top of an axis. */
export function roundAbove(value: number): number {
  return above(value, TOPS);
}

function above(value: number, steps: readonly number[]): number {
  const power = 10 ** Math.floor(Math.log10(value));
  return (steps.find((step) => value / power <= step * (1 + 1e-9)) ?? 10) * power;
}

/** The largest of 1, 2, 5 × 10ⁿ not above a value above zero, in its unit. */
export function roundBelow(value: number): number {
  const power = 10 ** Math.floor(Math.log10(value));
  return (STEPS.findLast((step) => step <= (value / power) * (1 + 1e-9)) ?? 1) * power;
}

/** The multiples of a round step that cut a range into about so many pieces, rising, both ends included where they are round. */
export function ticks(from: number, to: number, about: number): readonly number[] {
  const range = to - from;
  if (!(range > 0) || !Number.isFinite(range)) return [from];
  const step = roundStep(range / Math.max(1, about));
  const first = Math.ceil(from / step - 1e-9);
  const last = Math.floor(to / step + 1e-9);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => Number(((first + i) * step).toPrecision(12)));
}
