/** Ticks of an axis at round numbers, and a top that does not jump with every move. */

/** Round steps of 1, 2, 5 × 10ⁿ that cut a range into about so many pieces. */
export function ticks(from: number, to: number, about: number): readonly number[] {
  const range = to - from;
  if (!(range > 0) || !Number.isFinite(range)) return [from];
  const rough = range / Math.max(1, about);
  const power = 10 ** Math.floor(Math.log10(rough));
  const lead = rough / power;
  const step = (lead > 5 ? 10 : lead > 2 ? 5 : lead > 1 ? 2 : 1) * power;
  const first = Math.ceil(from / step - 1e-9);
  const last = Math.floor(to / step + 1e-9);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => Number(((first + i) * step).toPrecision(12)));
}

/** The smallest of 1, 1.5, 2, 3, 5, 7.5 × 10ⁿ not below a positive value. */
export function roundAbove(value: number): number {
  const power = 10 ** Math.floor(Math.log10(value));
  const lead = value / power;
  return ([1, 1.5, 2, 3, 5, 7.5].find((step) => lead <= step * (1 + 1e-9)) ?? 10) * power;
}
