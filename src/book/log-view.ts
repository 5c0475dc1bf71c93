import type { Channel } from "../record/index.ts";
import { asked, type Context } from "./context.ts";
import { BIN_ROWS, extremes } from "./log-bins.ts";
import { type Rows, readChunk } from "./log-chunk.ts";
import { doublesOf } from "./log-codec.ts";
import { channelsOf, logProgress } from "./log-content.ts";
import { liveRows } from "./log-live.ts";
import { TIMES } from "./log-overview.ts";

/** What a log holds, without its readings. */
export interface LogContent {
  readonly log: string;
  readonly rows: number;
  /** First and last time, s since 1970; null when empty. */
  readonly from_s: number | null;
  readonly to_s: number | null;
  readonly finished: boolean;
  readonly channels: readonly Channel[];
}

/**
 * A stretch of a log, as fine as a picture needs: the readings themselves when they are few, else bands. Each band
 * spans some rows in turn and has the smallest and largest reading of each channel among them (NaN: none), so that no
 * peak is ever smoothed away. Rows lie in the order they were read; where a clock was set back, times go back.
 */
export type LogView =
  | {
      readonly kind: "readings";
      readonly times: Float64Array;
      readonly columns: Readonly<Record<string, Float64Array>>;
    }
  | {
      readonly kind: "bands";
      readonly from: Float64Array;
      readonly to: Float64Array;
      readonly columns: Readonly<Record<string, { readonly min: Float64Array; readonly max: Float64Array }>>;
    };

/** A stretch of a log, and how finely it is wanted. */
export interface Stretch {
  /** From and to, s since 1970, both included. Default: all. */
  readonly from_s?: number;
  readonly to_s?: number;
  /** At most so many rows or bands. Default 2000. A band at an end may reach past it by up to 63 rows. */
  readonly points?: number;
  readonly channels?: readonly string[];
}

export function logContent(context: Context, log: string): LogContent {
  return asked(context, () => {
    const progress = logProgress(context, log);
    const span = context.driver.get<{ low: number | null; high: number | null }>(
      `SELECT min(low) AS low, max(high) AS high FROM (
         SELECT min(tMin) AS low, max(tMax) AS high FROM log_chunk WHERE log = ?
         UNION ALL SELECT min(t), max(t) FROM log_live WHERE log = ?)`,
      [log, log],
    )!;
    return {
      log,
      rows: progress.rows,
      from_s: span.low,
      to_s: span.high,
      finished: progress.kind === "finished",
      channels: channelsOf(context, log),
    };
  });
}

interface ChunkHead {
  n: number;
  rows: number;
  tMin: number;
  tMax: number;
}

/** Reads a stretch: at most `points` rows or bands, however long the log. */
export function viewLog(context: Context, log: string, stretch: Stretch = {}): LogView {
  return asked(context, () => {
    const channels = channelsOf(context, log);
    const names = stretch.channels ?? channels.map((c) => c.name);
    const from = stretch.from_s ?? Number.NEGATIVE_INFINITY;
    const to = stretch.to_s ?? Number.POSITIVE_INFINITY;
    const points = Math.max(2, stretch.points ?? 2000);
    const heads = context.driver.all<ChunkHead>(
      "SELECT n, rows, tMin, tMax FROM log_chunk WHERE log = ? AND tMax >= ? AND tMin <= ? ORDER BY n",
      [log, Math.max(from, -1e300), Math.min(to, 1e300)],
    );
    const live = liveRows(context, log, channels);
    const sealed = heads.reduce((sum, head) => sum + head.rows, 0);
    const bands = bandsOver(context, log, heads, live, names, { from, to, coarse: sealed > 8 * points * BIN_ROWS });
    // The rows of all bins that touch the stretch are at least those in it.
    if (sealed <= 8 * points * BIN_ROWS && bands.rows <= points + 4 * BIN_ROWS) {
      const rows = rowsWithin(context, log, heads, live, names, from, to);
      if (rows.times.length <= points) return { kind: "readings", ...rows };
    }
    return joined(bands, names, points);
  });
}

interface Bands {
  readonly from: number[];
  readonly to: number[];
  readonly low: Record<string, number[]>;
  readonly high: Record<string, number[]>;
  rows: number;
}

function noBands(names: readonly string[]): Bands {
  const bands: Bands = { from: [], to: [], low: Object.create(null), high: Object.create(null), rows: 0 };
  for (const name of names) {
    bands.low[name] = [];
    bands.high[name] = [];
  }
  return bands;
}

function addBins(
  bands: Bands,
  names: readonly string[],
  times: Float64Array,
  columns: (name: string) => Float64Array | undefined,
  from: number,
  to: number,
): void {
  const each = names.map((name) => ({ low: bands.low[name]!, high: bands.high[name]!, bins: columns(name) }));
  for (let b = 0; b < times.length; b += 2) {
    if (times[b + 1]! < from || times[b]! > to) continue;
    bands.rows += BIN_ROWS;
    bands.from.push(times[b]!);
    bands.to.push(times[b + 1]!);
    for (const { low, high, bins } of each) {
      low.push(bins ? bins[b]! : Number.NaN);
      high.push(bins ? bins[b + 1]! : Number.NaN);
    }
  }
}

/**
 * Bands over a stretch: of one bin of 64 rows each, or of 1024 where that is fine enough. A chunk that reaches past an
 * end gives its bins in either case.
 */
function bandsOver(
  context: Context,
  log: string,
  heads: readonly ChunkHead[],
  live: Rows,
  names: readonly string[],
  stretch: { readonly from: number; readonly to: number; readonly coarse: boolean },
): Bands {
  const { from, to, coarse } = stretch;
  const bands = noBands(names);
  const binsOf = readerOfBins(context, log, heads, names, coarse ? "overview" : "bins");
  const finer = coarse ? readerOfBins(context, log, ends(heads, from, to), names, "bins") : binsOf;
  for (const { n, tMin, tMax } of heads) {
    const read = tMin >= from && tMax <= to ? binsOf : finer;
    addBins(bands, names, read(n, TIMES)!, (name) => read(n, name), from, to);
  }
  addBins(bands, names, extremes(live.times), (name) => live.columns[name] && extremes(live.columns[name]), from, to);
  return bands;
}

const ends = (heads: readonly ChunkHead[], from: number, to: number): ChunkHead[] =>
  heads.filter(({ tMin, tMax }) => tMin < from || tMax > to);

/** The smallest and largest readings of the chunks named, a channel in one go. */
function readerOfBins(
  context: Context,
  log: string,
  heads: readonly ChunkHead[],
  names: readonly string[],
  level: "bins" | "overview",
): (n: number, name: string) => Float64Array | undefined {
  const found = new Map<string, Map<number, Uint8Array>>();
  const first = heads[0]?.n ?? 0;
  const last = heads.at(-1)?.n ?? -1;
  for (const name of [TIMES, ...names]) {
    const times = level === "bins" && name === TIMES;
    const table = level === "overview" ? "log_overview" : times ? "log_chunk" : "log_column";
    const rows = context.driver.all<{ n: number; bins: Uint8Array }>(
      `SELECT n, bins FROM ${table} WHERE log = ? AND n BETWEEN ? AND ?${times ? "" : " AND channel = ?"}`,
      times ? [log, first, last] : [log, first, last, name],
    );
    found.set(name, new Map(rows.map(({ n, bins }) => [n, bins])));
  }
  return (n, name) => {
    const bins = found.get(name)?.get(n);
    return bins && doublesOf(bins);
  };
}

/** Joins neighbouring bands until there are at most `points`. */
function joined(bands: Bands, names: readonly string[], points: number): LogView {
  const count = bands.from.length;
  const take = Math.max(1, Math.ceil(count / points));
  const out = Math.ceil(count / take);
  const join = (values: readonly number[], sign: 1 | -1): Float64Array => {
    const best = new Float64Array(out).fill(Number.NaN);
    values.forEach((v, i) => {
      const o = Math.floor(i / take);
      const b = best[o]!;
      if (Number.isNaN(b) || sign * v > sign * b) best[o] = v;
    });
    return best;
  };
  const columns: Record<string, { min: Float64Array; max: Float64Array }> = Object.create(null);
  for (const name of names) columns[name] = { min: join(bands.low[name]!, -1), max: join(bands.high[name]!, 1) };
  return { kind: "bands", from: join(bands.from, -1), to: join(bands.to, 1), columns };
}

function rowsWithin(
  context: Context,
  log: string,
  heads: readonly ChunkHead[],
  live: Rows,
  names: readonly string[],
  from: number,
  to: number,
): Rows {
  const parts = [...heads.map((h) => readChunk(context, log, h.n, names)), live];
  const times: number[] = [];
  const columns: Record<string, number[]> = Object.create(null);
  for (const name of names) columns[name] = [];
  for (const part of parts)
    part.times.forEach((t, i) => {
      if (t < from || t > to) return;
      times.push(t);
      for (const name of names) columns[name]!.push(part.columns[name]?.[i] ?? Number.NaN);
    });
  const out: Record<string, Float64Array> = Object.create(null);
  for (const name of names) out[name] = Float64Array.from(columns[name]!);
  return { times: Float64Array.from(times), columns: out };
}
