import { type ReadAt, reduceTrace } from "../pull/index.ts";
import type { FieldsOf } from "../record/index.ts";

/** What a mark already in the book is known by: put aside or not, nobody's correction is talked over. */
export type KnownMark = Pick<FieldsOf<"mark">, "kind" | "from_s">;

/**
 * What the reduction finds on a stretch of a log, as marks not yet in the book; one found before is not made again.
 * @param known automatic marks of that log in the book, those put aside too
 * @throws InputError when times run backward or there are no readings
 */
export function foundMarks(
  stretch: { readonly time: Float64Array; readonly load: Float64Array },
  readAt: ReadAt,
  log: string,
  known: readonly KnownMark[],
): FieldsOf<"mark">[] {
  const keyOf = (kind: unknown, from: unknown): string => `${String(kind)} ${Number(from)}`;
  const there = new Set(known.map((mark) => keyOf(mark.kind, mark.from_s)));
  return reduceTrace(stretch, { readAt })
    .marks.filter((mark) => !there.has(keyOf(mark.kind, mark.from)))
    .map(({ kind, from, to, value, u, of, why }) => ({
      log,
      kind,
      from_s: from,
      to_s: to,
      origin: "automatic",
      detail: { value, u, of, why },
    }));
}
