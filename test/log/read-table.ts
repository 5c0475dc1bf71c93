import { type LogChoices, readColumnChoice } from "../../src/log/choices.ts";
import { guessEncoding, narrow } from "../../src/log/encoding.ts";
import { guessTable, HEAD_BYTES } from "../../src/log/guess.ts";
import type { TablePlan } from "../../src/log/plan.ts";
import { TableReader } from "../../src/log/table.ts";
import type { TableGuess } from "../../src/log/table-guess.ts";
import { InputError } from "../../src/quantity/index.ts";

/** Choices as the options of the command say them. */
export function choices(told: readonly string[]): LogChoices {
  const columns = told.flatMap((word, i) => (told[i - 1] === "--map" ? [readColumnChoice(word, "--map")] : []));
  const rate = told[told.indexOf("--rate") + 1];
  return { columns, ...(told.includes("--rate") ? { rate: Number(rate) } : {}) };
}

export function guessed(bytes: Uint8Array, told: LogChoices = {}): TableGuess {
  const guess = guessTable(bytes.subarray(0, HEAD_BYTES), bytes.length <= HEAD_BYTES, told);
  if (guess.kind !== "table") throw new InputError("test", guess.why, "a table");
  return guess;
}

/** Reads a whole table, handed over in pieces of `piece` bytes. */
export function readAll(bytes: Uint8Array, plan: TablePlan, piece = bytes.length, capacity = 4096) {
  const encoding = guessEncoding(bytes);
  let data = bytes.subarray(plan.dataOffset);
  if (encoding.unit === 2) {
    const narrowed = new Uint8Array(data.length >> 1);
    narrow(data, 0, data.length, encoding.encoding, narrowed);
    data = narrowed;
  }
  const reader = new TableReader(plan, capacity);
  const times: number[] = [];
  const values: number[][] = plan.values.map(() => []);
  const marks: { kind: string; row: number; line: number }[] = [];
  let from = 0;
  let to = Math.min(piece, data.length);
  for (;;) {
    const final = to === data.length;
    const next = reader.consume(data, from, to, final);
    const batch = reader.take();
    times.push(...batch.time);
    for (const [k, column] of batch.values.entries()) values[k]!.push(...column);
    marks.push(...batch.marks);
    if (reader.stopped || (final && next >= to) || (final && next === from && batch.rows === 0)) break;
    from = next;
    if (batch.rows < capacity) to = Math.min(to + piece, data.length);
  }
  return { times, values, marks, reader, troubles: reader.troubles.count() };
}
