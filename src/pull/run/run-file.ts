/** The run file `rodebench/run@1`: what a tester read on a rig, in the tester's own units, as SI. */
import * as z from "zod";
import {
  checkShape,
  type Dimension,
  fromUnit,
  InputError,
  nth,
  parseQuantity,
  quoted,
  readDocument,
} from "../../quantity/index.ts";
import { type Rig, rigFrom } from "../../rode/index.ts";

/** Format of a run file. */
export const RUN_FORMAT = "rodebench/run@1";
/** More rows than anyone writes by hand; logs are another matter. */
const MOST_ROWS = 10_000;

/** One row of readings, SI and radians. */
export interface Reading {
  /** N, at the end the cell sits at. */
  readonly load: number;
  /** Angle of the pull above the horizontal at the gauge, rad; absent where only the load was noted. */
  readonly angle?: number;
  /** The anchor end was seen to come level, or to leave the bottom, at this load. */
  readonly liftoff: boolean;
}

/** One row of a release, SI. */
export interface Release {
  /** N */
  readonly load: number;
  /** Movement of the loaded end since the first row, m. */
  readonly movement: number;
}

/** Standard uncertainties of one reading, and what is known of the gauge and the rig. */
export interface RunUncertainty {
  /** N, rad, m; 0 where none is stated. */
  readonly load: number;
  readonly angle: number;
  readonly movement: number;
  /** Standard uncertainty of the angle gauge's zero, rad. */
  readonly gaugeZero: number;
  /** Standard uncertainty of the first movement, from which all are counted, m; absent: that of any other; 0: a fixed stop. */
  readonly tapeZero?: number;
}

/** What a tester read on a rig, SI and radians. */
export interface Run {
  readonly name: string;
  readonly loadCellAt: "anchor" | "bow";
  readonly angleAt: "anchor" | "bow";
  readonly uncertainty: RunUncertainty;
  readonly readings: readonly Reading[];
  readonly release: readonly Release[];
}

/** A run together with what its `rig` field holds: the rig itself, or the path of its file beside the run's. */
export interface RunFile {
  readonly run: Run;
  readonly rig: { readonly kind: "within"; readonly rig: Rig } | { readonly kind: "path"; readonly path: string };
}

const number = (what: string) =>
  z.union([z.number(), z.string()], { error: `${what} is expected, as a number in the run's unit or with a unit` });
const quantity = (what: string, example: string) =>
  z.union([z.string(), z.number()], { error: `${what} is expected, such as "${example}"` }).optional();
const unit = (example: string) =>
  z
    .string({ error: `a unit is expected, such as ${example}` })
    .max(20)
    .optional();

const shape = z.strictObject({
  format: z.literal(RUN_FORMAT, { error: `${RUN_FORMAT} is expected` }),
  name: z.string().min(1).max(200).optional(),
  note: z.string().max(4000).optional(),
  rig: z.union([z.string().min(1).max(1000), z.record(z.string(), z.unknown())], {
    error: "the path of a rig file, or a rig, is expected",
  }),
  loadCellAt: z.enum(["anchor", "bow"], { error: "anchor or bow is expected" }),
  angleAt: z.enum(["anchor", "bow"], { error: "anchor or bow is expected" }).optional(),
  units: z.strictObject({ load: unit("lbf"), angle: unit("deg"), movement: unit("in") }).optional(),
  uncertainty: z
    .strictObject({
      load: quantity("a force", "5 lbf"),
      angle: quantity("an angle", "0.5 deg"),
      movement: quantity("a length", "0.25 in"),
      gaugeZero: quantity("an angle", "0.5 deg"),
      tapeZero: quantity("a length", "0.25 in"),
    })
    .optional(),
  readings: z
    .array(
      z.strictObject({
        load: number("a load"),
        angle: number("an angle").optional(),
        event: z.enum(["liftoff"], { error: "liftoff is expected" }).optional(),
      }),
      { error: "a list of readings is expected" },
    )
    .max(MOST_ROWS, { error: `at most ${MOST_ROWS} rows are expected` })
    .optional(),
  release: z
    .array(z.strictObject({ load: number("a load"), movement: number("a movement") }), {
      error: "a list of rows is expected",
    })
    .max(MOST_ROWS, { error: `at most ${MOST_ROWS} rows are expected` })
    .optional(),
});

/**
 * Reads a run file.
 * @param place the file's name, with which every error begins
 * @throws InputError of one line: file, field, what stands there, what was expected
 */
export function readRun(text: string, place: string): RunFile {
  const file = checkShape(readDocument(text, place), shape, place);
  const at = (field: string) => `${place}: ${field}`;
  const units = {
    load: file.units?.load ?? "N",
    angle: file.units?.angle ?? "deg",
    movement: file.units?.movement ?? "m",
  };
  fromUnit(0, units.load, "force", at("units.load"));
  fromUnit(0, units.angle, "angle", at("units.angle"));
  fromUnit(0, units.movement, "length", at("units.movement"));
  const read = (value: number | string, column: keyof typeof units, field: string): number => {
    const dimension: Dimension = { load: "force", angle: "angle", movement: "length" }[column] as Dimension;
    if (typeof value === "string") return parseQuantity(value, dimension, at(field));
    return fromUnit(value, units[column], dimension, at(field));
  };
  const load = (value: number | string, field: string): number => {
    const newtons = read(value, "load", field);
    if (!(newtons > 0) || newtons > 1e9)
      throw new InputError(at(field), quoted(value), "a load above zero, below 1 GN, is expected");
    return newtons;
  };
  const readings = (file.readings ?? []).map((row, i): Reading => {
    const angle = row.angle === undefined ? undefined : read(row.angle, "angle", `readings${nth(i)}.angle`);
    if (angle !== undefined && !(Math.abs(angle) < Math.PI / 2)) {
      throw new InputError(
        at(`readings${nth(i)}.angle`),
        quoted(row.angle),
        "an angle between -90 and 90 deg is expected",
      );
    }
    if (angle === undefined && row.event === undefined)
      throw new InputError(
        at(`readings${nth(i)}`),
        "a load alone",
        "an angle, or the event liftoff, is expected with it",
      );
    return {
      load: load(row.load, `readings${nth(i)}.load`),
      liftoff: row.event === "liftoff",
      ...(angle === undefined ? {} : { angle }),
    };
  });
  const release = (file.release ?? []).map((row, i): Release => {
    const movement = read(row.movement, "movement", `release${nth(i)}.movement`);
    if (!(Math.abs(movement) <= 1e5))
      throw new InputError(
        at(`release${nth(i)}.movement`),
        quoted(row.movement),
        "a movement of at most 100 km is expected",
      );
    return { load: load(row.load, `release${nth(i)}.load`), movement };
  });
  if (readings.length === 0 && release.length === 0)
    throw new InputError(at("readings"), "", "readings, a release, or both are expected");
  if (readings.length === 0 && release.length === 1)
    throw new InputError(at("release"), "one row", "a row after the first, or readings, are expected");
  if (release.length > 0 && release[0]!.movement !== 0) {
    throw new InputError(
      at("release #1.movement"),
      quoted(file.release![0]!.movement),
      "0 is expected: movement counts from the first row",
    );
  }
  return {
    run: {
      name: file.name ?? "run",
      loadCellAt: file.loadCellAt,
      angleAt: file.angleAt ?? "anchor",
      uncertainty: readUncertainty(file.uncertainty ?? {}, at),
      readings,
      release,
    },
    rig:
      typeof file.rig === "string"
        ? { kind: "path", path: file.rig }
        : { kind: "within", rig: rigFrom(file.rig, at("rig")) },
  };
}

function readUncertainty(
  given: {
    load?: string | number | undefined;
    angle?: string | number | undefined;
    movement?: string | number | undefined;
    gaugeZero?: string | number | undefined;
    tapeZero?: string | number | undefined;
  },
  at: (field: string) => string,
): RunUncertainty {
  const read = (field: keyof typeof given, dimension: Dimension): number => {
    const value = given[field];
    if (value === undefined) return 0;
    const u = parseQuantity(value, dimension, at(`uncertainty.${field}`));
    if (!(u > 0))
      throw new InputError(at(`uncertainty.${field}`), quoted(value), "a standard uncertainty above zero is expected");
    return u;
  };
  return {
    load: read("load", "force"),
    angle: read("angle", "angle"),
    movement: read("movement", "length"),
    gaugeZero: read("gaugeZero", "angle"),
    ...(given.tapeZero === undefined ? {} : { tapeZero: readTapeZero(given.tapeZero, at("uncertainty.tapeZero")) }),
  };
}

/** Movement may be counted from a fixed stop, which has no error of its own. */
function readTapeZero(given: string | number, place: string): number {
  const u = parseQuantity(given, "length", place);
  if (!(u >= 0)) throw new InputError(place, quoted(given), "a standard uncertainty, not below zero, is expected");
  return u;
}

/** The shape of a run file as JSON Schema (draft 2020-12), for editors and other programs. */
export function runFileSchema(): Record<string, unknown> {
  return z.toJSONSchema(shape, { io: "input", unrepresentable: "any" }) as Record<string, unknown>;
}
