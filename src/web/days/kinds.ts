/**
 * What the forms ask of each kind of record, in the order people tell it. Bounds and choices are those of the record's
 * own room.
 */

import type { Dimension } from "../../quantity/index.ts";
import {
  anchorShapes,
  bounds,
  endings,
  expects,
  type Kind,
  loadEnds,
  pullWays,
  type Bounds as RecordBounds,
  sedimentClasses,
} from "../../record/index.ts";
import { usualHoldRule } from "../../study/index.ts";
import { sedimentName } from "./sediment-name.ts";

export interface Bounds extends Partial<RecordBounds> {
  readonly above?: number;
  /** Ends the one line that says what is wrong. */
  readonly expected: string;
}

interface Common {
  readonly name: string;
  readonly label: string;
  readonly required?: true;
  /** One short line below the field. */
  readonly hint?: string;
  /** Seldom told: the form keeps it below, under `foldOf` of its kind. */
  readonly folded?: true;
}

export type FormField = Common &
  (
    | { readonly as: "text"; readonly long?: true }
    | { readonly as: "quantity"; readonly dimension: Dimension; readonly bounds: Bounds }
    | { readonly as: "number"; readonly unit: string; readonly whole?: true; readonly bounds: Bounds }
    | { readonly as: "place"; readonly axis: "latitude" | "longitude"; readonly bounds: Bounds }
    | {
        readonly as: "choice";
        readonly options: readonly string[];
        /** What an option is called, where that is not the option itself. */
        readonly called?: (option: string) => string;
      }
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

/** "Add an anchor", "Add a site". */
export const addWords = (kind: Formed): string =>
  `Add ${/^[aeio]/.test(words[kind].one) ? "an" : "a"} ${words[kind].one}`;

const direction = (name: string, label: string, within: RecordBounds): FormField => ({
  name,
  label,
  as: "number",
  unit: "°",
  bounds: { ...within, expected: "a direction, in degrees from -360 to 360, is expected" },
});
const speed = (name: string, label: string, within: RecordBounds): FormField => ({
  name,
  label,
  as: "quantity",
  dimension: "speed",
  bounds: { ...within, expected: "a speed of 0 or more is expected" },
});
/** The hold rule where nobody states one. */
const USUAL = { kept: `${usualHoldRule.heldFor} s`, within: `${usualHoldRule.heldWithin} m` };
const heldFor = (within: RecordBounds, hint: string): FormField => ({
  name: "heldFor_s",
  label: "Held when kept for",
  as: "quantity",
  dimension: "time",
  bounds: { ...within, expected: expects.heldFor_s },
  hint,
});
const heldWithin = (within: RecordBounds, hint: string): FormField => ({
  name: "heldWithin_m",
  label: "The anchor moving less than",
  as: "quantity",
  dimension: "length",
  bounds: { ...within, expected: expects.heldWithin_m },
  hint,
});
const cellLoad = (name: string, label: string, within: RecordBounds, hint: string): FormField => ({
  name,
  label,
  as: "quantity",
  dimension: "force",
  bounds: { ...within, expected: "a load is expected, such as 35 N" },
  hint,
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
      bounds: { ...bounds.site.latitude_deg, expected: "a latitude from -90 to 90 is expected" },
    },
    {
      name: "longitude_deg",
      label: "Longitude",
      as: "place",
      axis: "longitude",
      bounds: { ...bounds.site.longitude_deg, expected: "a longitude from -180 to 180 is expected" },
    },
    described,
  ],
  seabed: [
    named,
    { name: "site", label: "Site", as: "refer", to: "site" },
    {
      name: "grain",
      label: "Grain class",
      as: "choice",
      options: sedimentClasses.map(({ code }) => code),
      called: sedimentName,
      hint: "of what lies on top, by ISO 14688-1 or by Wentworth's scale",
    },
    described,
    { name: "sampleNotes", label: "Samples", as: "text", long: true },
  ],
  anchor: [
    named,
    { name: "shape", label: "Shape", as: "choice", options: anchorShapes, required: true },
    {
      name: "mass_kg",
      label: "Mass",
      as: "quantity",
      dimension: "mass",
      bounds: { ...bounds.anchor.mass_kg, expected: "a mass above zero is expected" },
    },
    {
      name: "flukeArea_m2",
      label: "Fluke area",
      as: "quantity",
      dimension: "area",
      bounds: { ...bounds.anchor.flukeArea_m2, expected: "an area above zero is expected" },
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
    heldFor(bounds.series.heldFor_s, `hold rule of its pulls; ${USUAL.kept} where neither this nor its protocol says`),
    heldWithin(bounds.series.heldWithin_m, `meanwhile, where a track tells it; ${USUAL.within} where neither says`),
  ],
  day: [
    { name: "date", label: "Date", as: "date", required: true },
    { name: "site", label: "Site", as: "refer", to: "site" },
    { name: "boat", label: "Boat", as: "refer", to: "boat" },
    { name: "testers", label: "Who was there", as: "text" },
    { name: "weather", label: "Weather", as: "text" },
    speed("wind_m_per_s", "Wind", bounds.day.wind_m_per_s),
    speed("gust_m_per_s", "Gusts", bounds.day.gust_m_per_s),
    direction("windFrom_deg", "Wind from", bounds.day.windFrom_deg),
    { name: "tide", label: "Tide", as: "text" },
    {
      name: "waterLevel_m",
      label: "Water level",
      as: "quantity",
      dimension: "length",
      bounds: { ...bounds.day.waterLevel_m, expected: "a level from -100 m to 100 m is expected" },
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
      bounds: { ...bounds.pull.number, expected: "a whole number, 0 or more, is expected" },
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
      bounds: { ...bounds.pull.depth_m, expected: "a depth of 0 or more is expected" },
    },
    {
      name: "scope",
      label: "Scope",
      as: "number",
      unit: ": 1",
      bounds: { ...bounds.pull.scope, expected: "a scope of 1 or more is expected" },
    },
    {
      name: "paidOut_m",
      label: "Paid out",
      as: "quantity",
      dimension: "length",
      bounds: { ...bounds.pull.paidOut_m, expected: "a length above zero is expected" },
      hint: "rode from the anchor to the roller; it is believed before the scope",
    },
    direction("heading_deg", "Heading", bounds.pull.heading_deg),
    { name: "loadAt", label: "Load read at", as: "choice", options: loadEnds },
    { name: "steps", label: "Steps", as: "steps" },
    { name: "result", label: "Result", as: "result" },
    { name: "endedBy", label: "Ended by", as: "choice", options: endings },
    {
      name: "setDistance_m",
      label: "Set distance",
      as: "quantity",
      dimension: "length",
      bounds: { ...bounds.pull.setDistance_m, expected: "a distance is expected" },
    },
    { name: "remarks", label: "Remarks", as: "text", long: true },
    ...[
      heldFor(bounds.pull.heldFor_s, `hold rule; as the series says, else ${USUAL.kept}`),
      heldWithin(
        bounds.pull.heldWithin_m,
        `meanwhile, where a track tells it; as the series says, else ${USUAL.within}`,
      ),
      cellLoad("tare_N", "Tare of the cell", bounds.pull.tare_N, "what it shows with nothing on it"),
      {
        name: "calibration",
        label: "Calibration of the cell",
        as: "number" as const,
        unit: "",
        bounds: { ...bounds.pull.calibration, expected: "a factor from 0.1 to 10 is expected, such as 1.02" },
        hint: "true load for each load read, its tare taken off",
      },
      cellLoad(
        "slackLoad_N",
        "Load while slack",
        bounds.pull.slackLoad_N,
        "what the cell truly carries then, such as rode that hangs under it",
      ),
      {
        name: "pulls",
        label: "The boat pulled",
        as: "choice" as const,
        options: pullWays,
        hint: "astern: her bow toward the anchor; how her heading is read",
      },
      {
        ...direction("bearing_deg", "Boat from anchor", bounds.pull.bearing_deg),
        hint: "bearing of the boat from the anchor, true",
      },
      {
        name: "anchorLatitude_deg",
        label: "Anchor's latitude",
        as: "place" as const,
        axis: "latitude" as const,
        bounds: { ...bounds.pull.anchorLatitude_deg, expected: "a latitude from -90 to 90 is expected" },
      },
      {
        name: "anchorLongitude_deg",
        label: "Anchor's longitude",
        as: "place" as const,
        axis: "longitude" as const,
        bounds: { ...bounds.pull.anchorLongitude_deg, expected: "a longitude from -180 to 180 is expected" },
        hint: "where it lay, marked as it was let go; with the latitude",
      },
      {
        name: "trackClock_s",
        label: "Clock of the track",
        as: "quantity" as const,
        dimension: "time" as const,
        bounds: { ...bounds.pull.trackClock_s, expected: "a time is expected, such as -2.5 s" },
        hint: "added to its times, to be on the clock of the load",
      },
    ].map((field): FormField => ({ ...field, folded: true })),
  ],
  note: [{ name: "text", label: "Note", as: "text", long: true, required: true }],
};

/** What the seldom told fields of a kind are together. */
export const foldOf: Readonly<Partial<Record<Formed, string>>> = { pull: "How its log is judged" };

export type Formed = keyof typeof forms;
export const isFormed = (kind: string): kind is Formed => Object.hasOwn(forms, kind);
