/**
 * A rig written back as a rig file. What is written reads back as the very same numbers; a unit at hand is used where
 * it can say the number exactly and more briefly (10 mm, 3 deg, 1 kn), and SI otherwise.
 */
import { Document, isMap, isSeq, visit, type YAMLMap } from "yaml";
import { writtenLoop } from "../gear/index.ts";
import { type Dimension, inUnit, parseQuantity } from "../quantity/index.ts";
import type { LinePart, Part, PointPart, Rig, RigUncertainty, Setting } from "./model.ts";
import { RIG_FORMAT, type RigFile, type RigFilePart } from "./rig-file-shape.ts";

/** Digits beyond which a rounded figure is no longer brief: SI with all digits is then written. */
const BRIEF = 10;
/** Longest group written on one line, characters. */
const LONGEST_LINE = 100;

/** The rig as YAML of the format `rodebench/rig@1`; each part written out, gear of the catalogue too. */
export function rigToFile(rig: Rig): string {
  return writeRigFile(rigToFields(rig));
}

/** A rig file that is plain data, as YAML: gear stays as it was named. */
export function writeRigFile(file: RigFile): string {
  const document = new Document(file);
  visit(document, {
    Pair(_, pair) {
      if (isSeq(pair.value) && (pair.key as { value?: unknown }).value === "stretch") pair.value.flow = true;
      if (isMap(pair.value) && fitsOneLine(pair.value)) pair.value.flow = true;
    },
  });
  return document.toString({ lineWidth: 0 });
}

/** A short group reads best on one line, as people write it. */
function fitsOneLine(group: YAMLMap): boolean {
  return JSON.stringify(group).length <= LONGEST_LINE && !group.items.some(({ value }) => isSeq(value) || isMap(value));
}

/** The same as plain data, for JSON or to stand within another file. */
export function rigToFields(rig: Rig): RigFile {
  return {
    format: RIG_FORMAT,
    name: rig.name,
    setting: settingFields(rig.setting),
    rode: rig.rode.map(partFields),
    ...(Object.keys(rig.uncertainty).length === 0 ? {} : { uncertainty: uncertaintyFields(rig.uncertainty) }),
  };
}

function uncertaintyFields(uncertainty: RigUncertainty): NonNullable<RigFile["uncertainty"]> {
  const write: { readonly [field in keyof RigUncertainty]-?: (u: number) => string } = {
    massPerLength: (u) => written(u, "ratio", ["%"]),
    rise: length,
    depth: length,
    length: (u) => written(u, "ratio", ["%"]),
    stretch: (u) => written(u, "ratio", ["%"]),
    friction: (u) => written(u, "ratio", ["%"]),
    bottomSlope: (u) => written(u, "angle", ["deg", "rad"]),
    waterDensity: (u) => written(u, "density", ["kg/m3"]),
    current: (u) => written(u, "speed", ["m/s", "kn"]),
  };
  return Object.fromEntries(
    (Object.keys(write) as (keyof RigUncertainty)[]).flatMap((field) => {
      const u = uncertainty[field];
      return u === undefined ? [] : [[field, write[field](u)]];
    }),
  );
}

function settingFields(setting: Setting): RigFile["setting"] {
  const bottom = {
    ...(setting.bottomSlope === 0 ? {} : { bottomSlope: written(setting.bottomSlope, "angle", ["deg", "rad"]) }),
    ...(setting.bottomFriction === 0 ? {} : { bottomFriction: setting.bottomFriction }),
  };
  if (setting.medium === "air") return { medium: "air", rise: length(setting.rise), ...bottom };
  return {
    medium: "water",
    depth: length(setting.depth),
    rollerHeight: length(setting.rollerHeight),
    waterDensity: written(setting.waterDensity, "density", ["kg/m3"]),
    ...bottom,
    ...(setting.current === 0 ? {} : { current: written(setting.current, "speed", ["m/s", "kn"]) }),
  };
}

function partFields(part: Part): RigFilePart {
  return part.kind === "line" ? { line: lineFields(part) } : { weight: weightFields(part) };
}

function lineFields(part: LinePart): NonNullable<RigFilePart["line"]> {
  const { stretch, loop, diameter, drag, material } = part;
  return {
    name: part.name,
    ...(material === undefined ? {} : { material }),
    length: length(part.length),
    massPerLength: written(part.massPerLength, "massPerLength", ["kg/m", "lb/ft"]),
    density: written(part.density, "density", ["kg/m3"]),
    ...(stretch.kind === "linear" ? { stiffness: force(stretch.stiffness) } : {}),
    ...(stretch.kind === "curve"
      ? { stretch: stretch.points.map(([strain, load]) => [strain, force(load)] as [number, string]) }
      : {}),
    ...(loop === undefined ? {} : { loop: writtenLoop(loop) }),
    ...(diameter === undefined ? {} : { diameter: written(diameter, "length", ["mm", "in", "m"]) }),
    ...(drag === undefined ? {} : { drag: { ...drag } }),
    ...strengthFields(part),
  };
}

function weightFields(part: PointPart): NonNullable<RigFilePart["weight"]> {
  return {
    name: part.name,
    mass: written(part.mass, "mass", ["kg", "lb"]),
    density: written(part.density, "density", ["kg/m3"]),
    ...strengthFields(part),
  };
}

function strengthFields({ workingLoad, breakingLoad }: Part): { workingLoad?: string; breakingLoad?: string } {
  return {
    ...(workingLoad === undefined ? {} : { workingLoad: force(workingLoad) }),
    ...(breakingLoad === undefined ? {} : { breakingLoad: force(breakingLoad) }),
  };
}

function length(value: number): string {
  return written(value, "length", ["m", "ft"]);
}

function force(value: number): string {
  return written(value, "force", value >= 10_000 ? ["kN", "N", "lbf"] : ["N", "lbf"]);
}

/** The first unit that says the value exactly in few digits, else all digits in SI. */
function written(value: number, dimension: Dimension, units: readonly string[]): string {
  for (const unit of units) {
    const brief = `${Number(inUnit(value, unit, dimension).toPrecision(BRIEF))} ${unit}`;
    if (parseQuantity(brief, dimension, "") === value) return brief;
  }
  const si = units.find((unit) => inUnit(1, unit, dimension) === 1);
  if (si !== undefined) return `${value} ${si}`;
  // A ratio has no unit of its own.
  return String(value);
}
