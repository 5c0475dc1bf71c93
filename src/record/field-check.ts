import { InputError, quoted } from "../quantity/index.ts";
import type { Field } from "./field.ts";
import { fieldOf, fieldsOf, type Kind } from "./schema.ts";

/** A value as history keeps it: JSON text, or null for nothing. */
export type Kept = string | null;

/**
 * Checks the fields given for a record and returns each as history keeps it, in the kind's own order.
 * @param standing what the record says already: a value that an earlier program wrote may be said again, unchanged
 * @throws InputError for an unknown field or a value that is not what the field expects
 */
export function checkFields(
  kind: Kind,
  given: Readonly<Record<string, unknown>>,
  place: string = kind,
  standing: ReadonlyMap<string, Kept> = new Map(),
): Map<string, Kept> {
  const kept = new Map<string, Kept>();
  for (const name of Object.keys(given))
    if (!fieldOf(kind, name))
      throw new InputError(
        `${place}.${name}`,
        "no such field",
        `one of ${fieldsOf(kind)
          .map(([f]) => f)
          .join(", ")} is expected`,
      );
  for (const [name, field] of fieldsOf(kind)) {
    const value = given[name];
    if (value !== undefined) kept.set(name, keep(field, value, `${place}.${name}`, standing.get(name)));
  }
  return kept;
}

/** True when history may hold this value of the field: what can be written now, and what an earlier program could. */
export function isKept(field: Field, kept: string): boolean {
  try {
    return (field.earlier ?? field.schema).safeParse(JSON.parse(kept)).success;
  } catch {
    return false;
  }
}

function keep(field: Field, value: unknown, place: string, standing: Kept | undefined): Kept {
  if (value === null || value === "") return null;
  const parsed = field.schema.safeParse(value);
  if (!parsed.success && field.earlier) {
    const earlier = field.earlier.safeParse(value);
    if (earlier.success && JSON.stringify(earlier.data) === standing) return standing;
  }
  if (!parsed.success) throw new InputError(place, quoted(value), field.expects);
  // A stringified number has no negative zero: none may enter.
  return JSON.stringify(parsed.data);
}
