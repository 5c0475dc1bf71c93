import { type PullCase, pullCases, type StudyRecords } from "../../study/index.ts";
import type { RecordHere, Records } from "./book-copy.ts";

/** A pull of the book as this device has it, with the records it is judged by. */
export function caseOf(records: Records, pull: RecordHere<"pull">): PullCase {
  // The book answers whole records; a copy kept on the device knows them by their fields alone.
  const known = records as unknown as StudyRecords;
  return pullCases(known, [pull as unknown as StudyRecords["pull"][number]])[0]!;
}
