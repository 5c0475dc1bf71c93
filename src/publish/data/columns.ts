/** The columns of a package's table of pulls: what stands in each, in which unit, and how it came to be known. */

import { type Bounds, bounds, pullWays } from "../../record/index.ts";

/** As the Table Schema names types. */
export type ColumnType = "string" | "number" | "integer" | "boolean";

/** One column of the table of pulls. */
export interface Column {
  readonly name: string;
  readonly type: ColumnType;
  /** Empty: none. */
  readonly unit: string;
  readonly description: string;
  readonly required?: true;
  readonly oneOf?: readonly string[];
  /** Least and greatest of its numbers. */
  readonly within?: Bounds;
}

const text = (name: string, description: string, more: Partial<Column> = {}): Column => ({
  name,
  type: "string",
  unit: "",
  description,
  ...more,
});
const number = (name: string, unit: string, description: string, within?: Bounds): Column => ({
  ...{ name, type: "number", unit, description },
  ...(within === undefined ? {} : { within }),
});

/** Known of the pull and its gear. */
const GIVEN: readonly Column[] = [
  {
    name: "pull",
    type: "integer",
    unit: "",
    description: "number of the pull within this package, from 1",
    required: true,
  },
  text("anchor", "the anchor, by the tester's name for it", { required: true }),
  number("mass_kg", "kg", "mass of the anchor"),
  number("flukeArea_m2", "m2", "area of its flukes"),
  text("seabed", "the seabed, by the tester's name for it"),
  text("grain", "class of its sediment, where graded"),
  text("site", "where, by the tester's name for it; positions are left out"),
  text("day", "date of the pull, such as 2031-05-17"),
  text("ending", "how the pull ended"),
  text("tester", "who tested, as they want to be named"),
];

/** Read on the day; what the loads at the anchor are worked out from. */
const READ: readonly Column[] = [
  text("rig", "rig file of this package the rode was put together by"),
  number("depth_m", "m", "surface above the anchor, sounded"),
  number(
    "levelDepth_m",
    "m",
    "depth by other soundings on this ground and the level of the day, where none was sounded",
  ),
  number("levelDepth_u_m", "m", "standard uncertainty of levelDepth_m"),
  { name: "soundings", type: "integer", unit: "", description: "how many soundings levelDepth_m rests on" },
  number("scope", "", "length of the rode over the height of its upper end above the anchor, as told"),
  number("paidOut_m", "m", "length of rode let out, as told"),
  text("readAt", "end of the rode at which the load was read", { oneOf: ["anchor", "bow"] }),
  { name: "readAtTold", type: "boolean", unit: "", description: "whether that end was told, or is taken" },
  text("verdict", "what the pull says", { oneOf: ["gaveWay", "heldTo", "between", "neverSet"], required: true }),
  text("from", "whether the tester's record or the log of the load says so", {
    oneOf: ["record", "log"],
    required: true,
  }),
  number("readHeldTo_N", "N", "load read that the anchor held"),
  number("readGaveWayBy_N", "N", "load read by which it had given way"),
  number("read_u_N", "N", "standard uncertainty of the load read"),
];

const { pull: of } = bounds;

/** How the log of the load was judged; a package of an earlier program has none of it. */
const HOW: readonly Column[] = [
  text("cell", "channel of the log that the load was read from, by its name there; empty: by no log"),
  number(
    "heldFor_s",
    "s",
    "hold rule: a load counts as held when kept so long; empty: nobody stated it, and no log was judged by it",
    of.heldFor_s,
  ),
  number(
    "heldWithin_m",
    "m",
    "hold rule: the anchor moving by less meanwhile, where a track tells it",
    of.heldWithin_m,
  ),
  number(
    "calibration",
    "",
    "true load for each load read, tare_N taken off first, by the cell's calibration: in the loads of this table already; empty: 1",
    of.calibration,
  ),
  number("tare_N", "N", "what the cell shows with nothing on it: taken off each reading already; empty: 0", of.tare_N),
  number("slackLoad_N", "N", "what the cell truly carries while the rode is slack; empty: nothing", of.slackLoad_N),
  text("boatPulled", "astern: her bow toward the anchor, or ahead; how her heading was read; empty: astern", {
    oneOf: pullWays,
  }),
  number("bearing_deg", "deg", "bearing of the boat from the anchor, true, as stated", of.bearing_deg),
  number(
    "trackClock_s",
    "s",
    "added to the times of the boat's track to be on the clock of the load, as stated; empty: none",
    of.trackClock_s,
  ),
];
const ANCHOR_PLACE: readonly Column[] = [
  number("anchorLatitude_deg", "deg", "where the anchor lay, WGS 84, as stated", of.anchorLatitude_deg),
  number("anchorLongitude_deg", "deg", "the same", of.anchorLongitude_deg),
];

/** Worked out from what was read. */
const WORKED: readonly Column[] = [
  number("heldTo_N", "N", "load at the anchor, along the rode, that it held"),
  number(
    "gaveWayBy_N",
    "N",
    "load at the anchor by which it had given way; equal to heldTo_N: it gave way at that load; alone: it never held",
  ),
  number("uncertainty_N", "N", "standard uncertainty of the load it gave way by, or else of the one it held"),
  number("anchorAngle_deg", "deg", "angle of the rode above the bottom at the anchor at that load"),
  number("anchorAngleHeld_deg", "deg", "the same at the load it held, where it gave way by another"),
  number("anchorAngleRise_deg", "deg", "by how much that angle grows with each unit of the load's natural logarithm"),
];

/** Left out unless the tester chose to have it in. */
const PEOPLE: readonly Column[] = [text("people", "who was there")];
const REMARKS: readonly Column[] = [text("remarks", "the tester's remarks on the pull")];

/** Private fields a tester may choose to publish. */
export const PRIVATE = ["people", "remarks", "positions"] as const;
/** A private field. */
export type Private = (typeof PRIVATE)[number];

/** The columns of the table, in their order. @param how with how logs were judged */
export function pullColumns(chosen: readonly Private[], how = true): readonly Column[] {
  return [
    ...GIVEN,
    ...READ,
    ...(how ? HOW : []),
    ...(how && chosen.includes("positions") ? ANCHOR_PLACE : []),
    ...WORKED,
    ...(chosen.includes("people") ? PEOPLE : []),
    ...(chosen.includes("remarks") ? REMARKS : []),
  ];
}

/** The columns of a table by its header: those of an earlier program lack some. */
export function columnsOfHeader(header: readonly string[]): readonly Column[] {
  const has = (name: string): boolean => header.includes(name);
  const chosen = PRIVATE.filter((name) => has(name === "positions" ? ANCHOR_PLACE[0]!.name : name));
  return pullColumns(chosen, has(HOW[0]!.name));
}

/** Columns that tell how a log was judged. */
export const HOW_JUDGED: readonly string[] = HOW.map(({ name }) => name);

/** Columns a reader works out again from the others. */
export const WORKED_OUT: readonly string[] = WORKED.map(({ name }) => name);
