/** Readings that come by themselves: what an instrument told at one moment, and how few of them are enough to show. */
import type { Fix } from "../../../study/index.ts";

/** How an instrument is reached. */
export type Via = "server" | "serial" | "bluetooth" | "position";

/** One row of an instrument. */
export interface LiveReading {
  /** Which row of its log it is, from 0. */
  readonly n: number;
  /** By this device's clock, ms since 1970. */
  readonly at: number;
  /** By the clock of its log, s since 1970. */
  readonly time_s: number;
  /** SI, by channel: load, angle, latitude, longitude and what else comes. */
  readonly values: Readonly<Record<string, number>>;
  /** Nothing came for a while before it. */
  readonly afterGap?: true;
}

/** A channel of a log, as a book declares it. */
export interface LiveChannel {
  readonly name: string;
  readonly quantity: string;
  readonly unit: string;
  readonly precision: "double";
}

/** An instrument of a pull, as the pull keeps it. */
export interface LiveSource {
  readonly via: Via;
  readonly name: string;
  /** Its log in the book; of the server's null until it told. */
  readonly log: string | null;
  /** Id of the transaction that makes its log, where this device makes it. */
  readonly begin: string;
  /** This device's clock less that of the log, ms. */
  readonly clock: number;
  /** Channels of its log, where this device makes it. */
  readonly channels: readonly LiveChannel[];
}

/** Of each stretch of so many seconds only the reading with the highest load is shown and kept here: the log has all. */
const STRETCH = 0.05;

/** At most twenty readings a second, the highest load of each stretch. What holds no load is kept as it is. */
export function thinned(rows: readonly LiveReading[]): LiveReading[] {
  const kept: LiveReading[] = [];
  for (const row of rows) {
    const last = kept.at(-1);
    const same = last !== undefined && Math.floor(last.time_s / STRETCH) === Math.floor(row.time_s / STRETCH);
    const [load, before] = [loadIn(row), last === undefined ? null : loadIn(last)];
    if (!same || load === null || before === null || last.afterGap) kept.push(row);
    else if (load >= before) kept[kept.length - 1] = row;
  }
  return kept;
}

/** The load it reads, N: of a channel by that name, or the first of several cells. */
export function loadIn({ values }: LiveReading): number | null {
  return values.load ?? values["load-1"] ?? null;
}

/** Stretches in which nothing came, by the clock of the log, s. */
export function gapsOf(rows: readonly LiveReading[]): { readonly from: number; readonly to: number }[] {
  return rows.flatMap((row, i) => (row.afterGap && i > 0 ? [{ from: rows[i - 1]!.time_s, to: row.time_s }] : []));
}

/** Places among the readings, in order. */
export function fixesOf(rows: readonly LiveReading[]): Fix[] {
  return rows.flatMap(({ time_s, values: { latitude, longitude, accuracy } }) =>
    latitude === undefined || longitude === undefined
      ? []
      : [{ time: time_s, latitude, longitude, ...(accuracy === undefined ? {} : { accuracy }) }],
  );
}
