/** What leaves the bench of a ride: every sample as a table, loads and angle over the whole of it as a drawing, where the boat is. */

import type { FigureTable } from "../../../figure/index.ts";
import { drawRideOverTime, drawShares } from "../../../figure/index.ts";
import { sharesMarks } from "../../../publish/index.ts";
import { inUnit } from "../../../quantity/index.ts";
import { ANCHOR, ANGLE, BOW, FRAME, type GaleRecord, pictureAt, sampleAt } from "./gale-record.ts";

const seconds = (record: GaleRecord): Float64Array => Float64Array.from({ length: record.count }, (_, k) => k * FRAME);
const values = (record: GaleRecord, of: number): Float64Array =>
  Float64Array.from({ length: record.count }, (_, k) => sampleAt(record, k, of));

/** Every sample of the ride. */
export function samplesTable(record: GaleRecord): FigureTable {
  const [bow, anchor, angle] = [values(record, BOW), values(record, ANCHOR), values(record, ANGLE)];
  return {
    columns: ["time, s", "load at the bow, N", "load at the anchor, N", "angle at the anchor, °"],
    rows: Array.from(seconds(record), (t, k) => [t, bow[k]!, anchor[k]!, inUnit(angle[k]!, "°", "angle")]),
  };
}

/** Share of the time in classes of the load at the bow, N. */
export function sharesTable(shares: readonly number[], top: number): FigureTable {
  const width = top / shares.length;
  return {
    columns: ["load at the bow from, N", "to, N", "share of the time"],
    rows: shares.map((share, i) => [i * width, (i + 1) * width, share]),
  };
}

/** The same with its axes, in a unit of force. @param limit N; null: none is known */
export function drawnShares(
  title: string,
  shares: readonly number[],
  { top, still, limit }: { readonly top: number; readonly still: number; readonly limit: number | null },
  unit: string,
): string {
  const force = (newtons: number): number => inUnit(newtons, unit, "force");
  return drawShares({
    title,
    description: "Share of the time at each load at the bow",
    shares,
    top: force(top),
    axis: { label: "load at the bow", unit },
    marks: sharesMarks(still, limit, force),
    alone: true,
  }).svg;
}

/** Where the nodes of the rode are at a second that was ridden. */
export function positionsTable(record: GaleRecord, at: number): FigureTable {
  const picture = new Float32Array(record.width);
  const there = pictureAt(record, at, picture);
  return {
    columns: ["node from the anchor", "downwind, m", "across, m", "height above the anchor, m"],
    rows: Array.from({ length: there ? record.nodes : 0 }, (_, i) => [
      i,
      picture[3 * i]!,
      picture[3 * i + 1]!,
      picture[3 * i + 2]!,
    ]),
  };
}

/** Loads at both ends, in a unit of force, and the angle at the anchor over the whole ride. */
export function drawnSamples(record: GaleRecord, title: string, still: number, unit: string): string {
  const x = seconds(record);
  const load = (of: number) => ({ x, y: values(record, of).map((newtons) => inUnit(newtons, unit, "force")) });
  return drawRideOverTime({
    title,
    bow: load(BOW),
    anchor: load(ANCHOR),
    angle: { x, y: values(record, ANGLE).map((angle) => inUnit(angle, "°", "angle")) },
    still: inUnit(still, unit, "force"),
    unit,
    alone: true,
  }).svg;
}
