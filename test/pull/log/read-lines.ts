import type { ChannelKind } from "../../../src/pull/log/channel.ts";
import type { LineReader } from "../../../src/pull/log/line-reader.ts";
import { NMEA_CHANNELS } from "../../../src/pull/log/nmea.ts";

/** Reads a whole log of lines, handed over in pieces of `piece` bytes. */
export function readLines(text: string, reader: LineReader, piece: number) {
  const bytes = new TextEncoder().encode(text);
  const times: number[] = [];
  const values: number[][] = NMEA_CHANNELS.map(() => []);
  let from = 0;
  for (let to = Math.min(piece, bytes.length); ; to = Math.min(to + piece, bytes.length)) {
    from = reader.consume(bytes, from, to, to === bytes.length);
    const batch = reader.take();
    times.push(...batch.time);
    for (const [k, column] of batch.values.entries()) values[k]!.push(...column);
    if (to === bytes.length) break;
  }
  return {
    times,
    column: (kind: ChannelKind) => values[NMEA_CHANNELS.indexOf(kind)]!,
    troubles: reader.troubles.count(),
  };
}
