import { Hono } from "hono";
import { BookTrouble, type Joined } from "../book/index.ts";
import { InputError } from "../quantity/index.ts";
import { jsonIn, limits } from "./bodies.ts";
import type { Records } from "./records.ts";
import { type RefusalBody, refusalOf } from "./refusals.ts";
import type { BenchEnv } from "./request-context.ts";
import { batch, type SentTransaction } from "./sent-transaction.ts";

/** What became of one transaction. Joined and known are both good: the book has it, and the device may let it go. */
type Became =
  | Joined
  /** It was written for another book than the one that is open: the device keeps it until that is open again. */
  | { readonly transaction: string; readonly kind: "otherBook" }
  | ({ readonly transaction: string; readonly kind: "refused" } & RefusalBody);

/**
 * Where a device brings what it wrote while the book was out of reach. Each transaction is joined exactly once however often it
 * is sent; one that is refused holds up no other, and tells why.
 */
export function joinTopic(records: Records) {
  return new Hono<BenchEnv>().post("/join", jsonIn(batch, limits.batch), (c) => {
    const who = c.get("by").who;
    return c.json({ transactions: c.req.valid("json").transactions.map((sent) => joined(records, sent, who)) });
  });
}

function joined(records: Records, { book, ...sent }: SentTransaction, who: string): Became {
  if (book !== undefined && book !== records.id) return { transaction: sent.id, kind: "otherBook" };
  try {
    return records.join(sent, who);
  } catch (error) {
    // Trouble with the book's file is nothing the device can mend: the whole batch is to be sent again later.
    if (!(error instanceof InputError) || error instanceof BookTrouble) throw error;
    return { transaction: sent.id, kind: "refused", ...refusalOf(error).body };
  }
}
