import { readRig } from "../rode/index.ts";
import { readBoat } from "../sea/index.ts";

/** The fields that hold a whole file, each with the reader every other way in goes through. */
const READERS: Readonly<Record<string, (text: string, place: string) => unknown>> = {
  "rigVersion.file": (text, place) => readRig(text, place),
  "boat.file": (text, place) => readBoat(text, place),
};

/**
 * Checks the files inside a record by the same schema as the file itself: what the bench keeps, the command line reads.
 * @throws InputError naming the field in the file
 */
export function checkFilesIn(kind: string, set: Readonly<Record<string, unknown>>): void {
  for (const [field, value] of Object.entries(set)) {
    const place = `${kind}.${field}`;
    if (typeof value === "string" && Object.hasOwn(READERS, place)) READERS[place]!(value, place);
  }
}
