/** What the wind meets of a boat, written out in a field of an address: areas, or shapes. */
import type { HeadingShare, WindArea, Windage, WindageShape } from "../../../sea/index.ts";
import type { FieldReader } from "../../state/fields.ts";

/** As in a boat file. */
const MOST = 1000;

export type Loose = Readonly<Record<string, unknown>>;

/** The object that a text writes out; null when it writes out none. */
export function loose(text: string): Loose | null {
  try {
    const read: unknown = JSON.parse(text);
    return typeof read === "object" && read !== null && !Array.isArray(read) ? (read as Loose) : null;
  } catch {
    return null;
  }
}

export function readWindageField(fields: FieldReader): Windage {
  const text = fields.text("windage") ?? "";
  const read = loose(text);
  const none: Windage = { kind: "shapes", shapes: [] };
  if (read === null) {
    fields.refuse("windage", text, "areas or shapes written out as JSON are expected");
    return none;
  }
  const heading = read.byHeading === undefined ? {} : { byHeading: headingOf(fields, read.byHeading) };
  if (read.kind === "areas")
    return {
      kind: "areas",
      front: areaOf(fields, read.front, "windage, front"),
      side: areaOf(fields, read.side, "windage, side"),
      ...heading,
    };
  if (read.kind === "shapes" && Array.isArray(read.shapes) && read.shapes.length > 0 && read.shapes.length <= MOST)
    return {
      kind: "shapes",
      shapes: (read.shapes as unknown[]).map((shape, i) => shapeOf(fields, shape, `windage, shape ${i + 1}`)),
      ...heading,
    };
  fields.refuse("windage", text, `areas of front and side, or from 1 to ${MOST} shapes are expected`);
  return none;
}

function number(fields: FieldReader, place: string, value: unknown, least: number, most: number): number {
  return fields.within(place, typeof value === "number" ? String(value) : undefined, least, most);
}

function headingOf(fields: FieldReader, read: unknown): HeadingShare[] {
  if (!Array.isArray(read) || read.length < 2 || read.length > MOST) {
    fields.refuse("windage, byHeading", JSON.stringify(read), `from 2 to ${MOST} rows are expected`);
    return [];
  }
  const rows = (read as unknown[]).map((row, i) => {
    const { angle, along, across } = (row ?? {}) as Loose;
    const place = `windage, heading ${i + 1}`;
    return {
      angle: number(fields, place, angle, 0, Math.PI),
      along: number(fields, place, along, -1e9, 1e9),
      across: number(fields, place, across, 0, 1e9),
    };
  });
  const falling = rows.findIndex((row, i) => i > 0 && row.angle <= rows[i - 1]!.angle);
  if (falling > 0)
    fields.refuse(
      `windage, heading ${falling + 1}`,
      String(rows[falling]!.angle),
      "an angle above the one before is expected",
    );
  return rows;
}

function areaOf(fields: FieldReader, read: unknown, place: string): WindArea {
  const { area, drag, height } = (read ?? {}) as Loose;
  return {
    area: number(fields, place, area, 0, 1e6),
    drag: number(fields, place, drag, 1e-9, 5),
    height: number(fields, place, height, 0, 1000),
  };
}

/** The numbers each shape has, and those it may have. */
const needed = {
  hull: ["freeboard"],
  deckhouse: ["length", "width", "height"],
  mast: ["thickness", "foot", "top"],
  rigging: ["length", "diameter", "foot", "top"],
  part: ["front", "side", "foot", "top"],
} as const;
const optional = ["drag", "sideDrag", "foot", "chord"] as const;

function shapeOf(fields: FieldReader, read: unknown, place: string): WindageShape {
  const from = (read ?? {}) as Loose;
  const kind = (Object.keys(needed) as (keyof typeof needed)[]).find((one) => one === from.kind);
  if (kind === undefined) {
    fields.refuse(place, JSON.stringify(from.kind), `one of ${Object.keys(needed).join(", ")} is expected`);
    return { kind: "hull", freeboard: Number.NaN };
  }
  const may: readonly string[] = optional;
  const must: readonly string[] = needed[kind];
  // In the order they stand in, so that an address read and written again is the same.
  const shape: Record<string, number | string> = {};
  for (const name of Object.keys(from)) {
    if (name === "kind") continue;
    if (name === "name" && kind === "part" && typeof from.name === "string" && from.name.length <= 200) {
      shape.name = from.name;
      continue;
    }
    if (!may.includes(name) && !must.includes(name)) {
      fields.refuse(place, name, `the sizes of a ${kind} are expected`);
      continue;
    }
    const least = name === "foot" || name === "front" || name === "side" ? 0 : 1e-9;
    shape[name] = number(
      fields,
      `${place}, ${name}`,
      from[name],
      least,
      name === "drag" || name === "sideDrag" ? 5 : 1e5,
    );
  }
  for (const name of must)
    if (shape[name] === undefined) fields.refuse(`${place}, ${name}`, undefined, "a number is expected");
  if (kind === "part") shape.name ??= "part";
  return { kind, ...shape } as unknown as WindageShape;
}
