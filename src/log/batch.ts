/** Rows read are handed on in batches, copied out of the columns that the reader fills again. */
import type { Batch } from "./channel.ts";
import type { LogMark, TimeOrder } from "./time-order.ts";

/** A batch with what was marked along its rows. */
export type MarkedBatch = Batch & { readonly marks: readonly LogMark[] };

/** Takes the first rows out of the columns, and the marks out of the order. */
export function batchOf(
  time: Float64Array,
  values: readonly Float64Array[],
  rows: number,
  order: TimeOrder,
): MarkedBatch {
  const { marks } = order;
  order.marks = [];
  return { rows, time: time.slice(0, rows), values: values.map((column) => column.slice(0, rows)), marks };
}
