import { z } from "zod";

const MOST_ROWS = 5_000;
const numbers = z.array(z.number().nullable()).max(MOST_ROWS);
/** Readings a device took, row by row. */
export const rows = z.strictObject({
  /** Which row of the log the first of these is: sent twice, a row is known by its place. */
  from: z.int().min(0),
  times_s: z.array(z.number().min(-1e12).max(1e12)).max(MOST_ROWS),
  /** A column a channel, SI; null: no reading. */
  columns: z.record(z.string().max(64), numbers),
  /** No more comes. */
  finished: z.boolean(),
});

/** Rows as they were sent. */
export type SentRows = z.infer<typeof rows>;
