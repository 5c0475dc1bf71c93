import type { ChannelKind, LogRows } from "../../log/index.ts";
import { InputError, quoted } from "../../quantity/index.ts";
import { planeAt } from "./plane.ts";
import type { Headings, Trace, Track } from "./trace.ts";

/** The trace of a pull out of the rows of its log, and what had to be done to get it. */
export interface TraceOfRows {
  readonly trace: Trace;
  /** Name of the load channel taken. */
  readonly channel: string;
  /** How many parts the clock's restarts cut the log into, and which was taken (1 first). */
  readonly parts: number;
  readonly part: number;
  /** True when headings are magnetic: directions then lean by the variation, turns do not. */
  readonly magnetic: boolean;
}

/**
 * Makes a trace of a log's rows. Where the clock ran back (the logger was started again), the part with the most
 * rows is taken unless another is asked for; rows that only came late are put in their order.
 *
 * @param options.channel name of the load channel, `load` or `load-2`, or their sum, `load+load-2`; needed where there are several
 * @param options.beside rows of another log on the same clock, with the track or the headings; they must be of the time
 * of the pull, `clock` seconds being added to their times for that alone
 * @throws InputError when there is no such channel or part, or the clocks differ
 */
export function traceFromRows(
  rows: LogRows,
  place: string,
  options: { channel?: string; part?: number; beside?: { rows: LogRows; place: string; clock?: number } } = {},
): TraceOfRows {
  const loads = rows.channels.filter((c) => c.kind === "load");
  const wanted = options.channel;
  if (wanted === undefined && loads.length > 1)
    throw new InputError(
      place,
      `${loads.length} loads, ${loads.map((c) => c.name).join(", ")}`,
      `one of them is expected: ${loads.map((c) => `--channel ${c.name}`).join(" or ")}, or their sum: --channel ${loads.map((c) => c.name).join("+")}`,
    );
  // `load+load-2`: what cells side by side carry is the sum of them.
  const names = wanted === undefined ? loads.slice(0, 1).map((c) => c.name) : wanted.split("+").map((n) => n.trim());
  const cells = names.flatMap((name) => loads.filter((c) => c.name === name));
  if (cells.length === 0 || cells.length < names.length || new Set(names).size < names.length)
    throw new InputError(
      place,
      wanted === undefined ? "no column of loads" : `no load channel ${quoted(wanted)}`,
      loads.length > 0 ? `one of ${loads.map((c) => c.name).join(", ")} is expected` : "a log with a load is expected",
    );
  const bounds = [0, ...rows.marks.filter((m) => m.kind === "restart").map((m) => m.row), rows.time.length];
  const spans = bounds
    .slice(1)
    .map((to, i) => [bounds[i]!, to] as const)
    .filter(([a, b]) => b > a);
  const parts = spans.length;
  if (parts === 0) throw new InputError(place, "no rows", "a log with readings is expected");
  const part =
    options.part ?? 1 + spans.reduce((best, s, i) => (s[1] - s[0] > spans[best]![1] - spans[best]![0] ? i : best), 0);
  const span = spans[part - 1];
  if (!span) throw new InputError(place, `part ${part}`, `a part from 1 to ${parts} is expected`);

  const beside = options.beside;
  if (beside && (beside.rows.clock !== rows.clock || rows.clock === "elapsed"))
    throw new InputError(
      beside.place,
      `its clock is ${saysClock[beside.rows.clock]}, that of ${place} ${saysClock[rows.clock]}`,
      "two logs on one clock are expected; a zone or a start can be told",
    );
  const whole = [0, rows.time.length] as const;
  const places = beside ? beside.rows : rows;
  const where = beside ? ([0, beside.rows.time.length] as const) : span;
  const track = trackOf(places, where) ?? (beside ? trackOf(rows, whole) : null);
  const headings = headingsOf(places, where) ?? (beside ? headingsOf(rows, span) : null);
  if (beside) expectBeside(beside, { track, headings }, place, rows.time.subarray(span[0], span[1]));
  const load = ordered(
    rows.time,
    cells.map((cell) => rows.values[rows.channels.indexOf(cell)]!),
    span,
  );
  return {
    trace: {
      time: load.time,
      load: summed(load.columns),
      ...(track ? { track } : {}),
      ...(headings ? { heading: headings.heading } : {}),
    },
    channel: cells.map((cell) => cell.name).join(" + "),
    parts,
    part,
    magnetic: headings?.magnetic ?? false,
  };
}

/**
 * A track that was named is used: without places, or of another time, it would be as if there were none.
 * @throws InputError naming the track's file
 */
function expectBeside(
  beside: { readonly rows: LogRows; readonly place: string; readonly clock?: number },
  found: { readonly track: Track | null; readonly headings: unknown },
  place: string,
  time: Float64Array,
): void {
  const { rows } = beside;
  const own = trackOf(rows, [0, rows.time.length]);
  if (own === null && headingsOf(rows, [0, rows.time.length]) === null)
    throw new InputError(beside.place, "no positions and no headings", "a track of the boat is expected");
  if (found.track === null) return;
  const [from, to] = ends(found.track.time).map((t) => t + (beside.clock ?? 0)) as [number, number];
  const [begins, stops] = ends(time);
  if (to < begins || from > stops) {
    const apart = to < begins ? begins - to : from - stops;
    throw new InputError(
      beside.place,
      to < begins
        ? `its positions end ${Math.round(apart)} s before ${place} begins`
        : `its positions begin ${Math.round(apart)} s after ${place} ends`,
      "a track of the time of the pull is expected; a clock that is off can be told by --zone or --start",
    );
  }
}

function ends(time: Float64Array): readonly [number, number] {
  let [from, to] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const t of time) {
    if (t < from) from = t;
    if (t > to) to = t;
  }
  return [from, to];
}

/** The sum of columns, row by row; the one column itself where there is one. */
function summed(columns: readonly Float64Array[]): Float64Array {
  const [first, ...others] = columns;
  return others.length === 0 ? first! : first!.map((v, i) => others.reduce((sum, one) => sum + one[i]!, v));
}

/** Where the boat was and pointed by the rows of a log, in the order of time; null where the rows do not say. */
export function placesOfRows(rows: PlaceRows): { readonly track: Track | null; readonly heading: Headings | null } {
  const whole = [0, rows.time.length] as const;
  return { track: trackOf(rows, whole), heading: headingsOf(rows, whole)?.heading ?? null };
}

/** What of a log's rows tells of the boat's place. */
type PlaceRows = Pick<LogRows, "channels" | "time" | "values">;

const saysClock = {
  utc: "UTC",
  local: "local time of no stated zone",
  elapsed: "time since a start not stated",
  clock: "the time of day",
} as const;

function column(rows: PlaceRows, kind: ChannelKind): Float64Array | null {
  const at = rows.channels.findIndex((c) => c.kind === kind);
  return at < 0 ? null : rows.values[at]!;
}

function headingsOf(rows: PlaceRows, span: readonly [number, number]): { heading: Headings; magnetic: boolean } | null {
  const own = column(rows, "headingTrue");
  const angles = own ?? column(rows, "heading");
  if (!angles) return null;
  const { time, columns } = ordered(rows.time, [angles], span);
  return { heading: { time, angle: columns[0]! }, magnetic: own === null };
}

/** Places on the plane that touches the ellipsoid at the first of them: metres east and north. */
function trackOf(rows: PlaceRows, span: readonly [number, number]): Track | null {
  const latitude = column(rows, "latitude");
  const longitude = column(rows, "longitude");
  if (!latitude || !longitude) return null;
  const every = ordered(rows.time, [latitude, longitude], span);
  const kept = seldom(every.time);
  const time = picked(every.time, kept);
  const [lat, lon] = every.columns.map((one) => picked(one, kept)) as [Float64Array, Float64Array];
  const first = lat.findIndex((v, i) => Number.isFinite(v) && Number.isFinite(lon[i]!));
  if (first < 0) return null;
  const origin = { latitude: lat[first]!, longitude: lon[first]! };
  const plane = planeAt(origin.latitude, origin.longitude);
  return { time, east: lon.map(plane.east), north: lat.map(plane.north), origin };
}

/** No receiver tells places more often than this, s: a log that repeats them with each load does. */
const FIXES = 0.05;

/** Rows that are no nearer in time than places are told; rows of one stamp all stay. */
function seldom(time: Float64Array): Int32Array {
  const places = new Int32Array(time.length);
  let count = 0;
  let last = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < time.length; i++) {
    const since = time[i]! - last;
    if (since > 0 && since < FIXES - 1e-6) continue;
    places[count++] = i;
    last = time[i]!;
  }
  return places.subarray(0, count);
}

/** Rows of a span that have a value in every column, by time; rows that came late stand where they belong. */
function ordered(
  time: Float64Array,
  columns: readonly Float64Array[],
  [from, to]: readonly [number, number],
): { time: Float64Array; columns: Float64Array[] } {
  const places = new Int32Array(to - from);
  let count = 0;
  let sorted = true;
  for (let i = from; i < to; i++) {
    if (!Number.isFinite(time[i]!)) continue;
    let whole = true;
    for (const column of columns) if (Number.isNaN(column[i]!)) whole = false;
    if (!whole) continue;
    if (count > 0 && time[i]! < time[places[count - 1]!]!) sorted = false;
    places[count++] = i;
  }
  // A long log with nothing to leave out is not copied: it is half of the memory.
  if (sorted && count === to - from)
    return { time: time.subarray(from, to), columns: columns.map((c) => c.subarray(from, to)) };
  const kept = places.subarray(0, count);
  if (!sorted) kept.sort((a, b) => time[a]! - time[b]! || a - b);
  return {
    time: picked(time, kept),
    columns: columns.map((c) => picked(c, kept)),
  };
}

function picked(column: Float64Array, places: Int32Array): Float64Array {
  const out = new Float64Array(places.length);
  for (let i = 0; i < places.length; i++) out[i] = column[places[i]!]!;
  return out;
}
