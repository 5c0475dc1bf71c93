/** The plan file `rodebench/plan@1`, YAML or JSON, with the files it names, as a plan. */
import { catalogue as builtIn, type Catalogue } from "../gear/index.ts";
import { checkShape, type Dimension, InputError, nth, quoted, readDocument } from "../quantity/index.ts";
import type { Candidate, Plan, PlanLimits } from "./plan.ts";
import { readCandidates, readChains } from "./plan-candidates.ts";
import type { PlanFiles } from "./plan-files.ts";
import { readLoad, readSurge, readSurgeU } from "./plan-load.ts";
import { type PlanFields, planShape } from "./plan-shape.ts";
import { above, notBelow } from "./plan-value.ts";

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
  const winds = (fields.winds ?? []).map((one, i) => above(one, "speed", at(`winds${nth(i)}`), 100, "100 m/s"));
  const loads = (fields.loads ?? []).map((one, i) => above(one, "force", at(`loads${nth(i)}`)));
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
    ...(surge === undefined ? {} : { surge, surgeU: readSurgeU(fields.surge!, at("surge")) }),
    ...(fields.criteria === undefined ? {} : { criteria: checkCriteria(fields.criteria, candidates, place) }),
    ...(fields.currency === undefined ? {} : { currency: fields.currency }),
  };
}

function fieldsOf(text: string, place: string): PlanFields {
  return checkShape(readDocument(text, place), planShape, place);
}

const LIMITS: readonly (readonly [Exclude<keyof PlanLimits, "price">, Dimension])[] = [
  ["workingLoad", "ratio"],
  ["breakingLoad", "ratio"],
  ["strength", "ratio"],
  ["ropeShare", "ratio"],
  ["anchorAngle", "angle"],
  ["peak", "force"],
  ["weight", "mass"],
  ["volume", "volume"],
  ["span", "length"],
];

function readLimits(given: NonNullable<PlanFields["limits"]>, place: string): PlanLimits {
  // Working load limits are not passed unless somebody says so, or takes one measure of strength for all.
  const read: [string, number][] = given.strength === undefined ? [["workingLoad", 1]] : [];
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
