/** What the list shows: the book narrowed by words and by what a record belongs to. */
import type { AnyRecord, BookCopy, LogHere, RecordHere, Records } from "./book-copy.ts";
import { type Kept, kept } from "./kinds.ts";
import { recordOf } from "./record-text.ts";
import type { Narrow } from "./state.ts";

/** Every word of `find` must stand somewhere in what is said of the record and of what it points to. */
export function saysAll(find: string, said: string): boolean {
  const plain = folded(said);
  return folded(find)
    .split(/\s+/)
    .every((word) => plain.includes(word));
}

/** Without case and accents: a phone's keyboard has neither at hand. */
const folded = (text: string): string =>
  text
    .normalize("NFD")
    .replace(/\p{Mn}/gu, "")
    .toLowerCase();

/** All that is said of a record, and the names of what it points to. */
export function textsOf(records: Records, record: AnyRecord): string {
  const parts: string[] = [];
  for (const [field, value] of Object.entries(record)) {
    if (field === "id" || field === "version" || field === "file" || value === null) continue;
    if (typeof value === "number") parts.push(String(value));
    else if (typeof value === "object") parts.push(JSON.stringify(value));
    else if (typeof value === "string") {
      parts.push(value);
      const to = kept.find((kind) => kind === field);
      const named: AnyRecord | undefined = to === undefined ? undefined : recordOf(records, to, value);
      if (named !== undefined)
        parts.push(...["name", "date", "shape", "make"].map((name) => String(named[name] ?? "")));
    }
  }
  return parts.join(" ");
}

export interface DayGroup {
  /** Null: pulls of no day. */
  readonly day: RecordHere<"day"> | null;
  readonly pulls: readonly RecordHere<"pull">[];
  readonly logs: readonly LogHere[];
}

const visible = (narrow: Narrow) => (record: AnyRecord) => narrow.aside || !record.hidden;

/** Days, the newest first, with their pulls in the order they were made. */
export function dayGroups(copy: BookCopy, narrow: Narrow): readonly DayGroup[] {
  const { records, logs } = copy;
  const shown = visible(narrow);
  const days = records.day.filter(shown);
  const known = new Set(days.map((day) => day.id));
  const narrowed = narrow.anchor !== null || narrow.series !== null;
  const find = narrow.find.trim();
  const group = (day: RecordHere<"day"> | null): DayGroup => {
    const own = (of: unknown) => (day === null ? !known.has(String(of ?? "")) : of === day.id);
    const dayTexts = day === null ? "" : textsOf(records, day);
    const pulls = records.pull
      .filter(
        (pull) =>
          shown(pull) &&
          own(pull.day) &&
          (narrow.anchor === null || pull.anchor === narrow.anchor) &&
          (narrow.series === null || pull.series === narrow.series) &&
          (find === "" || saysAll(find, `${textsOf(records, pull)} ${dayTexts}`)),
      )
      .sort(byOrder);
    const loose = narrowed
      ? []
      : logs.filter(
          (log) =>
            shown(log) &&
            log.pull === null &&
            own(log.day) &&
            (find === "" || saysAll(find, `${log.name} ${dayTexts}`)),
        );
    return { day, pulls, logs: loose };
  };
  const told = (day: AnyRecord) => find === "" || saysAll(find, textsOf(records, day));
  return [
    ...[...days]
      .filter((day) => narrow.site === null || day.site === narrow.site)
      .sort((a, b) => String(b.date).localeCompare(String(a.date)) || (a.id < b.id ? 1 : -1))
      .map(group)
      .filter(({ day, pulls, logs: own }) => pulls.length > 0 || own.length > 0 || (!narrowed && told(day!))),
    ...(narrow.site === null ? [group(null)] : []).filter(({ pulls, logs: own }) => pulls.length + own.length > 0),
  ];
}

function byOrder(a: RecordHere<"pull">, b: RecordHere<"pull">): number {
  const [one, other] = [a, b].map((pull) => (typeof pull.number === "number" ? pull.number : Number.POSITIVE_INFINITY));
  return one! - other! || String(a.startedAt ?? "").localeCompare(String(b.startedAt ?? "")) || (a.id < b.id ? -1 : 1);
}

/** Records of a kind by name. */
export function listed(copy: BookCopy, kind: Kept, narrow: Narrow): readonly AnyRecord[] {
  const find = narrow.find.trim();
  const all: readonly AnyRecord[] = copy.records[kind];
  return all
    .filter(visible(narrow))
    .filter((record) => find === "" || saysAll(find, textsOf(copy.records, record)))
    .sort((a, b) => String(a.name ?? "").localeCompare(String(b.name ?? "")) || (a.id < b.id ? -1 : 1));
}
