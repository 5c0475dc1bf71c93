import { Book } from "../book/index.ts";
import type { Writer } from "./records.ts";

/**
 * One book under many hands: the same connection, each writer's name and device with what it writes, so that each
 * device's undo finds its own transactions.
 */
export function bookForWriter(book: Book): (by: Writer) => Book {
  const books = new Map<string, Book>();
  return ({ who, device }) => {
    const key = JSON.stringify([who, device]);
    const known = books.get(key);
    if (known !== undefined) return known;
    const made = new Book({ ...book.context, who, device: device ?? book.context.device }, []);
    books.set(key, made);
    return made;
  };
}
