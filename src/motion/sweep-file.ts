/** The sweep file `rodebench/sweep@1`, YAML or JSON, with the rigs and boats it names, as a sweep. */
import * as z from "zod";
import { checkShape, InputError, nth, parseQuantity, quoted, readDocument } from "../quantity/index.ts";
import { readRig, rigFrom } from "../rode/index.ts";
import { readBoat, readSea } from "../sea/index.ts";
import {
  afloat,
  checkRideCost,
  depthOf,
  GUSTS,
  readHours,
  readMeanWind,
  readRideCurrent,
  readWindShifts,
  withWindage,
} from "./ride-inputs.ts";
import { SWEEP_FORMAT, type Sweep, type SweepWeather, sweepRides } from "./sweep.ts";

const MOST_LISTED = 1000;
/** Rides of one file: years of a machine's time. */
const MOST_RIDES = 10_000_000;
const LAST_SEED = 2 ** 31;

const quantity = (what: string, example: string) =>
  z.union([z.string(), z.number()], { error: `${what} is expected, such as "${example}"` });
const text = (what: string) =>
  z
    .string({ error: `${what} is expected` })
    .min(1, { error: `${what} is expected` })
    .max(200, { error: `${what} of at most 200 characters is expected` });
const listed = <T extends z.ZodType>(one: T, what: string) =>
  z
    .array(one, { error: `a list of ${what} is expected` })
    .min(1, { error: `at least one of the ${what} is expected` })
    .max(MOST_LISTED, { error: `at most ${MOST_LISTED} ${what} are expected` });
const fileOr = (what: string) =>
  z.union([text(`the path of a ${what} file`), z.record(z.string(), z.unknown())], {
    error: `the path of a ${what} file, or a ${what}, is expected`,
  });

const weather = z.strictObject(
  {
    name: text("a name").optional(),
    wind: quantity("a mean wind", "25 kn"),
    gusts: z.enum(GUSTS as [string, ...string[]], { error: `one of ${GUSTS.join(", ")} is expected` }).optional(),
    shifts: z
      .array(text('a change of the wind, such as "20 min, 35 kn, 40 deg",'), {
        error: 'a list is expected, such as ["20 min, 35 kn, 40 deg"]',
      })
      .max(100, { error: "at most 100 changes of the wind are expected" })
      .optional(),
    sea: text('a height and a period, such as "0.6 m, 3 s",').optional(),
    spectrum: z
      .enum(["jonswap", "pierson-moskowitz"], { error: "jonswap or pierson-moskowitz is expected" })
      .optional(),
    current: quantity("a speed", "0.5 kn").optional(),
  },
  { error: 'a weather is expected, such as { wind: 25 kn, sea: "0.6 m, 3 s" }' },
);

const shape = z.strictObject(
  {
    format: z.literal(SWEEP_FORMAT, { error: `${SWEEP_FORMAT} is expected` }),
    name: text("a name").optional(),
    note: z
      .string({ error: "text is expected" })
      .max(4000, { error: "at most 4000 characters are expected" })
      .optional(),
    rigs: listed(fileOr("rig"), "rigs"),
    boats: listed(fileOr("boat"), "boats"),
    weather: listed(weather, "weathers"),
    seeds: z.union([z.string(), z.number()], { error: 'seeds are expected, such as "1..20"' }).optional(),
    hours: z.number({ error: "a number of hours is expected" }).optional(),
    storm: quantity("a time", "3 h").optional(),
    elements: z.number({ error: "a whole number is expected" }).optional(),
  },
  { error: "a sweep, a group of fields, is expected" },
);

/** The shape of a sweep file as JSON Schema (draft 2020-12), for editors and other programs. */
export const sweepFileSchema = () => z.toJSONSchema(shape) as Readonly<Record<string, unknown>>;

/** Files a sweep names, by the path that stands in it: their text, and what errors call them. */
export type SweepFiles = Readonly<Record<string, { readonly text: string; readonly place: string }>>;

const fieldsOf = (file: string, place: string) => checkShape(readDocument(file, place), shape, place);

/** Paths of the files a sweep names, as they stand in it. @throws InputError as `readSweep` does */
export function sweepPaths(file: string, place: string): readonly string[] {
  const { rigs, boats } = fieldsOf(file, place);
  return [...new Set([...rigs, ...boats].filter((one): one is string => typeof one === "string"))];
}

/**
 * Reads a sweep.
 * @param files what `sweepPaths` asks for
 * @throws InputError of one line: file, field, what stands there, what was expected
 */
export function readSweep(file: string, place: string, files: SweepFiles = {}): Sweep {
  const fields = fieldsOf(file, place);
  const at = (field: string): string => `${place}: ${field}`;
  const rigs = fields.rigs.map((one, i) => {
    const field = at(`rigs${nth(i)}`);
    if (typeof one !== "string") return afloat(rigFrom(one, field), field);
    return afloat(readRig(files[one]!.text, files[one]!.place), files[one]!.place);
  });
  const boats = fields.boats.map((one, i) => {
    const field = at(`boats${nth(i)}`);
    if (typeof one !== "string") return withWindage(readBoat(JSON.stringify(one), field), field);
    return withWindage(readBoat(files[one]!.text, files[one]!.place), files[one]!.place);
  });
  refuseTwins(rigs, at("rigs"));
  refuseTwins(boats, at("boats"));
  const shallowest = Math.min(...rigs.map(depthOf));
  const weathers = fields.weather.map((one, i): SweepWeather => {
    const field = (name: string): string => at(`weather${nth(i)}.${name}`);
    return {
      name: one.name ?? [one.wind, one.sea, one.current].filter((part) => part !== undefined).join(", "),
      wind: readMeanWind(one.wind, field("wind")),
      shifts: readWindShifts(one.shifts ?? [], (k) => field(`shifts${nth(k)}`)),
      gusts: (one.gusts ?? "froya") as SweepWeather["gusts"],
      sea: one.sea === undefined ? null : readSea(one.sea, spectrumOf(one.spectrum), shallowest, field("sea")),
      current: one.current === undefined ? null : readRideCurrent(one.current, field("current")),
    };
  });
  refuseTwins(weathers, at("weather"));
  const elements = fields.elements ?? 40;
  if (!(Number.isInteger(elements) && elements >= 5 && elements <= 2000))
    throw new InputError(at("elements"), String(elements), "a whole number from 5 to 2000 is expected");
  const hours = fields.hours ?? 1;
  const duration = readHours(hours, String(hours), at("hours"));
  checkRideCost(duration, elements, at("elements"));
  const storm = parseQuantity(fields.storm ?? "3 h", "time", at("storm"));
  if (!(storm > 0)) throw new InputError(at("storm"), quoted(fields.storm), "a time above zero is expected");
  const sweep = {
    name: fields.name ?? "sweep",
    rigs,
    boats,
    weathers,
    seeds: readSeeds(fields.seeds ?? 1, at("seeds")),
    duration,
    storm,
    elements,
  };
  if (sweepRides(sweep) > MOST_RIDES)
    throw new InputError(place, `${sweepRides(sweep)} rides`, `at most ${MOST_RIDES} are expected`);
  return sweep;
}

const spectrumOf = (name: "jonswap" | "pierson-moskowitz" | undefined) => name ?? "jonswap";

/** `7`, or `1..20`. */
function readSeeds(given: string | number, place: string): Sweep["seeds"] {
  const [first, last, ...rest] = String(given)
    .split("..")
    .map((one) => (one.trim() === "" ? Number.NaN : Number(one)));
  const end = last ?? first!;
  const right = (n: number): boolean => Number.isInteger(n) && n >= 0 && n <= LAST_SEED;
  if (rest.length > 0 || !right(first!) || !right(end) || end < first!)
    throw new InputError(
      place,
      quoted(given),
      'a whole number, or the first and the last such as "1..20", is expected',
    );
  return { first: first!, count: end - first! + 1 };
}

function refuseTwins(all: readonly { readonly name: string }[], place: string): void {
  const seen = new Set<string>();
  for (const { name } of all) {
    if (seen.has(name)) throw new InputError(place, quoted(name), "names that differ are expected");
    seen.add(name);
  }
}
