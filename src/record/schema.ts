import { z } from "zod";
import { type Bounds, bounds } from "./bounds.ts";
import { anchorShapes, endings, loadEnds, pullWays } from "./choices.ts";
import {
  anyRecord,
  choice,
  count,
  day,
  type Field,
  fileText,
  flag,
  formerly,
  json,
  moment,
  number,
  once,
  refer,
  required,
  text,
} from "./field.ts";
import { ID } from "./id.ts";
import { sedimentClasses } from "./sediment.ts";

/** A step of a pull: a load held for a time. */
const step = z.strictObject({
  load_N: z.number().min(0),
  duration_s: z.number().min(0).optional(),
  movement_m: z.number().optional(),
  /** Rode out from here on, where it was veered: until the next that says so. */
  paidOut_m: z.number().positive().optional(),
  remarks: z.string().min(1).max(10_000).optional(),
});

const load = {
  load_N: z.number().min(0),
  u_N: z.number().min(0).optional(),
  /** Rode out when that load was read, where it is not what was out at first. */
  paidOut_m: z.number().positive().optional(),
};

/**
 * What a pull found: the load it gave way at, or the load it held to without giving way. One that never set has a load
 * where one is known that it did not hold.
 */
const result = z.discriminatedUnion("kind", [
  z.strictObject({ kind: z.literal("gaveWay"), ...load }),
  z.strictObject({ kind: z.literal("heldTo"), ...load }),
  z.strictObject({
    kind: z.literal("neverSet"),
    load_N: load.load_N.optional(),
    u_N: load.u_N,
    paidOut_m: load.paidOut_m,
  }),
  z.strictObject({ kind: z.literal("none") }),
]);

/** As it was kept before a load went with what gave way or held. */
const earlierResult = z.strictObject({
  kind: z.enum(["gaveWay", "heldTo", "neverSet", "none"]),
  load_N: z.number().min(0).optional(),
  u_N: z.number().min(0).optional(),
});

/** A channel of a log: its name, what it measures, the SI unit of its numbers, and how finely they are kept. */
export const channel = z.strictObject({
  name: z.string().regex(/^[A-Za-z][\w .:/-]{0,63}$/),
  quantity: z.string().min(1).max(64),
  unit: z.string().max(32),
  precision: z.enum(["single", "double"]),
});
/** A channel of a log. */
export type Channel = z.infer<typeof channel>;

const within = (what: string, { least, most }: Bounds) => number(what, least, most);
const degrees = (what: string, bounded: Bounds) => within(`${what}, in degrees from -360 to 360,`, bounded);
const openObject = z.record(z.string(), z.json());

/** Every kind of record and its fields, in an order in which each kind comes after those it points to. */
export const kinds = {
  about: { title: required(text("a title")), description: text(), simulated: flag("true or false") },
  site: {
    name: required(text("a name")),
    latitude_deg: within("a latitude from -90 to 90", bounds.site.latitude_deg),
    longitude_deg: within("a longitude from -180 to 180", bounds.site.longitude_deg),
    description: text(),
  },
  seabed: {
    site: refer("site"),
    name: required(text("a name")),
    grain: choice(sedimentClasses.map((c) => c.code)),
    description: text(),
    sampleNotes: text(),
  },
  anchor: {
    name: required(text("a name")),
    shape: required(choice(anchorShapes)),
    mass_kg: within("a mass in kg, more than 0,", bounds.anchor.mass_kg),
    flukeArea_m2: within("an area in m², more than 0,", bounds.anchor.flukeArea_m2),
    make: text("the maker in your own words"),
    description: text(),
  },
  boat: { name: required(text("a name")), file: fileText("the text of a boat file"), description: text() },
  rig: { name: required(text("a name")), description: text() },
  rigVersion: {
    rig: required(once(refer("rig"))),
    file: required(once(fileText("the text of a rig file"))),
    reason: text(),
  },
  series: {
    name: required(text("a name")),
    question: text(),
    protocol: text(),
    heldFor_s: within("a time in s, above 0,", bounds.series.heldFor_s),
    heldWithin_m: within("a length in m, above 0,", bounds.series.heldWithin_m),
  },
  day: {
    date: required(day()),
    site: refer("site"),
    boat: refer("boat"),
    testers: text("who was there"),
    weather: text(),
    wind_m_per_s: within("a speed in m/s, 0 or more,", bounds.day.wind_m_per_s),
    gust_m_per_s: within("a speed in m/s, 0 or more,", bounds.day.gust_m_per_s),
    windFrom_deg: degrees("a direction", bounds.day.windFrom_deg),
    tide: text(),
    waterLevel_m: within("a level in m", bounds.day.waterLevel_m),
  },
  pull: {
    day: refer("day"),
    series: refer("series"),
    anchor: refer("anchor"),
    seabed: refer("seabed"),
    rigVersion: refer("rigVersion"),
    number: count("a whole number, 0 or more,", bounds.pull.number),
    startedAt: moment(),
    depth_m: within("a depth in m, 0 or more,", bounds.pull.depth_m),
    scope: within("a scope of 1 or more", bounds.pull.scope),
    paidOut_m: within("a length in m, above 0,", bounds.pull.paidOut_m),
    heading_deg: degrees("a heading", bounds.pull.heading_deg),
    loadAt: choice(loadEnds),
    /** The hold rule: before that of its series. */
    heldFor_s: within("a time in s, above 0,", bounds.pull.heldFor_s),
    heldWithin_m: within("a length in m, above 0,", bounds.pull.heldWithin_m),
    /** The cell: true load for each newton read above `tare_N`; what it truly carries while the rode is slack. */
    calibration: within("a factor from 0.1 to 10, such as 1.02,", bounds.pull.calibration),
    tare_N: within("a load in N", bounds.pull.tare_N),
    slackLoad_N: within("a load in N", bounds.pull.slackLoad_N),
    /** How the boat pulled, and where the anchor lay. */
    pulls: choice(pullWays),
    bearing_deg: degrees("the bearing of the boat from the anchor", bounds.pull.bearing_deg),
    anchorLatitude_deg: within("a latitude from -90 to 90", bounds.pull.anchorLatitude_deg),
    anchorLongitude_deg: within("a longitude from -180 to 180", bounds.pull.anchorLongitude_deg),
    /** Added to the times of the track and the heading, to be on the clock of the load. */
    trackClock_s: within("a time in s", bounds.pull.trackClock_s),
    steps: json(z.array(step).max(10_000), "a list of steps, each with load_N,"),
    result: formerly(json(result, 'a result such as {"kind":"heldTo","load_N":4000}'), earlierResult),
    setDistance_m: within("a distance in m", bounds.pull.setDistance_m),
    endedBy: choice(endings),
    remarks: text(),
  },
  log: {
    pull: refer("pull"),
    day: refer("day"),
    name: required(text("a name")),
    source: text("where it came from"),
    fingerprint: text("a fingerprint of the source", 200),
    channels: required(
      json(
        z
          .array(channel)
          .max(500)
          .refine((list) => new Set(list.map((c) => c.name)).size === list.length),
        "a list of channels of different names, each with name, quantity, unit and precision,",
      ),
    ),
    mapping: json(openObject, "a group of fields"),
    clockOffset_s: number("a time in s", -1e10, 1e10),
    remarks: text(),
  },
  mark: {
    log: required(refer("log")),
    kind: required(text("what is marked", 100)),
    from_s: required(number("a time in s since 1970", -1e12, 1e12)),
    to_s: number("a time in s since 1970", -1e12, 1e12),
    origin: required(choice(["automatic", "by hand"])),
    corrects: refer("mark"),
    detail: json(openObject, "a group of fields"),
    remarks: text(),
  },
  picture: {
    about: anyRecord(),
    type: text("a media type such as image/jpeg", 100),
    reference: text("a path or an address", 4000),
    copy: once({
      ...text(),
      schema: z.string().regex(/^[0-9a-f]{64}$/),
      expects: "the SHA-256 of a file copied into this book is expected",
    }),
    caption: text(),
    takenAt: moment(),
  },
  conclusion: {
    at: required(once(moment())),
    program: required(once(text("the version of the program", 100))),
    seed: required(once(count("a whole number, 0 or more,", bounds.conclusion.seed))),
    pulls: required(
      once(
        json(
          z.array(z.tuple([z.string().regex(ID), z.string().min(1).max(64)])).max(200_000),
          "a list of pulls, each with its id and version,",
        ),
      ),
    ),
    question: required(once(json(openObject, "a group of fields"))),
    answer: required(once(json(openObject, "a group of fields"))),
    remarks: text(),
  },
  note: { about: anyRecord(), text: required(text("the note's text")), at: moment() },
} as const satisfies Record<string, Record<string, Field<never, never> | Field>>;

/** A kind of record. */
export type Kind = keyof typeof kinds;
/** The kinds of record, each after those it points to. */
export const kindNames = Object.keys(kinds) as Kind[];

type ValueOf<F> = F extends { readonly schema: z.ZodType<infer T> } ? T : never;
type HeldOf<F> = F extends { readonly earlier?: z.ZodType<infer E> }
  ? unknown extends E
    ? ValueOf<F>
    : E
  : ValueOf<F>;
/** A record as it stands: every field, `null` where nothing is known. */
export type RecordOf<K extends Kind> = { readonly id: string; readonly hidden: boolean } & {
  readonly [F in keyof (typeof kinds)[K]]: HeldOf<(typeof kinds)[K][F]> | null;
};
/** What may be said of a record: `null` takes a value back. */
export type FieldsOf<K extends Kind> = {
  readonly [F in keyof (typeof kinds)[K]]?: ValueOf<(typeof kinds)[K][F]> | null | undefined;
};

/** Whether there is such a kind of record. */
export const isKind = (name: string): name is Kind => Object.hasOwn(kinds, name);
/** The fields of a kind, as a list of name and field. */
export const fieldsOf = (kind: Kind): [string, Field][] => Object.entries(kinds[kind]) as [string, Field][];
/** A field of a kind by its name; undefined where there is none. */
export const fieldOf = (kind: Kind, name: string): Field | undefined =>
  Object.hasOwn(kinds[kind], name) ? ((kinds[kind] as Record<string, Field>)[name] as Field) : undefined;

/** The one record that says what the book is: the same id in every book, so that books that merge agree on it. */
export const ABOUT = "00000000-0000-7000-8000-000000000000";
