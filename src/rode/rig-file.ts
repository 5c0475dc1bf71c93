/** The rig file `rodebench/rig@1`, YAML or JSON, as a rig of the model. */
import { catalogue as builtIn, type Catalogue } from "../gear/index.ts";
import { checkShape, InputError, nth, quoted, readDocument } from "../quantity/index.ts";
import type { Rig, RigUncertainty, Setting } from "./model.ts";
import { readPart } from "./rig-file-part.ts";
import { OTHER_MEDIUM, type RigFile, type RigFileSetting, rigFileShape } from "./rig-file-shape.ts";
import { readValue } from "./rig-file-value.ts";

/** Sea water, kg/m³, where a file states none. */
const SEA_WATER = 1025;

/**
 * Reads a rig file.
 * @param place the file's name, with which every error begins.
 * @param catalogue where chain, rope, wire, shackles and swivels are looked up; the built-in one by default.
 * @throws InputError of one line: file, field, what stands there, what was expected.
 */
export function readRig(text: string, place: string, catalogue: Catalogue = builtIn): Rig {
  return rigFrom(readDocument(text, place), place, catalogue);
}

/**
 * The rig of a rig file that is already plain data, as one within a run file is.
 * @throws InputError as `readRig` does.
 */
export function rigFrom(data: unknown, place: string, catalogue: Catalogue = builtIn): Rig {
  const file = checkRigFile(data, place);
  const at = (field: string) => `${place}: ${field}`;
  return {
    name: file.name ?? "rig",
    setting: readSetting(file.setting, at("setting")),
    rode: file.rode.map((part, i) => readPart(part, catalogue, at(`rode${nth(i)}`))),
    uncertainty: readUncertainty(file.uncertainty ?? {}, file.setting.medium, at("uncertainty")),
  };
}

/**
 * A rig file as plain data, its names checked and its quantities still as written: what a form shows and edits.
 * @throws InputError for a name that has no place; quantities and gear are checked by `rigFrom`.
 */
export function readRigFile(text: string, place: string): RigFile {
  return checkRigFile(readDocument(text, place), place);
}

function checkRigFile(data: unknown, place: string): RigFile {
  refuseOtherMedium(data, place);
  return checkShape(data, rigFileShape, place);
}

function readSetting(setting: RigFileSetting, place: string): Setting {
  const { bottomSlope = 0, bottomFriction = 0 } = setting;
  const bottom = {
    bottomSlope: readValue(bottomSlope, "slope", `${place}.bottomSlope`),
    bottomFriction: readValue(bottomFriction, "friction", `${place}.bottomFriction`),
  };
  if (setting.medium === "air")
    return { medium: "air", rise: readValue(setting.rise, "rise", `${place}.rise`), ...bottom };
  return {
    medium: "water",
    depth: readValue(setting.depth, "length", `${place}.depth`),
    rollerHeight: readValue(setting.rollerHeight, "height", `${place}.rollerHeight`),
    waterDensity: readValue(setting.waterDensity ?? SEA_WATER, "waterDensity", `${place}.waterDensity`),
    ...bottom,
    current: readValue(setting.current ?? 0, "current", `${place}.current`),
  };
}

/** What each uncertainty is read as, and the medium it belongs to where that is one alone. */
const UNCERTAINTIES = {
  massPerLength: { as: "relative" },
  length: { as: "relative" },
  stretch: { as: "relative" },
  rise: { as: "height" },
  depth: { as: "height", water: true },
  friction: { as: "frictionU" },
  bottomSlope: { as: "slopeU" },
  waterDensity: { as: "densityU", water: true },
  current: { as: "currentU", water: true },
} as const;

function readUncertainty(
  given: NonNullable<RigFile["uncertainty"]>,
  medium: Setting["medium"],
  place: string,
): RigUncertainty {
  const read: { -readonly [field in keyof RigUncertainty]: number } = {};
  for (const field of Object.keys(UNCERTAINTIES) as (keyof RigUncertainty)[]) {
    const text = given[field];
    if (text === undefined) continue;
    const { as, water }: { as: Parameters<typeof readValue>[1]; water?: true } = UNCERTAINTIES[field];
    if (water && medium === "air")
      throw new InputError(
        `${place}.${field}`,
        quoted(text),
        "a rig in air has none; one in water is expected with it",
      );
    read[field] = readValue(text, as, `${place}.${field}`);
  }
  if (given.rise !== undefined && given.depth !== undefined)
    throw new InputError(
      `${place}.depth`,
      quoted(given.depth),
      "rise or depth is expected, not both: afloat they move the same",
    );
  return read;
}

/** A depth in air, or a rise in water, is no mistyped name: it is told for what it is. */
function refuseOtherMedium(data: unknown, place: string): void {
  const setting = (data as { setting?: unknown } | null | undefined)?.setting;
  if (typeof setting !== "object" || setting === null) return;
  const { medium } = setting as { medium?: unknown };
  if (medium !== "air" && medium !== "water") return;
  for (const [field, why] of Object.entries(OTHER_MEDIUM[medium])) {
    if (!Object.hasOwn(setting, field)) continue;
    throw new InputError(`${place}: setting.${field}`, quoted((setting as Record<string, unknown>)[field]), why);
  }
}
