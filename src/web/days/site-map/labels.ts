import type { RecordHere } from "../book-copy.ts";

interface Point {
  readonly site: RecordHere<"site">;
  readonly x: number;
  readonly y: number;
}

/** Above this the arrow of north stands at the right edge, px. */
const NORTH = 76;
/** px a letter of a label takes, about. */
const LETTER = 8.6;

/**
 * A label stands beside its site, on the side with more room and shortened to it, unless another is in its way; then
 * the site keeps its mark and its tool tip.
 */
export function placed<P extends Point>(points: readonly P[], width: number) {
  const taken: { from: number; to: number; y: number }[] = [];
  return points.map((point) => {
    const name = String(point.site.name ?? "");
    const long = 16 + LETTER * name.length;
    const edge = width - (point.y < NORTH ? 44 : 8);
    const left = point.x + long > edge && point.x > width / 2;
    const letters = Math.floor(((left ? point.x : edge - point.x) - 18) / LETTER);
    const shown = name.length <= letters ? name : `${name.slice(0, Math.max(3, letters - 1)).trimEnd()}…`;
    const w = 16 + LETTER * shown.length;
    const [from, to] = left ? [point.x - w, point.x] : [point.x, point.x + w];
    const free = !taken.some((one) => Math.abs(one.y - point.y) < 34 && from < one.to && one.from < to);
    if (free) taken.push({ from, to, y: point.y });
    return { ...point, label: free ? shown : null, left };
  });
}
