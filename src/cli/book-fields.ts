/** What `--set FIELD=VALUE` says of a record: text, numbers with units, other records by name, a file by `@`. */
import type { Book } from "../book/index.ts";
import { type Dimension, InputError, nearestName, parseQuantity, quoted, readJson } from "../quantity/index.ts";
import { type Field, fieldOf, fieldsOf, type Kind } from "../record/index.ts";
import { besideFile } from "./beside.ts";
import type { Io } from "./io.ts";
import { recordId } from "./record-name.ts";

/** Units as the ends of field names have them. */
export const ENDINGS: readonly (readonly [string, Dimension])[] = [
  ["_m_per_s", "speed"],
  ["_kg", "mass"],
  ["_m2", "area"],
  ["_deg", "angle"],
  ["_N", "force"],
  ["_m", "length"],
  ["_s", "time"],
];

/**
 * @param standing the folder that `@FILE` starts from is that of the user
 * @throws InputError for a field there is none of, a unit of something else, a file that cannot be read
 */
export async function fieldsFrom(
  book: Book,
  kind: Kind,
  settings: readonly string[] | undefined,
  io: Io,
): Promise<Record<string, unknown>> {
  const fields: Record<string, unknown> = {};
  for (const setting of settings ?? []) {
    const at = setting.indexOf("=");
    if (at < 1)
      throw new InputError("--set", quoted(setting), 'a field and its value such as "depth_m=6" are expected');
    const name = setting.slice(0, at);
    const field = fieldOf(kind, name);
    if (field === undefined) throw noSuchField(kind, name);
    if (Object.hasOwn(fields, name)) throw new InputError(`--set ${name}`, "given twice", "the field once is expected");
    fields[name] = await valueFrom(book, kind, name, field, setting.slice(at + 1), io);
  }
  return fields;
}

async function valueFrom(book: Book, kind: Kind, name: string, field: Field, text: string, io: Io): Promise<unknown> {
  if (text === "") return null;
  const place = `${kind}.${name}`;
  if (text.startsWith("@@")) return text.slice(1);
  if (text.startsWith("@")) return io.read(besideFile("-", text.slice(1)));
  if (name === "file" && /^[^\n]+\.(ya?ml|json)$/i.test(text))
    throw new InputError(place, quoted(text), `the text of a file is expected: file=@${text} reads it`);
  if (field.refers !== undefined) return recordId(book, text, place, field.refers as Kind);
  if (field.column === "REAL" || field.column === "INTEGER") return numberFrom(name, text, place);
  if (field.column === "TEXT") return text;
  return jsonOrText(text);
}

/** A bare number is in the unit of the field's name; with a unit it is read as every quantity is. */
function numberFrom(name: string, text: string, place: string): unknown {
  const bare = jsonOrText(text);
  if (typeof bare === "number" || bare === null) return bare;
  const [, dimension] = ENDINGS.find(([end]) => name.endsWith(end)) ?? [];
  if (dimension === undefined) return name === "scope" ? jsonOrText(text.replace(/\s*:\s*1\s*$/, "")) : bare;
  const si = parseQuantity(text, dimension, place);
  // The same digits a person would write: 5 deg is 5, whatever radians make of it.
  return dimension === "angle" ? Number(((si * 180) / Math.PI).toPrecision(15)) : Number(si.toPrecision(15));
}

/** Numbers, true, false, lists and groups as JSON has them; all else is text. */
function jsonOrText(text: string): unknown {
  if (!/^(-?\d|[{["]|true$|false$|null$)/.test(text)) return text;
  try {
    return readJson(text, "--set");
  } catch {
    return text;
  }
}

/** What was meant, by the nearest name: `mass` for `mass_kg`. */
export function noSuchField(kind: Kind, name: string): InputError {
  const known = fieldsOf(kind).map(([each]) => each);
  const bare = known.find((each) => ENDINGS.some(([end]) => each === `${name}${end}`));
  const near = bare ?? nearestName(name, known);
  return new InputError(
    `${kind}.${name}`,
    "no such field",
    near === undefined
      ? `one of ${known.join(", ")} is expected`
      : `is ${near} meant? One of ${known.join(", ")} is expected`,
  );
}
