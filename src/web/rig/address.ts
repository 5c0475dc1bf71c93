/**
 * A rig as fields of an address, readable by people: `rode=chain 10 mm grade 30*25~kellet…`. Gear of the catalogue goes
 * by its name, so that the address stays short; anything else is written out. Numbers are SI, a slope is in degrees.
 */
import { fromUnit, inUnit } from "../../quantity/index.ts";
import type { LinePart, Part, PointPart, Rig, RigUncertainty, Setting, StretchLaw } from "../../rode/index.ts";
import type { Codec } from "../state/address.ts";
import { FieldReader, type Fields } from "../state/fields.ts";
import { type End, partNamed, type RigState } from "./state.ts";

const BETWEEN = "~";
const TIMES = "*";
/** As in a rig file. */
const MOST_PARTS = 1000;
const MOST_POINTS = 200;

/** The field of each uncertainty, and the most it may be, SI. */
const UNSURE: Readonly<Record<keyof RigUncertainty, readonly [field: string, most: number]>> = {
  massPerLength: ["u-mass", 0.5],
  rise: ["u-rise", 1e4],
  depth: ["u-depth", 1e4],
  length: ["u-length", 0.5],
  stretch: ["u-stretch", 0.5],
  friction: ["u-friction", 1],
  bottomSlope: ["u-slope", Math.PI / 18],
  waterDensity: ["u-water", 100],
  current: ["u-current", 5],
};

export function rigFields(rig: Rig): Fields {
  const { setting, uncertainty } = rig;
  return {
    name: rig.name,
    ...settingFields(setting),
    rode: rig.rode.map(partText).join(BETWEEN),
    ...Object.fromEntries(
      (Object.keys(UNSURE) as (keyof RigUncertainty)[]).flatMap((input) =>
        uncertainty[input] === undefined ? [] : [[UNSURE[input][0], String(uncertainty[input])]],
      ),
    ),
  };
}

function settingFields(setting: Setting): Fields {
  const bottom = {
    ...(setting.bottomSlope === 0 ? {} : { slope: String(inUnit(setting.bottomSlope, "deg", "angle")) }),
    ...(setting.bottomFriction === 0 ? {} : { friction: String(setting.bottomFriction) }),
  };
  if (setting.medium === "air") return { in: "air", rise: String(setting.rise), ...bottom };
  return {
    in: "water",
    depth: String(setting.depth),
    roller: String(setting.rollerHeight),
    water: String(setting.waterDensity),
    ...bottom,
    ...(setting.current === 0 ? {} : { current: String(setting.current) }),
  };
}

function partText(part: Part): string {
  const known = partNamed(part.name, part.kind === "line" ? part.length : 0);
  if (known !== undefined && JSON.stringify(known) === JSON.stringify(part))
    return part.kind === "line" ? `${part.name}${TIMES}${part.length}` : part.name;
  return JSON.stringify(part).replaceAll(BETWEEN, "\\u007e");
}

/** The rig of fields; what cannot be is refused by name. */
export function readRigFields(fields: FieldReader): Rig {
  const setting = settingOf(fields);
  const texts = (fields.text("rode") ?? "").split(BETWEEN);
  if (!fields.has("rode")) fields.refuse("rode", undefined, "the parts of a rode are expected");
  else if (texts.length > MOST_PARTS)
    fields.refuseAs("rode", `${texts.length} parts`, `at most ${MOST_PARTS} parts are expected`);
  const rode = fields.has("rode") && texts.length <= MOST_PARTS ? texts.map((text, i) => partOf(fields, text, i)) : [];
  if (fields.problems.length === 0 && !rode.some((part) => part.kind === "line"))
    fields.refuse("rode", fields.text("rode"), "a line among the parts is expected");
  return { name: fields.nameOr("name", "rig"), setting, rode, uncertainty: uncertaintyOf(fields) };
}

function settingOf(fields: FieldReader): Setting {
  const bottom = {
    bottomSlope: fromUnit(fields.numberOr("slope", 0, -45, 45), "deg", "angle", "slope"),
    bottomFriction: fields.numberOr("friction", 0, 0, 3),
  };
  const medium = fields.wordOr("in", ["air", "water"], "water");
  if (!fields.has("in")) fields.refuse("in", undefined, "air or water is expected");
  if (medium === "air") return { medium, rise: fields.number("rise", 1e-6, 1e5), ...bottom };
  return {
    medium,
    depth: fields.number("depth", 1e-6, 1e5),
    rollerHeight: fields.numberOr("roller", 0, 0, 1e4),
    waterDensity: fields.numberOr("water", 1025, 900, 1400),
    ...bottom,
    current: fields.numberOr("current", 0, -10, 10),
  };
}

function uncertaintyOf(fields: FieldReader): RigUncertainty {
  return Object.fromEntries(
    (Object.keys(UNSURE) as (keyof RigUncertainty)[]).flatMap((input) => {
      const [field, most] = UNSURE[input];
      return fields.has(field) ? [[input, fields.number(field, 0, most)]] : [];
    }),
  );
}

const refusedPart: Part = { kind: "point", name: "", mass: Number.NaN, density: Number.NaN };

function partOf(fields: FieldReader, text: string, i: number): Part {
  const place = `rode, part ${i + 1}`;
  if (text.startsWith("{")) return ownPart(fields, text, place);
  const at = text.lastIndexOf(TIMES);
  const row = partNamed(at < 0 ? text : text.slice(0, at), 0);
  if (row === undefined) {
    fields.refuse(place, text, "gear of the catalogue by its name, or a part written out, is expected");
    return refusedPart;
  }
  if (row.kind === "point") return row;
  return { ...row, length: fields.within(place, at < 0 ? undefined : text.slice(at + 1), 1e-9, 1e5) };
}

type Loose = Readonly<Record<string, unknown>>;

/** A part written out: each of its numbers within the bounds of a rig file. */
function ownPart(fields: FieldReader, text: string, place: string): Part {
  let read: Loose;
  try {
    read = JSON.parse(text) as Loose;
  } catch {
    fields.refuse(place, text, "a part written out as JSON is expected");
    return refusedPart;
  }
  const number = (name: string, least: number, most: number, from: Loose = read): number => {
    const value = from[name];
    if (typeof value === "number" && value >= least && value <= most) return value;
    fields.refuse(`${place}, ${name}`, tell(value), `a number from ${least} to ${most} is expected`);
    return Number.NaN;
  };
  const optional = <K extends string>(name: K, least: number, most: number): { readonly [k in K]?: number } =>
    (read[name] === undefined ? {} : { [name]: number(name, least, most) }) as { readonly [k in K]?: number };

  const name = typeof read.name === "string" ? read.name : "";
  if (name === "" || name.length > 200)
    fields.refuse(`${place}, name`, tell(read.name), "a name of at most 200 characters is expected");
  const strength = { ...optional("workingLoad", 0, 1e12), ...optional("breakingLoad", 0, 1e12) };
  if (read.kind === "point")
    return {
      kind: "point",
      name,
      mass: number("mass", 1e-9, 1e7),
      density: number("density", 1, 23_000),
      ...strength,
    } satisfies PointPart;
  if (read.kind !== "line") fields.refuse(`${place}, kind`, tell(read.kind), "line or point is expected");
  const drag = read.drag as Loose | undefined;
  const material = (["chain", "rope", "wire", "line"] as const).find((one) => one === read.material);
  if (material === undefined && read.material !== undefined)
    fields.refuse(`${place}, material`, tell(read.material), "one of chain, rope, wire, line is expected");
  return {
    kind: "line",
    name,
    length: number("length", 1e-9, 1e5),
    massPerLength: number("massPerLength", 1e-9, 1e4),
    density: number("density", 1, 23_000),
    stretch: stretchOf(fields, read.stretch, `${place}, stretch`),
    ...optional("diameter", 1e-6, 5),
    ...(drag === undefined
      ? {}
      : { drag: { across: number("across", 0, 10, drag ?? {}), along: number("along", 0, 10, drag ?? {}) } }),
    ...strength,
    ...(material === undefined ? {} : { material }),
  } satisfies LinePart;
}

const tell = (value: unknown): string | undefined =>
  value === undefined ? undefined : typeof value === "string" ? value : JSON.stringify(value);

function stretchOf(fields: FieldReader, read: unknown, place: string): StretchLaw {
  const law = read as Loose | null | undefined;
  if (law?.kind === "rigid") return { kind: "rigid" };
  if (law?.kind === "linear" && typeof law.stiffness === "number" && law.stiffness >= 1e-6 && law.stiffness <= 1e12)
    return { kind: "linear", stiffness: law.stiffness };
  if (law?.kind === "curve" && Array.isArray(law.points) && law.points.length > 0 && law.points.length <= MOST_POINTS) {
    const points: [number, number][] = [];
    let [strain, load] = [0, 0];
    for (const pair of law.points as unknown[]) {
      const [e, f] = Array.isArray(pair) ? (pair as unknown[]) : [];
      if (!(typeof e === "number" && typeof f === "number" && e > strain && f > load && e <= 10 && f <= 1e12)) break;
      points.push([e, f]);
      [strain, load] = [e, f];
    }
    if (points.length === law.points.length) return { kind: "curve", points };
  }
  fields.refuse(
    place,
    tell(read),
    `no stretch, a stiffness above zero, or at most ${MOST_POINTS} rising points of strain and load are expected`,
  );
  return { kind: "rigid" };
}

const ends: readonly End[] = ["bow", "anchor", "horizontal"];

/** The whole state of the place Rig: `load=bow 1500`, `over=8.2`. */
export const rigCodec: Codec<RigState> = {
  name: "rig",
  write: ({ rig, load, over }) => ({
    ...rigFields(rig),
    load: `${load.at} ${load.newtons}`,
    ...(over === null ? {} : { over: String(over) }),
  }),
  read(given) {
    const fields = new FieldReader(given);
    if (!fields.has("rode", "in", "depth", "rise", "load")) return { kind: "none" };
    return fields.read(() => {
      const [end, text] = (fields.text("load") ?? "bow 1500").split(" ");
      return {
        rig: readRigFields(fields),
        load: { at: fields.wordOr("load", ends, "bow", end), newtons: fields.within("load", text, 1e-6, 1e9) },
        over: fields.numberOr("over", null, 1e-6, 1e5),
      };
    });
  },
};
