/** The plan file `rodebench/plan@1`, YAML or JSON, with the files it names, as a plan. */
import { catalogue as builtIn, type Catalogue } from "../gear/index.ts";
import { checkShape, type Dimension, InputError, parseQuantity, quoted, readDocument } from "../quantity/index.ts";
import { RIG_FORMAT, type Rig, readRig, rigFrom } from "../rode/index.ts";
import { type Boat, CALM_SURROUNDINGS, type Conditions, inertiaOf, readBoat } from "../sea/index.ts";
import { equalChains } from "./equal-chains.ts";
import type { Candidate, Plan, PlanLimits, PlanLoad } from "./plan.ts";
import { type PlanFields, planShape } from "./plan-shape.ts";
import { ropeOf } from "./rope-choice.ts";
import type { Surge } from "./snatch.ts";
import type { Snubber } from "./snubber.ts";

type Text = string | number;
/** Files a plan names, by the path that stands in it: their text, and what errors call them. */
export type PlanFiles = Readonly<Record<string, { readonly text: string; readonly place: string }>>;

/** Paths of the files a plan names, boat and rigs, as they stand in it. @throws InputError as `readPlan` does */
export function planPaths(text: string, place: string): readonly string[] {
  const { load, candidates = [] } = fieldsOf(text, place);
  const named = [load.boat, ...candidates.map(({ rig }) => rig)];
  return [...new Set(named.filter((one): one is string => typeof one === "string"))];
}

/**
 * Reads a plan.
 * @param files what `planPaths` asks for.
 * @throws InputError of one line: file, field, what stands there, what was expected.
 */
export function readPlan(text: string, place: string, files: PlanFiles = {}, catalogue: Catalogue = builtIn): Plan {
  const fields = fieldsOf(text, place);
  const at = (field: string) => `${place}: ${field}`;
  const load = readLoad(fields.load, files, at("load"));
  const surge = fields.surge === undefined ? undefined : readSurge(fields.surge, load, at("surge"));
  const winds = (fields.winds ?? []).map((one, i) => above(one, "speed", at(`winds[${i}]`), 100, "100 m/s"));
  const loads = (fields.loads ?? []).map((one, i) => above(one, "force", at(`loads[${i}]`)));
  if (winds.length > 0 && load.kind === "stated")
    throw new InputError(
      at("winds"),
      "winds without a boat",
      "a load by boat and wind is expected with them, or loads in their place",
    );
  const candidates = [...readCandidates(fields, files, catalogue, place), ...readChains(fields, catalogue, place)];
  if (candidates.length === 0)
    throw new InputError(at("candidates"), "", "at least one candidate is expected, or chains of equal strength");
  refuseTwins(candidates, place);
  return {
    name: fields.name ?? "plan",
    load,
    limits: readLimits(fields.limits ?? {}, at("limits")),
    winds,
    loads,
    candidates,
    ...(surge === undefined ? {} : { surge }),
    ...(fields.criteria === undefined ? {} : { criteria: checkCriteria(fields.criteria, candidates, place) }),
    ...(fields.currency === undefined ? {} : { currency: fields.currency }),
  };
}

function fieldsOf(text: string, place: string): PlanFields {
  return checkShape(readDocument(text, place), planShape, place);
}

function above(
  given: Text,
  dimension: Dimension,
  place: string,
  most = Number.POSITIVE_INFINITY,
  mostText = "",
): number {
  const value = parseQuantity(given, dimension, place);
  if (!(value > 0)) throw new InputError(place, quoted(given), "a value above zero is expected");
  if (value > most) throw new InputError(place, quoted(given), `at most ${mostText} is expected`);
  return value;
}

const GUSTS = {
  froya: { kind: "froya" },
  "kaimal-a": { kind: "kaimal", turbulence: "A" },
  "kaimal-b": { kind: "kaimal", turbulence: "B" },
  "kaimal-c": { kind: "kaimal", turbulence: "C" },
  "ochi-shin": { kind: "ochi-shin" },
} as const;

function readLoad(given: PlanFields["load"], files: PlanFiles, place: string): PlanLoad {
  const { mean, peak, u, at, boat, wind, by, gust } = given;
  if ((mean === undefined) === (wind === undefined)) {
    const what = mean === undefined ? "neither mean nor wind" : "both mean and wind";
    throw new InputError(place, what, "one of them is expected: a load, or a wind on a boat");
  }
  const only = (field: string, value: unknown, with_: string) => {
    if (value !== undefined) throw new InputError(`${place}.${field}`, quoted(value), `a ${with_} is expected with it`);
  };
  if (mean !== undefined) {
    only("by", by, "wind");
    only("gust", gust, "wind");
    const spread = u === undefined ? 0 : notBelow(u, "force", `${place}.u`);
    const value = above(mean, "force", `${place}.mean`);
    const top = peak === undefined ? undefined : above(peak, "force", `${place}.peak`);
    if (top !== undefined && top < value)
      throw new InputError(`${place}.peak`, quoted(peak), "a load not below the mean is expected");
    return {
      kind: "stated",
      at: at ?? "bow",
      mean: { value, u: spread },
      ...(top === undefined ? {} : { peak: { value: top, u: (spread * top) / value } }),
    };
  }
  only("peak", peak, "mean");
  if (at !== undefined)
    throw new InputError(`${place}.at`, quoted(at), "no end is expected with a wind: the boat's loads know theirs");
  if (boat === undefined)
    throw new InputError(`${place}.boat`, "", "a boat, or the path of its file, is expected with a wind");
  const read = boatOf(boat, files, `${place}.boat`);
  const way = by ?? (read.measured.length > 0 ? "measured" : "windage");
  if (way === "measured" && read.measured.length === 0)
    throw new InputError(`${place}.by`, quoted(way), "a boat with measured points is expected");
  if (way === "windage" && read.windage === undefined)
    throw new InputError(
      `${place}.${by === undefined ? "boat" : "by"}`,
      quoted(by ?? read.name),
      "a boat with windage or measured points is expected",
    );
  if (way === "measured" && gust !== undefined)
    throw new InputError(
      `${place}.gust`,
      quoted(gust),
      "by: windage is expected with it; measured points have peaks of their own",
    );
  const conditions: Conditions =
    gust === undefined
      ? CALM_SURROUNDINGS
      : { ...CALM_SURROUNDINGS, gust: { model: GUSTS[gust], averaging: 600, duration: 3 } };
  return {
    kind: "wind",
    boat: read,
    wind: {
      value: above(wind!, "speed", `${place}.wind`, 100, "100 m/s"),
      u: u === undefined ? 0 : notBelow(u, "speed", `${place}.u`),
    },
    by: way,
    conditions,
  };
}

function notBelow(given: Text, dimension: Dimension, place: string): number {
  const value = parseQuantity(given, dimension, place);
  if (!(value >= 0)) throw new InputError(place, quoted(given), "zero or more is expected");
  return value;
}

function boatOf(given: NonNullable<PlanFields["load"]["boat"]>, files: PlanFiles, place: string): Boat {
  if (typeof given !== "string") return readBoat(JSON.stringify(given), place);
  const file = files[given];
  if (file === undefined) throw new InputError(place, quoted(given), "the path of a readable boat file is expected");
  return readBoat(file.text, file.place);
}

function readSurge(given: NonNullable<PlanFields["surge"]>, load: PlanLoad, place: string): Surge {
  const { speed, mass, distance } = given;
  if ((speed === undefined) === (distance === undefined)) {
    const what = speed === undefined ? "neither speed nor distance" : "both speed and distance";
    throw new InputError(place, what, "one of the two is expected");
  }
  if (distance !== undefined) {
    if (mass !== undefined) throw new InputError(`${place}.mass`, quoted(mass), "a speed is expected with it");
    return { kind: "distance", distance: above(distance, "length", `${place}.distance`) };
  }
  if (mass === undefined && load.kind === "stated")
    throw new InputError(`${place}.mass`, "", "the mass that moves is expected with a speed where no boat is given");
  return {
    kind: "speed",
    speed: above(speed!, "speed", `${place}.speed`, 10, "10 m/s"),
    mass:
      mass === undefined && load.kind === "wind"
        ? inertiaOf(load.boat).surge.value
        : above(mass!, "mass", `${place}.mass`),
  };
}

const LIMITS: readonly (readonly [Exclude<keyof PlanLimits, "price">, Dimension])[] = [
  ["workingLoad", "ratio"],
  ["breakingLoad", "ratio"],
  ["ropeShare", "ratio"],
  ["anchorAngle", "angle"],
  ["peak", "force"],
  ["weight", "mass"],
  ["volume", "volume"],
  ["span", "length"],
];

function readLimits(given: NonNullable<PlanFields["limits"]>, place: string): PlanLimits {
  // Working load limits are not passed unless somebody says so.
  const read: [string, number][] = [["workingLoad", 1]];
  for (const [field, dimension] of LIMITS) {
    const value = given[field];
    if (value === undefined) continue;
    read.push([
      field,
      dimension === "angle"
        ? notBelow(value, dimension, `${place}.${field}`)
        : above(value, dimension, `${place}.${field}`),
    ]);
  }
  return { ...Object.fromEntries(read), ...(given.price === undefined ? {} : { price: given.price }) };
}

function readCandidates(fields: PlanFields, files: PlanFiles, catalogue: Catalogue, place: string): Candidate[] {
  return (fields.candidates ?? []).map((given, i) => {
    const at = `${place}: candidates[${i}]`;
    const { name, rode, rig, price, snubber } = given;
    if ((rode === undefined) === (rig === undefined)) {
      const what = rode === undefined ? "neither rode nor rig" : "both rode and rig";
      throw new InputError(at, what, "one of the two is expected");
    }
    const read =
      rig === undefined ? rigWith(fields, name, rode!, catalogue, at) : rigOf(rig, files, catalogue, `${at}.rig`);
    return {
      name: name ?? (rig === undefined ? read.rode.map((part) => part.name).join(", ") : read.name),
      rig: read,
      ends: snubber?.ends ?? "spliced",
      ...(price === undefined ? {} : { price }),
      ...(snubber === undefined ? {} : { snubber: readSnubber(snubber, catalogue, `${at}.snubber`) }),
    };
  });
}

/** A rode of the plan's own in the plan's setting. */
function rigWith(
  fields: PlanFields,
  name: string | undefined,
  rode: readonly unknown[],
  catalogue: Catalogue,
  place: string,
): Rig {
  if (fields.setting === undefined)
    throw new InputError(
      `${place}.rode`,
      "a rode without a setting",
      "the plan's setting is expected, or a rig in place of the rode",
    );
  const { setting, uncertainty } = fields;
  return rigFrom(
    { format: RIG_FORMAT, name: name ?? "rode", setting, rode, ...(uncertainty === undefined ? {} : { uncertainty }) },
    place,
    catalogue,
  );
}

function rigOf(given: string | Record<string, unknown>, files: PlanFiles, catalogue: Catalogue, place: string): Rig {
  if (typeof given !== "string") return rigFrom(given, place, catalogue);
  const file = files[given];
  if (file === undefined) throw new InputError(place, quoted(given), "the path of a readable rig file is expected");
  return readRig(file.text, file.place, catalogue);
}

function readSnubber(
  given: NonNullable<NonNullable<PlanFields["candidates"]>[number]["snubber"]>,
  catalogue: Catalogue,
  place: string,
): Snubber {
  const { fibre = "polyamide", lay = "three-strand", diameter, length, slack, beam, heading, within } = given;
  if (heading !== undefined && beam === undefined)
    throw new InputError(`${place}.heading`, quoted(heading), "a beam is expected with it");
  const turned = heading === undefined ? 0 : parseQuantity(heading, "angle", `${place}.heading`);
  if (!(Math.abs(turned) < Math.PI / 2))
    throw new InputError(`${place}.heading`, quoted(heading), "an angle within 90 deg either side is expected");
  return {
    rope: ropeOf({ fibre, lay, diameter: above(diameter, "length", `${place}.diameter`) }, catalogue, place),
    length: above(length, "length", `${place}.length`),
    hooked: within === true ? "within" : "veered",
    ...(slack === undefined ? {} : { slack: notBelow(slack, "length", `${place}.slack`) }),
    ...(beam === undefined ? {} : { bridle: { beam: above(beam, "length", `${place}.beam`), heading: turned } }),
  };
}

function readChains(fields: PlanFields, catalogue: Catalogue, place: string): Candidate[] {
  const given = fields.chains;
  if (given === undefined) return [];
  const at = `${place}: chains`;
  const length = above(given.length, "length", `${at}.length`);
  return equalChains(given, catalogue, at).map((row): Candidate => {
    const part = {
      chain: {
        grade: row.grade,
        size: row.size,
        ...(row.standard === undefined ? {} : { standard: row.standard }),
        length,
      },
    };
    return { name: row.name, rig: rigWith(fields, row.name, [part], catalogue, at), ends: "spliced" };
  });
}

function refuseTwins(candidates: readonly Candidate[], place: string): void {
  const seen = new Set<string>();
  for (const { name } of candidates) {
    if (seen.has(name))
      throw new InputError(`${place}: candidates`, quoted(name), "a name of its own is expected for each candidate");
    seen.add(name);
  }
}

function checkCriteria(criteria: NonNullable<PlanFields["criteria"]>, candidates: readonly Candidate[], place: string) {
  if (criteria.includes("price")) {
    const without = candidates.find(({ price }) => price === undefined);
    if (without !== undefined)
      throw new InputError(
        `${place}: criteria`,
        "price",
        `a price of every candidate is expected; ${without.name} has none`,
      );
  }
  return criteria;
}
