/** What stands where in a series file, `rodebench/series@1`. Names and shape only; quantities are read where it becomes a series. */
import * as z from "zod";
import { SERIES_FORMAT } from "../study/index.ts";
import { CONSTITUENTS } from "./constituents.ts";
import { QUESTIONS } from "./series.ts";

function quantity(what: string, example: string) {
  return z.union([z.string(), z.number()], { error: `${what} is expected, such as "${example}"` });
}

function text(what: string) {
  const expected = `${what} is expected, in at most 200 characters`;
  return z.string({ error: expected }).min(1, { error: expected }).max(200, { error: expected });
}

function some<T extends z.ZodType>(one: T, what: string, most: number) {
  const expected = `a list of 1 to ${most} ${what} is expected`;
  return z.array(one, { error: expected }).min(1, { error: expected }).max(most, { error: expected });
}

function whole(what: string, least: number, most: number) {
  const expected = `${what}, a whole number from ${least} to ${most}, is expected`;
  return z.int({ error: expected }).min(least, { error: expected }).max(most, { error: expected });
}

const moment = text('a time with its zone, such as "2026-06-02T05:10Z",');

const turn = z.strictObject({ at: moment, level: quantity("a level", "4.2 m") });
const tide = z.strictObject(
  {
    turns: z.array(turn, { error: "a list of high and low waters is expected" }).max(2000).optional(),
    mean: quantity("a level", "2.1 m").optional(),
    constituents: z
      .record(
        z.string(),
        z.tuple([quantity("an amplitude", "1.2 m"), quantity("a phase lag (Greenwich)", "45 deg")], {
          error: 'an amplitude and a phase lag are expected, such as ["1.2 m", "45 deg"]',
        }),
        { error: `constituents by name are expected: ${CONSTITUENTS.join(", ")}` },
      )
      .optional(),
  },
  { error: "high and low waters (turns), or constituents, are expected" },
);

const question = z.strictObject({
  kind: z.enum(QUESTIONS, { error: `one of ${QUESTIONS.join(", ")} is expected` }),
  tell: z.number({ error: "a number is expected" }).optional(),
  angles: some(quantity("an angle", "6 deg"), "angles", 20),
  loads: some(quantity("a force", "1.5 kN"), "loads", 30),
});

const boat = z.strictObject({
  name: text("a name").optional(),
  length: quantity("a length", "11.6 m").optional(),
  draught: quantity("a length", "1.75 m"),
  rollerHeight: quantity("a length", "1.35 m"),
  thrust: some(
    z.strictObject({ speed: quantity("an engine speed", "1800 rpm"), load: quantity("a force", "2 kN") }),
    "points of thrust",
    50,
  ),
});

const site = z.strictObject({
  name: text("a name"),
  depth: z.tuple([quantity("a depth", "4 m"), quantity("a depth", "9 m")], {
    error: 'the least and the greatest depth are expected, such as ["4 m", "9 m"]',
  }),
  seabed: text("a seabed").optional(),
  room: quantity("a length", "60 m").optional(),
  bottomSlope: quantity("an angle", "2 deg").optional(),
  bottomFriction: z.number({ error: "a number is expected" }).min(0).max(3).optional(),
  waterDensity: quantity("a density", "1025 kg/m3").optional(),
  tide: tide.optional(),
});

const day = z.strictObject({
  date: text('a date, such as "2026-06-02",'),
  site: text("the name of a site"),
  from: text('an hour, such as "08:30",'),
  to: text('an hour, such as "15:00",'),
  zone: text('an offset from UT, such as "+02:00",').optional(),
});

const pulls = z.strictObject({
  repeats: whole("how often each is pulled", 1, 200).optional(),
  hold: quantity("a time", "60 s").optional(),
  heldFor: quantity("a time", "30 s").optional(),
  heldWithin: quantity("a length", "0.5 m").optional(),
  each: quantity("a time", "25 min").optional(),
  change: quantity("a time", "10 min").optional(),
});

export const seriesShape = z.strictObject(
  {
    format: z.literal(SERIES_FORMAT, { error: `${SERIES_FORMAT} is expected` }),
    name: text("a name").optional(),
    note: z.string({ error: "text is expected" }).max(4000).optional(),
    question,
    anchors: some(
      z.strictObject({ name: text("a name"), mass: quantity("a mass", "15 kg").optional() }),
      "anchors",
      50,
    ),
    boat,
    rodes: some(
      z.strictObject({ name: text("a name"), rode: z.array(z.unknown(), { error: "a list of parts is expected" }) }),
      "rodes",
      20,
    ),
    sites: some(site, "sites", 50),
    days: z.array(day, { error: "a list of days is expected" }).max(200).optional(),
    pulls: pulls.optional(),
    gauge: quantity("a standard uncertainty of an angle", "0.5 deg").optional(),
    limits: z
      .strictObject({
        workingLoad: quantity("a share", "100 %").optional(),
        underKeel: quantity("a length", "0.5 m").optional(),
      })
      .optional(),
    order: z
      .strictObject({
        seed: whole("a seed", 0, 2 ** 32).optional(),
        changes: z.enum(["few", "free"], { error: "few or free is expected" }).optional(),
      })
      .optional(),
    book: text("the path of a table of pulls").optional(),
  },
  { error: "a series, a group of fields, is expected" },
);

export type SeriesFields = z.output<typeof seriesShape>;

/** The shape as JSON Schema (draft 2020-12), for editors and other programs. */
export function seriesFileSchema(): Record<string, unknown> {
  return z.toJSONSchema(seriesShape, { io: "input", unrepresentable: "any" }) as Record<string, unknown>;
}
