import {
  type Batch,
  CHANNELS,
  type Ended,
  type LineState,
  type LoadSeen,
  type Channel as LogChannel,
  type LogMark,
  nmeaReader,
  OPEN_PLAN,
  signalKReader,
  TableReader,
  type TableState,
  type TroubleCount,
} from "../../log/index.ts";
import type { Channel } from "../../record/index.ts";
import type { LogMapping } from "./log-mapping.ts";

/** What the readers of tables and of messages have in common. */
export interface RowsReader {
  readonly ready: number;
  readonly stopped: Ended | null;
  readonly troubles: { count(): TroubleCount };
  readonly seen: readonly LoadSeen[];
  readonly counts: Readonly<Record<LogMark["kind"], number>>;
  consume(bytes: Uint8Array, from: number, to: number, final: boolean): number;
  take(): Batch & { readonly marks: readonly LogMark[] };
  state(): TableState | LineState;
}

/** Rows of one write to the book: some 20 a second or fewer on a slow disk. */
export const BATCH_ROWS = 65536;

/** The reader of a mapping, from a state it left before or from the front. */
export function readerOf(mapping: LogMapping, state?: unknown): RowsReader {
  if (mapping.plan !== undefined) return new TableReader(mapping.plan, BATCH_ROWS, state as TableState | undefined);
  const from = { ...(state === undefined ? {} : { from: state as LineState }), plan: mapping.messages ?? OPEN_PLAN };
  if (mapping.kind === "nmea") {
    const start = mapping.start === undefined ? {} : { start: mapping.start };
    return nmeaReader(mapping.times!, { ...start, ...from, capacity: BATCH_ROWS });
  }
  return signalKReader({ ...from, capacity: BATCH_ROWS });
}

/** The channels a mapping's log declares. Places keep every digit; other readings keep 24 bits, 6e-8 of their size. */
export function channelsFor(mapping: LogMapping): Channel[] {
  const channels: readonly Pick<LogChannel, "name" | "kind">[] =
    mapping.plan !== undefined
      ? mapping.plan.values.map((value) => value.channel)
      : (mapping.messages ?? OPEN_PLAN).channels;
  return channels.map(({ name, kind }) => {
    const { unit, dimension } = CHANNELS[kind];
    return { name, quantity: kind, unit, precision: dimension === "place" ? "double" : "single" };
  });
}
