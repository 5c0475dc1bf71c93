/** The boat file, `rodebench/boat@1`, read from YAML or JSON. */
import * as z from "zod";
import { quoted } from "../quantity/index.ts";
import type { Boat, HeadingShare, MeasuredPoint, Windage, WindageShape } from "./boat.ts";
import { group, line, list, plainNumber, quantity, readFields, refuse, word } from "./field-check.ts";
import { SEA_WATER_DENSITY } from "./fluids.ts";

/** Format of a boat file. */
export const BOAT_FORMAT = "rodebench/boat@1";

const half = Math.PI;
const length = () => quantity("length");
const height = () => quantity("length", "zeroOrMore");
const area = () => quantity("area", "zeroOrMore");
const drag = () => plainNumber("positive", 5).optional();
const share = () => quantity("ratio", "zeroOrMore", 2, "200 %").optional();

const windArea = group(
  { area: area(), drag: plainNumber("positive", 5), height: height() },
  "a group of area, drag and height",
);

const shapeFields = {
  hull: group({ freeboard: length(), drag: drag(), sideDrag: drag() }, "a group with freeboard"),
  deckhouse: group(
    { length: length(), width: length(), height: length(), foot: height().optional(), drag: drag(), sideDrag: drag() },
    "a group with length, width and height",
  ),
  mast: upright(
    group(
      { thickness: length(), chord: length().optional(), foot: height(), top: length(), drag: drag() },
      "a group with thickness, foot and top",
    ),
  ),
  rigging: upright(
    group(
      { length: length(), diameter: length(), foot: height(), top: length(), drag: drag() },
      "a group with length, diameter, foot and top",
    ),
  ),
  part: upright(
    group(
      { name: line(), front: area(), side: area(), foot: height(), top: length(), drag: drag(), sideDrag: drag() },
      "a group with name, front, side, foot and top",
    ),
  ),
};

const shape = group(
  {
    hull: shapeFields.hull.optional(),
    deckhouse: shapeFields.deckhouse.optional(),
    mast: shapeFields.mast.optional(),
    rigging: shapeFields.rigging.optional(),
    part: shapeFields.part.optional(),
  },
  "hull, deckhouse, mast, rigging or part",
).transform((entry, context): WindageShape => {
  const kinds = Object.entries(entry).filter(([, value]) => value !== undefined);
  if (kinds.length !== 1) {
    const given = kinds.length === 0 ? "an empty entry" : kinds.map(([kind]) => kind).join(" and ");
    refuse(context, [], given, "one of hull, deckhouse, mast, rigging or part an entry is expected");
    return z.NEVER;
  }
  const [kind, fields] = kinds[0]!;
  return { kind, ...fields } as WindageShape;
});

const headingRow = group(
  {
    angle: quantity("angle", "zeroOrMore", half, "180 deg"),
    along: plainNumber("any"),
    across: plainNumber("zeroOrMore"),
  },
  "a group of angle, along and across",
);

const windage = group(
  {
    front: windArea.optional(),
    side: windArea.optional(),
    shapes: list(shape, "a list of shapes").optional(),
    byHeading: list(headingRow, "a list of at least two rows", 2).optional(),
  },
  "front and side, or shapes",
).transform((fields, context): Windage => {
  const { front, side, shapes, byHeading } = fields;
  rising(byHeading, context);
  const heading = byHeading === undefined ? {} : { byHeading };
  if (shapes !== undefined && front === undefined && side === undefined) return { kind: "shapes", shapes, ...heading };
  if (shapes === undefined && front !== undefined && side !== undefined)
    return { kind: "areas", front, side, ...heading };
  const given = Object.entries({ front, side, shapes }).filter(([, value]) => value !== undefined);
  refuse(context, [], given.map(([name]) => name).join(" and "), "either front and side, or shapes is expected");
  return z.NEVER;
});

const measuredPoint = group(
  {
    wind: quantity("speed"),
    windHeight: length().optional(),
    load: quantity("force"),
    peak: quantity("force").optional(),
    at: word(["anchor", "bow", "horizontal"]),
    uncertainty: group(
      {
        wind: quantity("speed", "zeroOrMore").optional(),
        load: quantity("force").optional(),
        peak: quantity("force").optional(),
      },
      "a group of wind, load and peak",
    ).optional(),
  },
  "a group with wind, load and at",
).transform((fields, context): MeasuredPoint => {
  const { uncertainty = {}, ...point } = fields;
  if (point.peak !== undefined && point.peak < point.load) {
    refuse(context, ["peak"], `a peak below the mean load`, "a peak at least as large as load is expected");
  }
  return defined({ ...point, uncertainty: defined(uncertainty) }) as MeasuredPoint;
});

const boatSchema = group(
  {
    format: z.any().superRefine((value, context) => {
      if (value !== BOAT_FORMAT) refuse(context, [], quoted(value), `${BOAT_FORMAT} is expected`);
    }),
    name: line(),
    length: quantity("length", "positive", 500, "500 m"),
    waterline: length().optional(),
    beam: length(),
    draught: length(),
    bodyDraught: length().optional(),
    displacement: quantity("mass"),
    bowRollerHeight: height(),
    windage: windage.optional(),
    engineThrust: quantity("force").optional(),
    veering: group(
      { amplitude: quantity("angle", "positive", half / 2, "90 deg"), period: quantity("time") },
      "a group of amplitude and period",
    ).optional(),
    measured: list(measuredPoint, "a list of measured points").optional(),
    uncertainty: group(
      {
        area: share(),
        drag: share(),
        current: share(),
        exponent: plainNumber("zeroOrMore", 1).optional(),
        engineThrust: quantity("force", "zeroOrMore").optional(),
      },
      "a group of area, drag, current, exponent and engineThrust",
    ).optional(),
  },
  "a boat file",
).transform((fields, context): Boat => {
  const { format: _, measured = [], uncertainty = {}, ...rest } = fields;
  const boat = defined({ ...rest, measured, uncertainty: defined(uncertainty) }) as Boat;
  fits(boat, context);
  return boat;
});

/**
 * Reads a boat file.
 * @param place the file's name, for errors
 * @throws InputError, one line, when anything in it is wrong, unknown or missing
 */
export function readBoat(text: string, place: string): Boat {
  return readFields(text, place, boatSchema);
}

function upright<Fields extends z.ZodType<{ foot: number; top: number }>>(fields: Fields) {
  return fields.superRefine((value, context) => {
    if (value.top <= value.foot) refuse(context, ["top"], "a top at or below the foot", "a top above foot is expected");
  });
}

function rising(rows: readonly HeadingShare[] | undefined, context: z.core.$RefinementCtx): void {
  rows?.forEach((row, i) => {
    if (i > 0 && row.angle <= rows[i - 1]!.angle) {
      refuse(
        context,
        ["byHeading", i, "angle"],
        "an angle at or below the one before",
        "angles rising from row to row are expected",
      );
    }
  });
}

/** Of two lengths, m, that the first is the larger: as they were understood, since a mistaken unit shows in that. */
const more = (given: number, most: number): string => `${round(given)} m, more than ${round(most)} m`;
const round = (metres: number): number => Number(metres.toPrecision(4));

/** A hull must fit its own numbers: this is where a mistaken unit shows. */
function fits(boat: Boat, context: z.core.$RefinementCtx): void {
  const { length: l, beam, draught, waterline = l, bodyDraught = draught } = boat;
  if (beam > l) refuse(context, ["beam"], more(beam, l), "a beam within the boat's length is expected");
  if (waterline > l)
    refuse(context, ["waterline"], more(waterline, l), "a waterline within the boat's length is expected");
  if (bodyDraught > draught)
    refuse(context, ["bodyDraught"], more(bodyDraught, draught), "a bodyDraught within the boat's draught is expected");
  if (boat.displacement / SEA_WATER_DENSITY > waterline * beam * draught) {
    refuse(
      context,
      ["displacement"],
      "more than a block of waterline × beam × draught displaces",
      "a displacement that fits those lengths is expected",
    );
  }
}

/** Without the fields that are undefined. */
function defined<Fields extends object>(fields: Fields): Fields {
  return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined)) as Fields;
}

/** The shape of a boat file as JSON Schema (draft 2020-12): its fields; what they may hold is checked when it is read. */
export function boatFileSchema(): Record<string, unknown> {
  return z.toJSONSchema(boatSchema, { io: "input", unrepresentable: "any" }) as Record<string, unknown>;
}
