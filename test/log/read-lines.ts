import type { ChannelKind } from "../../src/log/channel.ts";
import type { LineReader } from "../../src/log/line-reader.ts";
import { OPEN_PLAN } from "../../src/log/message-plan.ts";

/** Reads a whole log of lines, handed over in pieces of `piece` bytes. */
export function readLines(text: string, reader: LineReader, piece: number) {
  const bytes = new TextEncoder().encode(text);
  const times: number[] = [];
  const values: number[][] = OPEN_PLAN.channels.map(() => []);
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
    column: (kind: ChannelKind) => values[OPEN_PLAN.channels.findIndex(({ name }) => name === kind)]!,
    troubles: reader.troubles.count(),
  };
}
