import { z } from "zod";

const fields = z.record(z.string(), z.unknown());
const transaction = z.strictObject({
  /** Made once on the device, a UUID of version 7: by it a transaction sent twice is known. */
  id: z.string().max(64),
  /** The device's own id as it was when the transaction was written; it stays with the transaction for good. */
  device: z.string().max(64),
  at: z.string().max(64),
  label: z.string().min(1).max(200),
  /** The id of the book it was written for, where the device knew it: no other takes it. */
  book: z.string().max(64).optional(),
  records: z
    .array(
      z.strictObject({
        kind: z.string().max(64),
        id: z.string().max(64),
        makes: z.boolean(),
        set: fields,
        was: fields.optional(),
      }),
    )
    .min(1)
    .max(1_000),
});
/** A batch of transactions written offline. */
export const batch = z.strictObject({ transactions: z.array(transaction).min(1).max(1_000) });

/** A transaction of a batch, as the device wrote it. */
export type SentTransaction = z.infer<typeof transaction>;
