/** Pulls left out by hand: a note of the pull in the book says so, and why; putting the note aside brings the pull back. */
import { newId } from "../api/ids.ts";
import type { RecordHere } from "../days/book-copy.ts";
import { putAside, write } from "../days/written.ts";

/** How such a note begins; what follows is the reason. */
const BEGINS = "Left out of comparing anchors: ";

export interface LeftOutByHand {
  readonly pull: string;
  readonly note: string;
  readonly why: string;
}

export function leftOutByHand(notes: readonly RecordHere<"note">[]): LeftOutByHand[] {
  return notes.flatMap(({ id, hidden, about, text }) =>
    !hidden && typeof about === "string" && typeof text === "string" && text.startsWith(BEGINS)
      ? [{ pull: about, note: id, why: text.slice(BEGINS.length) }]
      : [],
  );
}

export const leaveOut = (pull: string, name: string, why: string): Promise<string | null> =>
  write(`leave ${name} out of comparing`, [
    { kind: "note", id: newId(), makes: true, set: { about: pull, text: `${BEGINS}${why}` } },
  ]);

export const bringBack = ({ note }: LeftOutByHand, name: string): Promise<string | null> =>
  putAside("note", note, true, `that ${name} is left out`);
