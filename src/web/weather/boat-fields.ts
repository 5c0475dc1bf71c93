/**
 * A boat as fields of an address, and what of such a text is a boat. SI, but the angles in degrees, as people write them:
 * `boat=Marsh Tern`, `hull=11.6*3.7*1.75*7600*1.35` (length, beam, draught, mass, roller), `points=…`.
 */
import type { Boat, BoatUncertainty, LoadEnd, MeasuredPoint, Shape, WindArea, Windage } from "../../sea/index.ts";
import type { Fields } from "../state/address.ts";
import { misfit } from "./boat.ts";

const MOST = 100;

export const short = (value: number): string => String(Number(value.toPrecision(9)));

/** A number within bounds, or null. */
export function within(text: string | undefined, least: number, most: number): number | null {
  if (text === undefined || text.trim() === "") return null;
  const value = Number(text);
  return value >= least && value <= most ? value : null;
}

export function boatFields(boat: Boat): Fields {
  const { waterline, bodyDraught, engineThrust, veering, windage, measured, uncertainty } = boat;
  return {
    boat: boat.name,
    hull: [boat.length, boat.beam, boat.draught, boat.displacement, boat.bowRollerHeight].map(short).join("*"),
    ...(waterline === undefined ? {} : { waterline: short(waterline) }),
    ...(bodyDraught === undefined ? {} : { body: short(bodyDraught) }),
    ...(engineThrust === undefined ? {} : { thrust: short(engineThrust) }),
    ...(veering === undefined
      ? {}
      : { swing: `${short((veering.amplitude * 180) / Math.PI)}*${short(veering.period)}` }),
    ...(windage === undefined ? {} : { windage: JSON.stringify(windage) }),
    ...(measured.length === 0 ? {} : { points: measured.map(pointText).join("~") }),
    ...(Object.keys(uncertainty).length === 0 ? {} : { "u-boat": JSON.stringify(uncertainty) }),
  };
}

function pointText({ wind, load, peak, at, windHeight, uncertainty: u }: MeasuredPoint): string {
  const numbers = [wind, u.wind, load, u.load, peak, u.peak, windHeight];
  return [at, ...numbers.map((one) => (one === undefined ? "" : short(one)))].join("*").replace(/\*+$/, "");
}

/** @returns null when the fields hold no boat, or one that cannot be */
export function boatOfFields(fields: Fields): Boat | null {
  const [length, beam, draught, displacement, roller] = (fields.hull ?? "").split("*");
  const size = (text: string | undefined, most: number) => within(text, 1e-3, most);
  const main = {
    length: size(length, 500),
    beam: size(beam, 500),
    draught: size(draught, 100),
    displacement: size(displacement, 1e9),
    bowRollerHeight: within(roller, 0, 100),
  };
  if (Object.values(main).some((one) => one === null)) return null;
  const windage = windageOf(fields.windage);
  const [angle, period] = (fields.swing ?? "").split("*");
  const [amplitude, time] = [within(angle, 0.1, 90), within(period, 0.1, 1e5)];
  const boat = {
    name: (fields.boat ?? "boat").slice(0, 200),
    ...(main as { [K in keyof typeof main]: number }),
    ...put("waterline", size(fields.waterline, 500)),
    ...put("bodyDraught", size(fields.body, 100)),
    ...put("engineThrust", size(fields.thrust, 1e9)),
    ...(amplitude === null || time === null
      ? {}
      : { veering: { amplitude: (amplitude * Math.PI) / 180, period: time } }),
    ...(windage === null ? {} : { windage }),
    measured: (fields.points ?? "").split("~").slice(0, MOST).flatMap(pointOf),
    uncertainty: uncertaintyOf(fields["u-boat"]),
  };
  return misfit(boat) === null ? boat : null;
}

function put<K extends string>(name: K, value: number | null): { readonly [k in K]?: number } {
  return (value === null ? {} : { [name]: value }) as { readonly [k in K]?: number };
}

const ends: readonly LoadEnd[] = ["anchor", "bow", "horizontal"];

function pointOf(text: string): MeasuredPoint[] {
  const [end, ...numbers] = text.split("*");
  const at = ends.find((one) => one === end);
  const number = (i: number): number | null => within(numbers[i], 1e-9, 1e9);
  const [wind, load] = [number(0), number(2)];
  if (at === undefined || wind === null || load === null || wind > 100) return [];
  return [
    {
      wind,
      load,
      at,
      ...put("peak", number(4)),
      ...put("windHeight", number(6)),
      uncertainty: { ...put("wind", number(1)), ...put("load", number(3)), ...put("peak", number(5)) },
    },
  ];
}

type Loose = Readonly<Record<string, unknown>>;

function loose(text: string | undefined): Loose | null {
  try {
    const read: unknown = JSON.parse(text ?? "");
    return typeof read === "object" && read !== null ? (read as Loose) : null;
  } catch {
    return null;
  }
}

const bounded = (value: unknown, least: number, most: number): number | null =>
  typeof value === "number" && value >= least && value <= most ? value : null;

function uncertaintyOf(text: string | undefined): BoatUncertainty {
  const read = loose(text) ?? {};
  return {
    ...put("area", bounded(read.area, 0, 2)),
    ...put("drag", bounded(read.drag, 0, 2)),
    ...put("current", bounded(read.current, 0, 2)),
    ...put("exponent", bounded(read.exponent, 0, 1)),
    ...put("engineThrust", bounded(read.engineThrust, 0, 1e9)),
  };
}

function windageOf(text: string | undefined): Windage | null {
  const read = loose(text);
  if (read === null) return null;
  const byHeading = headingOf(read.byHeading);
  const heading = byHeading === null ? {} : { byHeading };
  if (read.kind === "areas") {
    const [front, side] = [areaOf(read.front), areaOf(read.side)];
    return front === null || side === null ? null : { kind: "areas", front, side, ...heading };
  }
  if (read.kind !== "shapes" || !Array.isArray(read.shapes)) return null;
  const shapes = (read.shapes as unknown[]).slice(0, MOST).map(shapeOf);
  if (shapes.length === 0 || shapes.includes(null)) return null;
  return { kind: "shapes", shapes: shapes as Shape[], ...heading };
}

function headingOf(read: unknown): { angle: number; along: number; across: number }[] | null {
  if (!Array.isArray(read) || read.length < 2) return null;
  const rows = (read as unknown[]).slice(0, MOST).map((row) => {
    const { angle, along, across } = (row ?? {}) as Loose;
    return {
      angle: bounded(angle, 0, Math.PI),
      along: bounded(along, -100, 100),
      across: bounded(across, 0, 100),
    };
  });
  const whole = rows.every(
    (row, i) =>
      row.angle !== null &&
      row.along !== null &&
      row.across !== null &&
      (i === 0 || row.angle > (rows[i - 1]!.angle ?? 0)),
  );
  return whole ? (rows as { angle: number; along: number; across: number }[]) : null;
}

function areaOf(read: unknown): WindArea | null {
  const { area, drag, height } = (read ?? {}) as Loose;
  const numbers = [bounded(area, 0, 1e5), bounded(drag, 1e-6, 5), bounded(height, 0, 300)] as const;
  const [a, d, h] = numbers;
  return a === null || d === null || h === null ? null : { area: a, drag: d, height: h };
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

function shapeOf(read: unknown): Shape | null {
  const from = (read ?? {}) as Loose;
  const kind = (Object.keys(needed) as (keyof typeof needed)[]).find((one) => one === from.kind);
  if (kind === undefined) return null;
  const may: readonly string[] = optional;
  const must: readonly string[] = needed[kind];
  // In the order they stand in, so that an address read and written again is the same.
  const fields: Record<string, number | string> = {};
  for (const name of Object.keys(from)) {
    if (name === "name" && kind === "part") fields.name = String(from.name).slice(0, 200);
    if (!may.includes(name) && !must.includes(name)) continue;
    const least = name === "foot" || name === "front" || name === "side" ? 0 : 1e-6;
    const value = bounded(from[name], least, name === "drag" || name === "sideDrag" ? 5 : 1e4);
    if (value !== null) fields[name] = value;
  }
  if (must.some((name) => fields[name] === undefined)) return null;
  if (kind === "part") fields.name ??= "part";
  return { kind, ...fields } as unknown as Shape;
}
