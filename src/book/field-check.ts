import { InputError, quoted } from "../quantity/index.ts";
import type { SqlValue } from "./driver.ts";
import type { Field } from "./field.ts";
import { fieldOf, fieldsOf, type Kind } from "./kinds.ts";

/** A value as history keeps it: JSON text, or null for nothing. */
export type Kept = string | null;

/**
 * Checks the fields given for a record and returns each as history keeps it, in the kind's own order.
 * @throws InputError for an unknown field or a value that is not what the field expects
 */
export function checkFields(
  kind: Kind,
  given: Readonly<Record<string, unknown>>,
  place: string = kind,
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
    if (value !== undefined) kept.set(name, keep(field, value, `${place}.${name}`));
  }
  return kept;
}

function keep(field: Field, value: unknown, place: string): Kept {
  if (value === null || value === "") return null;
  const parsed = field.schema.safeParse(value);
  if (!parsed.success) throw new InputError(place, quoted(value), field.expects);
  // A stringified number has no negative zero: none may enter.
  return JSON.stringify(parsed.data);
}

/** A kept value as the record's table holds it. */
export function asColumn(field: Field, kept: Kept): SqlValue {
  if (kept === null) return null;
  if (field.column === "JSON") return kept;
  const value: unknown = JSON.parse(kept);
  return typeof value === "boolean" ? Number(value) : (value as string | number);
}

/** What a table holds as the record's plain value. */
export function fromColumn(field: Field, value: SqlValue): unknown {
  if (value === null) return null;
  if (field.column === "JSON") return JSON.parse(value as string);
  return field.column === "FLAG" ? value === 1 : value;
}
