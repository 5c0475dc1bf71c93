import { z } from "zod";
import {
  anyRecord,
  choice,
  count,
  day,
  type Field,
  fileText,
  flag,
  json,
  moment,
  number,
  once,
  refer,
  required,
  text,
} from "./field.ts";
import { grainClasses } from "./grain.ts";

/** Anchors by generic shape, in the words of the trade. */
export const shapes = [
  "fixed plough",
  "hinged plough",
  "claw",
  "pivoting fluke",
  "scoop",
  "scoop with roll bar",
  "stocked",
  "grapnel",
  "mushroom",
  "screw",
  "deadweight",
  "other",
] as const;

/** What ended a pull. */
export const endings = ["engine limit", "drag", "roll-out", "break-out", "stopped by tester", "gear"] as const;

/** A step of a pull: a load held for a time. */
const step = z.strictObject({
  load_N: z.number().min(0),
  duration_s: z.number().min(0).optional(),
  movement_m: z.number().optional(),
  remarks: z.string().min(1).max(10_000).optional(),
});

/** What a pull found: the load it gave way at, or the load it held to without giving way. */
const result = z.strictObject({
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
export type Channel = z.infer<typeof channel>;

const degrees = (what: string) => number(`${what}, in degrees from -360 to 360,`, -360, 360);
const openObject = z.record(z.string(), z.json());

/** Every kind of record and its fields, in an order in which each kind comes after those it points to. */
export const kinds = {
  about: { title: required(text("a title")), description: text(), simulated: flag("true or false") },
  site: {
    name: required(text("a name")),
    latitude_deg: number("a latitude from -90 to 90", -90, 90),
    longitude_deg: number("a longitude from -180 to 180", -180, 180),
    description: text(),
  },
  seabed: {
    site: refer("site"),
    name: required(text("a name")),
    grain: choice(grainClasses.map((c) => c.code)),
    description: text(),
    sampleNotes: text(),
  },
  anchor: {
    name: required(text("a name")),
    shape: required(choice(shapes)),
    mass_kg: number("a mass in kg, more than 0,", 1e-3, 1e6),
    flukeArea_m2: number("an area in m², more than 0,", 1e-6, 1e4),
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
  series: { name: required(text("a name")), question: text(), protocol: text() },
  day: {
    date: required(day()),
    site: refer("site"),
    boat: refer("boat"),
    testers: text("who was there"),
    weather: text(),
    wind_m_per_s: number("a speed in m/s, 0 or more,", 0, 200),
    gust_m_per_s: number("a speed in m/s, 0 or more,", 0, 200),
    windFrom_deg: degrees("a direction"),
    tide: text(),
    waterLevel_m: number("a level in m", -100, 100),
  },
  pull: {
    day: refer("day"),
    series: refer("series"),
    anchor: refer("anchor"),
    seabed: refer("seabed"),
    rigVersion: refer("rigVersion"),
    number: count("a whole number, 0 or more,"),
    startedAt: moment(),
    depth_m: number("a depth in m, 0 or more,", 0, 12_000),
    scope: number("a scope of 1 or more", 1, 1000),
    heading_deg: degrees("a heading"),
    loadAt: choice(["anchor", "bow"]),
    steps: json(z.array(step).max(10_000), "a list of steps, each with load_N,"),
    result: json(result, 'a result such as {"kind":"heldTo","load_N":4000}'),
    setDistance_m: number("a distance in m", -1e4, 1e4),
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
  note: { about: anyRecord(), text: required(text("the note's text")), at: moment() },
} as const satisfies Record<string, Record<string, Field<never> | Field>>;

export type Kind = keyof typeof kinds;
export const kindNames = Object.keys(kinds) as Kind[];

type ValueOf<F> = F extends Field<infer T> ? T : never;
/** A record as it stands: every field, `null` where nothing is known. */
export type RecordOf<K extends Kind> = { readonly id: string; readonly hidden: boolean } & {
  readonly [F in keyof (typeof kinds)[K]]: ValueOf<(typeof kinds)[K][F]> | null;
};
/** What may be said of a record: `null` takes a value back. */
export type FieldsOf<K extends Kind> = {
  readonly [F in keyof (typeof kinds)[K]]?: ValueOf<(typeof kinds)[K][F]> | null | undefined;
};

export const isKind = (name: string): name is Kind => Object.hasOwn(kinds, name);
/** The fields of a kind, as a list of name and field. */
export const fieldsOf = (kind: Kind): [string, Field][] => Object.entries(kinds[kind]) as [string, Field][];
export const fieldOf = (kind: Kind, name: string): Field | undefined =>
  Object.hasOwn(kinds[kind], name) ? ((kinds[kind] as Record<string, Field>)[name] as Field) : undefined;

/** The one record that says what the book is: the same id in every book, so that books that merge agree on it. */
export const ABOUT = "00000000-0000-7000-8000-000000000000";
