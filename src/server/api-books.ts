import { Hono } from "hono";
import { z } from "zod";
import { atTheComputerOnly } from "./at-the-computer.ts";
import { jsonIn, limits } from "./bodies.ts";
import type { Books } from "./books.ts";
import type { BenchEnv } from "./request-context.ts";

/** As much of a title as a heading carries. */
const LONGEST_TITLE = 120;

const titled = z.strictObject({
  title: z
    .string()
    .trim()
    .min(1, "a title is expected")
    .max(LONGEST_TITLE, `a title of at most ${LONGEST_TITLE} letters is expected`)
    .regex(/^[^\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}]*$/u, "a title of one line, without hidden characters, is expected"),
});
const chosen = z.strictObject({ id: z.string().min(1).max(300) });
const atTheComputer = atTheComputerOnly("books");

/**
 * The books of this computer that the bench knows: which there are, a new one, another one opened. At the computer only. A
 * book is named by its id in the list; nothing that was sent is a path or becomes a part of one.
 */
export function booksTopic(books: Books) {
  return new Hono<BenchEnv>()
    .use("/books/*", atTheComputer)
    .get("/books", atTheComputer, (c) => c.json({ folder: books.folder, books: books.list() }))
    .post("/books", atTheComputer, jsonIn(titled, limits.form), (c) =>
      c.json({ book: books.make(c.req.valid("json").title) }, 201),
    )
    .post("/books/open", jsonIn(chosen, limits.form), (c) => c.json({ book: books.choose(c.req.valid("json").id) }));
}
