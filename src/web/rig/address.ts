/**
 * A rig as fields of an address, readable by people: `rode=chain 10 mm grade 30*25~kellet…`. Gear of the catalogue goes
 * by its name, so that the address stays short; anything else is written out. Numbers are SI, a slope is in degrees.
 */
import { fromUnit, inUnit } from "../../quantity/index.ts";
import type { LinePart, Part, PointPart, Rig, RigUncertainty, Setting, StretchLaw } from "../../rode/index.ts";
import type { Codec, Fields } from "../state/address.ts";
import { type End, type RigState, rowNamed } from "./desk.ts";
import { partOfRow } from "./parts.ts";

const BETWEEN = "~";
const TIMES = "*";
const MOST_PARTS = 200;

export function rigFields(rig: Rig): Fields {
  const { setting, uncertainty } = rig;
  return {
    name: rig.name,
    ...settingFields(setting),
    rode: rig.rode.map(partText).join(BETWEEN),
    ...(uncertainty.massPerLength === undefined ? {} : { "u-mass": String(uncertainty.massPerLength) }),
    ...(uncertainty.rise === undefined ? {} : { "u-rise": String(uncertainty.rise) }),
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
  const row = rowNamed(part.name);
  const length = part.kind === "line" ? part.length : 0;
  if (row !== undefined && JSON.stringify(partOfRow(row, length)) === JSON.stringify(part))
    return part.kind === "line" ? `${part.name}${TIMES}${length}` : part.name;
  return JSON.stringify(part).replaceAll(BETWEEN, "\\u007e");
}

/** @returns null when the fields hold no rig, or one that cannot be */
export function rigOfFields(fields: Fields): Rig | null {
  const setting = settingOf(fields);
  const texts = (fields.rode ?? "").split(BETWEEN);
  if (setting === null || fields.rode === undefined || texts.length > MOST_PARTS) return null;
  const rode: Part[] = [];
  for (const text of texts) {
    const part = partOf(text);
    if (part === null) return null;
    rode.push(part);
  }
  if (!rode.some((part) => part.kind === "line")) return null;
  return { name: (fields.name ?? "rig").slice(0, 200), setting, rode, uncertainty: uncertaintyOf(fields) };
}

function settingOf(fields: Fields): Setting | null {
  const slope = within(fields.slope ?? "0", -45, 45);
  const bottomFriction = within(fields.friction ?? "0", 0, 3);
  if (slope === null || bottomFriction === null) return null;
  const bottom = { bottomSlope: fromUnit(slope, "deg", "angle", "slope"), bottomFriction };
  if (fields.in === "air") {
    const rise = within(fields.rise, 1e-6, 1e5);
    return rise === null ? null : { medium: "air", rise, ...bottom };
  }
  const depth = within(fields.depth, 1e-6, 1e5);
  const rollerHeight = within(fields.roller ?? "0", 0, 1e4);
  const waterDensity = within(fields.water ?? "1025", 900, 1400);
  const current = within(fields.current ?? "0", -10, 10);
  if (fields.in !== "water" || depth === null || rollerHeight === null || waterDensity === null || current === null)
    return null;
  return { medium: "water", depth, rollerHeight, waterDensity, ...bottom, current };
}

function uncertaintyOf(fields: Fields): RigUncertainty {
  const massPerLength = within(fields["u-mass"], 0, 0.5);
  const rise = within(fields["u-rise"], 0, 1e4);
  return { ...(massPerLength === null ? {} : { massPerLength }), ...(rise === null ? {} : { rise }) };
}

function within(text: string | undefined, least: number, most: number): number | null {
  if (text === undefined || text.trim() === "") return null;
  const value = Number(text);
  return value >= least && value <= most ? value : null;
}

function partOf(text: string): Part | null {
  if (text.startsWith("{")) return ownPart(text);
  const at = text.lastIndexOf(TIMES);
  const row = rowNamed(at < 0 ? text : text.slice(0, at));
  if (row === undefined) return null;
  if (row.kind === "point") return partOfRow(row, 0);
  const length = within(text.slice(at + 1), 1e-9, 1e5);
  return at < 0 || length === null ? null : partOfRow(row, length);
}

type Loose = Readonly<Record<string, unknown>>;

function ownPart(text: string): Part | null {
  let read: Loose;
  try {
    read = JSON.parse(text) as Loose;
  } catch {
    return null;
  }
  const name = typeof read.name === "string" ? read.name.slice(0, 200) : "";
  const density = number(read.density, 1, 23_000);
  const strength = {
    ...optional("workingLoad", number(read.workingLoad, 0, 1e12)),
    ...optional("breakingLoad", number(read.breakingLoad, 0, 1e12)),
  };
  if (density === null || name === "") return null;
  if (read.kind === "point") {
    const mass = number(read.mass, 1e-9, 1e7);
    return mass === null ? null : ({ kind: "point", name, mass, density, ...strength } satisfies PointPart);
  }
  const length = number(read.length, 1e-9, 1e5);
  const massPerLength = number(read.massPerLength, 1e-9, 1e4);
  const stretch = stretchOf(read.stretch);
  if (read.kind !== "line" || length === null || massPerLength === null || stretch === null) return null;
  const drag = read.drag as Loose | undefined;
  const [across, along] = [number(drag?.across, 0, 10), number(drag?.along, 0, 10)];
  const material = (["chain", "rope", "wire", "line"] as const).find((one) => one === read.material);
  return {
    kind: "line",
    name,
    length,
    massPerLength,
    density,
    stretch,
    ...optional("diameter", number(read.diameter, 1e-6, 5)),
    ...(across === null || along === null ? {} : { drag: { across, along } }),
    ...strength,
    ...(material === undefined ? {} : { material }),
  } satisfies LinePart;
}

function number(value: unknown, least: number, most: number): number | null {
  return typeof value === "number" && value >= least && value <= most ? value : null;
}

function optional<K extends string>(name: K, value: number | null): { readonly [k in K]?: number } {
  return (value === null ? {} : { [name]: value }) as { readonly [k in K]?: number };
}

function stretchOf(read: unknown): StretchLaw | null {
  const law = read as Loose | null | undefined;
  if (law?.kind === "rigid") return { kind: "rigid" };
  if (law?.kind === "linear") {
    const stiffness = number(law.stiffness, 1e-6, 1e12);
    return stiffness === null ? null : { kind: "linear", stiffness };
  }
  if (law?.kind !== "curve" || !Array.isArray(law.points) || law.points.length === 0) return null;
  const points: [number, number][] = [];
  let [strain, load] = [0, 0];
  for (const pair of law.points.slice(0, 200) as unknown[]) {
    const [e, f] = Array.isArray(pair) ? (pair as unknown[]) : [];
    if (!(typeof e === "number" && typeof f === "number" && e > strain && f > load && e <= 10 && f <= 1e12))
      return null;
    points.push([e, f]);
    [strain, load] = [e, f];
  }
  return { kind: "curve", points };
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
  read(fields) {
    const rig = rigOfFields(fields);
    if (rig === null) return null;
    const [end, text] = (fields.load ?? "").split(" ");
    const newtons = within(text, 1e-6, 1e9);
    return {
      rig,
      load: { at: ends.find((one) => one === end) ?? "bow", newtons: newtons ?? 1500 },
      over: within(fields.over, 1e-6, 1e5),
    };
  },
};
