import type { Headings, Span } from "./trace.ts";

/** Mean direction of the headings within a span, rad, and how closely they agree (1: all the same); null without any. */
export function meanHeading(headings: Headings, span: Span): { angle: number; agreement: number } | null {
  let x = 0;
  let y = 0;
  let count = 0;
  for (let i = firstFrom(headings.time, span.from); i < headings.time.length; i++) {
    const t = headings.time[i]!;
    const a = headings.angle[i]!;
    if (t > span.to) break;
    if (!Number.isFinite(a)) continue;
    x += Math.cos(a);
    y += Math.sin(a);
    count++;
  }
  if (count === 0) return null;
  return { angle: Math.atan2(y, x), agreement: Math.min(1, Math.hypot(x, y) / count) };
}

function firstFrom(time: Float64Array, t: number): number {
  let a = 0;
  let b = time.length;
  while (a < b) {
    const m = (a + b) >> 1;
    if (time[m]! < t) a = m + 1;
    else b = m;
  }
  return a;
}
