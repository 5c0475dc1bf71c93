import { Book } from "../book/index.ts";
import type { Writer } from "./records.ts";

/**
 * One book under many hands: the same connection, each writer's name and device with what it writes, so that each
 * device's undo finds its own acts.
 */
export function desksOf(book: Book): (by: Writer) => Book {
  const desks = new Map<string, Book>();
  return ({ who, device }) => {
    const key = JSON.stringify([who, device]);
    const known = desks.get(key);
    if (known !== undefined) return known;
    const made = new Book({ ...book.context, who, device: device ?? book.context.device }, []);
    desks.set(key, made);
    return made;
  };
}
