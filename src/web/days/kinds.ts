/**
 * What the forms ask of each kind of record, in the order people tell it. Names, bounds and choices are those of the
 * book (src/book/kinds.ts, which a browser cannot load); test/web/days.test.ts holds the two together.
 */
import type { endings as bookEndings, shapes as bookShapes, Kind } from "../../book/index.ts";
import type { Dimension } from "../../quantity/index.ts";

export type Shape = (typeof bookShapes)[number];
export type Ending = (typeof bookEndings)[number];

export const shapes: readonly Shape[] = [
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
];

export const endings: readonly Ending[] = [
  "engine limit",
  "drag",
  "roll-out",
  "break-out",
  "stopped by tester",
  "gear",
];

export interface Bounds {
  readonly least?: number;
  readonly above?: number;
  readonly most?: number;
  /** Ends the one line that says what is wrong. */
  readonly expected: string;
}

interface Common {
  readonly name: string;
  readonly label: string;
  readonly required?: true;
  /** One short line below the field. */
  readonly hint?: string;
}

export type FormField = Common &
  (
    | { readonly as: "text"; readonly long?: true }
    | { readonly as: "quantity"; readonly dimension: Dimension; readonly bounds: Bounds }
    | { readonly as: "number"; readonly unit: string; readonly whole?: true; readonly bounds: Bounds }
    | { readonly as: "place"; readonly axis: "latitude" | "longitude"; readonly bounds: Bounds }
    | { readonly as: "choice"; readonly options: readonly string[] }
    | { readonly as: "refer"; readonly to: Kept }
    | { readonly as: "date" | "moment" | "steps" | "result" | "rig" | "boatFile" }
  );

/** Kinds that are listed, opened and written here. */
export type Kept = Extract<
  Kind,
  "site" | "seabed" | "anchor" | "boat" | "rig" | "rigVersion" | "series" | "day" | "pull" | "note"
>;
export const kept: readonly Kept[] = [
  "site",
  "seabed",
  "anchor",
  "boat",
  "rig",
  "rigVersion",
  "series",
  "day",
  "pull",
  "note",
];

export const words: Readonly<Record<Kept | "log" | "mark" | "picture", { one: string; many: string }>> = {
  site: { one: "site", many: "sites" },
  seabed: { one: "seabed", many: "seabeds" },
  anchor: { one: "anchor", many: "anchors" },
  boat: { one: "boat", many: "boats" },
  rig: { one: "rig", many: "rigs" },
  rigVersion: { one: "rig as deployed", many: "rigs as deployed" },
  series: { one: "series", many: "series" },
  day: { one: "day", many: "days" },
  pull: { one: "pull", many: "pulls" },
  note: { one: "note", many: "notes" },
  log: { one: "log", many: "logs" },
  mark: { one: "mark", many: "marks" },
  picture: { one: "picture", many: "pictures" },
};

const direction = (name: string, label: string): FormField => ({
  name,
  label,
  as: "number",
  unit: "°",
  bounds: { least: -360, most: 360, expected: "a direction, in degrees from -360 to 360, is expected" },
});
const speed = (name: string, label: string): FormField => ({
  name,
  label,
  as: "quantity",
  dimension: "speed",
  bounds: { least: 0, most: 200, expected: "a speed of 0 or more is expected" },
});
const named: FormField = { name: "name", label: "Name", as: "text", required: true };
const described: FormField = { name: "description", label: "Description", as: "text", long: true };

export const forms: Readonly<Record<Exclude<Kept, "rigVersion">, readonly FormField[]>> = {
  site: [
    named,
    {
      name: "latitude_deg",
      label: "Latitude",
      as: "place",
      axis: "latitude",
      bounds: { least: -90, most: 90, expected: "a latitude from -90 to 90 is expected" },
    },
    {
      name: "longitude_deg",
      label: "Longitude",
      as: "place",
      axis: "longitude",
      bounds: { least: -180, most: 180, expected: "a longitude from -180 to 180 is expected" },
    },
    described,
  ],
  seabed: [
    named,
    { name: "site", label: "Site", as: "refer", to: "site" },
    described,
    { name: "sampleNotes", label: "Samples", as: "text", long: true },
  ],
  anchor: [
    named,
    { name: "shape", label: "Shape", as: "choice", options: shapes, required: true },
    {
      name: "mass_kg",
      label: "Mass",
      as: "quantity",
      dimension: "mass",
      bounds: { least: 1e-3, most: 1e6, expected: "a mass above zero is expected" },
    },
    {
      name: "flukeArea_m2",
      label: "Fluke area",
      as: "quantity",
      dimension: "area",
      bounds: { least: 1e-6, most: 1e4, expected: "an area above zero is expected" },
    },
    { name: "make", label: "Make", as: "text", hint: "in your own words" },
    described,
  ],
  boat: [named, { name: "file", label: "Boat file", as: "boatFile" }, described],
  rig: [named, { name: "file", label: "Rode", as: "rig" }, described],
  series: [
    named,
    { name: "question", label: "Question", as: "text", long: true, hint: "what the series is to settle" },
    { name: "protocol", label: "Protocol", as: "text", long: true },
  ],
  day: [
    { name: "date", label: "Date", as: "date", required: true },
    { name: "site", label: "Site", as: "refer", to: "site" },
    { name: "boat", label: "Boat", as: "refer", to: "boat" },
    { name: "testers", label: "Who was there", as: "text" },
    { name: "weather", label: "Weather", as: "text" },
    speed("wind_m_per_s", "Wind"),
    speed("gust_m_per_s", "Gusts"),
    direction("windFrom_deg", "Wind from"),
    { name: "tide", label: "Tide", as: "text" },
    {
      name: "waterLevel_m",
      label: "Water level",
      as: "quantity",
      dimension: "length",
      bounds: { least: -100, most: 100, expected: "a level from -100 m to 100 m is expected" },
    },
  ],
  pull: [
    { name: "day", label: "Day", as: "refer", to: "day" },
    {
      name: "number",
      label: "Number",
      as: "number",
      unit: "",
      whole: true,
      bounds: { least: 0, most: 2 ** 40, expected: "a whole number, 0 or more, is expected" },
    },
    { name: "anchor", label: "Anchor", as: "refer", to: "anchor" },
    { name: "seabed", label: "Seabed", as: "refer", to: "seabed" },
    { name: "rigVersion", label: "Rig", as: "refer", to: "rigVersion" },
    { name: "series", label: "Series", as: "refer", to: "series" },
    { name: "startedAt", label: "Began", as: "moment" },
    {
      name: "depth_m",
      label: "Depth",
      as: "quantity",
      dimension: "length",
      bounds: { least: 0, most: 12_000, expected: "a depth of 0 or more is expected" },
    },
    {
      name: "scope",
      label: "Scope",
      as: "number",
      unit: ": 1",
      bounds: { least: 1, most: 1000, expected: "a scope of 1 or more is expected" },
    },
    direction("heading_deg", "Heading"),
    { name: "loadAt", label: "Load read at", as: "choice", options: ["anchor", "bow"] },
    { name: "steps", label: "Steps", as: "steps" },
    { name: "result", label: "Result", as: "result" },
    { name: "endedBy", label: "Ended by", as: "choice", options: endings },
    {
      name: "setDistance_m",
      label: "Set distance",
      as: "quantity",
      dimension: "length",
      bounds: { least: -1e4, most: 1e4, expected: "a distance is expected" },
    },
    { name: "remarks", label: "Remarks", as: "text", long: true },
  ],
  note: [{ name: "text", label: "Note", as: "text", long: true, required: true }],
};

export type Formed = keyof typeof forms;
export const isFormed = (kind: string): kind is Formed => Object.hasOwn(forms, kind);
