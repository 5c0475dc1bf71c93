/**
 * A boat as fields of an address, and what of such a text is a boat. SI, but the angles in degrees, as people write them:
 * `boat=Marsh Tern`, `hull=11.6*3.7*1.75*7600*1.35` (length, beam, draught, mass, roller), `points=…`.
 */
import { DEGREES } from "../../../quantity/index.ts";
import type { Boat, BoatUncertainty, LoadEnd, MeasuredPoint } from "../../../sea/index.ts";
import type { FieldReader, Fields } from "../../state/fields.ts";
import { misfit } from "./boat.ts";
import { loose, readWindageField } from "./windage-fields.ts";

/** As in a boat file. */
const MOST_POINTS = 1000;

export const short = (value: number): string => String(Number(value.toPrecision(9)));

export function boatFields(boat: Boat): Fields {
  const { waterline, bodyDraught, engineThrust, veering, windage, measured, uncertainty } = boat;
  return {
    boat: boat.name,
    hull: [boat.length, boat.beam, boat.draught, boat.displacement, boat.bowRollerHeight].map(short).join("*"),
    ...(waterline === undefined ? {} : { waterline: short(waterline) }),
    ...(bodyDraught === undefined ? {} : { body: short(bodyDraught) }),
    ...(engineThrust === undefined ? {} : { thrust: short(engineThrust) }),
    ...(veering === undefined ? {} : { swing: `${short(veering.amplitude * DEGREES)}*${short(veering.period)}` }),
    ...(windage === undefined ? {} : { windage: JSON.stringify(windage) }),
    ...(measured.length === 0 ? {} : { points: measured.map(pointText).join("~") }),
    ...(Object.keys(uncertainty).length === 0 ? {} : { "u-boat": JSON.stringify(uncertainty) }),
  };
}

function pointText({ wind, load, peak, at, windHeight, uncertainty: u }: MeasuredPoint): string {
  const numbers = [wind, u.wind, load, u.load, peak, u.peak, windHeight];
  return [at, ...numbers.map((one) => (one === undefined ? "" : short(one)))].join("*").replace(/\*+$/, "");
}

/** The boat of fields; what cannot be is refused by name. */
export function readBoatFields(fields: FieldReader): Boat {
  const [length, beam, draught, displacement, roller] = (fields.text("hull") ?? "").split("*");
  const before = fields.problems.length;
  const size = (what: string, text: string | undefined, most: number): number =>
    fields.within(`hull, ${what}`, text, 1e-3, most);
  const optional = <K extends string>(name: K, field: string, most: number): { readonly [k in K]?: number } =>
    (fields.has(field) ? { [name]: fields.number(field, 1e-3, most) } : {}) as { readonly [k in K]?: number };
  const [angle, period] = (fields.text("swing") ?? "").split("*");
  const boat = {
    name: fields.nameOr("boat", "boat"),
    length: size("length", length, 500),
    beam: size("beam", beam, 500),
    draught: size("draught", draught, 500),
    displacement: size("displacement", displacement, 1e9),
    bowRollerHeight: fields.within("hull, height of the bow roller", roller, 0, 1000),
    ...optional("waterline", "waterline", 500),
    ...optional("bodyDraught", "body", 500),
    ...optional("engineThrust", "thrust", 1e9),
    ...(fields.has("swing")
      ? {
          veering: {
            amplitude: (fields.within("swing", angle, 1e-3, 90) * Math.PI) / 180,
            period: fields.within("swing", period, 1e-3, 1e6),
          },
        }
      : {}),
    ...(fields.has("windage") ? { windage: readWindageField(fields) } : {}),
    measured: pointsOf(fields),
    uncertainty: uncertaintyOf(fields),
  };
  const wrong = fields.problems.length === before ? misfit(boat) : null;
  if (wrong !== null) {
    const [field, rest = ""] = wrong.split(/: (.*)/s);
    const [given, expected = ""] = rest.split("; ");
    fields.refuseAs(field!, given ?? "", expected);
  }
  return boat;
}

const ends: readonly LoadEnd[] = ["anchor", "bow", "horizontal"];

function pointsOf(fields: FieldReader): MeasuredPoint[] {
  const text = fields.text("points") ?? "";
  const points = text === "" ? [] : text.split("~");
  if (points.length > MOST_POINTS) {
    fields.refuseAs("points", `${points.length} points`, `at most ${MOST_POINTS} points are expected`);
    return [];
  }
  return points.map((point, i) => pointOf(fields, point, `points, point ${i + 1}`));
}

function pointOf(fields: FieldReader, text: string, place: string): MeasuredPoint {
  const [end, wind, windU, load, loadU, peak, peakU, windHeight] = text.split("*");
  const must = (given: string | undefined, most = 1e9): number => fields.within(place, given, 1e-9, most);
  const may = <K extends string>(name: K, given: string | undefined, least = 1e-9): { readonly [k in K]?: number } =>
    (given === undefined || given === "" ? {} : { [name]: fields.within(place, given, least, 1e9) }) as {
      readonly [k in K]?: number;
    };
  return {
    wind: must(wind, 150),
    load: must(load),
    at: fields.wordOr(place, ends, "bow", end),
    ...may("peak", peak),
    ...may("windHeight", windHeight),
    uncertainty: { ...may("wind", windU, 0), ...may("load", loadU), ...may("peak", peakU) },
  };
}

const uncertain = { area: 2, drag: 2, current: 2, exponent: 1, engineThrust: 1e9 } as const;

function uncertaintyOf(fields: FieldReader): BoatUncertainty {
  const text = fields.text("u-boat");
  if (text === undefined) return {};
  const read = loose(text);
  if (read === null) fields.refuse("u-boat", text, "uncertainties written out as JSON are expected");
  const known: Record<string, number> = {};
  for (const [name, value] of Object.entries(read ?? {})) {
    const most = uncertain[name as keyof typeof uncertain];
    if (most === undefined)
      fields.refuse(`u-boat, ${name}`, String(value), `one of ${Object.keys(uncertain).join(", ")} is expected`);
    else known[name] = fields.within(`u-boat, ${name}`, String(value), 0, most);
  }
  return known;
}
