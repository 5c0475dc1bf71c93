/** A part of a rig file, its gear looked up in the catalogue, as a part of the model. */
import {
  type Catalogue,
  findChain,
  findPoint,
  findRope,
  findWire,
  type LineRow,
  type LoopText,
  type PointRow,
  readLoop,
} from "../gear/index.ts";
import { InputError, nth, parseQuantity, quoted } from "../quantity/index.ts";
import type { LinePart, Part, PointPart, StretchLaw } from "./model.ts";
import type { RigFilePart } from "./rig-file-shape.ts";
import { readValue } from "./rig-file-value.ts";

type Fields<Kind extends keyof RigFilePart> = NonNullable<RigFilePart[Kind]>;
type Text = string | number;

/**
 * Reads one part.
 * @param place the part in its file: `quay.yaml: rode #3`.
 * @throws InputError when it is of no kind or of two, when its gear is not in the catalogue, or a value has no meaning.
 */
export function readPart(part: RigFilePart, catalogue: Catalogue, place: string): Part {
  const kinds = (Object.keys(part) as (keyof RigFilePart)[]).filter((kind) => part[kind] !== undefined);
  if (kinds.length !== 1) {
    const given = kinds.length === 0 ? "no kind of part" : kinds.join(" and ");
    throw new InputError(place, given, "one of chain, rope, wire, line, weight, shackle, swivel is expected");
  }
  const at = `${place}.${kinds[0]}`;
  const { chain, rope, wire, line, weight, shackle, swivel } = part;
  if (chain) {
    const { grade, size, standard } = chain;
    const wanted = { grade, size, ...(standard === undefined ? {} : { standard }) };
    return fromRow(chain, findChain(wanted, catalogue, at), at);
  }
  if (rope) return fromRow(rope, findRope(rope, catalogue, at), at);
  if (wire) return fromRow(wire, findWire(wire, catalogue, at), at);
  if (line) return readLine(line, at);
  if (weight) return readWeight(weight, at);
  if (shackle) return pointFromRow(shackle, findShackle(shackle, catalogue, at));
  return pointFromRow(swivel!, findPoint({ what: "swivel", size: swivel!.size }, catalogue, at));
}

/** A line of catalogue gear; a mass per length of the user's own, weighed, goes before the catalogue's. */
function fromRow(
  given: {
    readonly length: Text;
    readonly massPerLength?: Text | undefined;
    readonly name?: string | undefined;
    readonly loop?: LoopText | undefined;
  },
  row: LineRow,
  place: string,
): LinePart {
  const { massPerLength: weighed } = given;
  const own = row.kind === "rope" ? row.loop : undefined;
  const loop = given.loop === undefined ? own : readLoop(given.loop, `${place}.loop`);
  return {
    kind: "line",
    name: given.name ?? row.name,
    length: readValue(given.length, "length", `${place}.length`),
    massPerLength:
      weighed === undefined ? row.massPerLength : readValue(weighed, "massPerLength", `${place}.massPerLength`),
    density: row.density,
    stretch: row.stretch,
    ...(loop === undefined ? {} : { loop }),
    diameter: row.diameter,
    ...strengthsOf(row),
    material: row.kind,
  };
}

function readLine(given: Fields<"line">, place: string): LinePart {
  const { diameter, drag, material, loop } = given;
  return {
    kind: "line",
    name: given.name ?? material ?? "line",
    length: readValue(given.length, "length", `${place}.length`),
    massPerLength: readValue(given.massPerLength, "massPerLength", `${place}.massPerLength`),
    density: readValue(given.density, "lineDensity", `${place}.density`),
    stretch: readStretch(given, place),
    ...(loop === undefined ? {} : { loop: readLoop(loop, `${place}.loop`) }),
    ...(diameter === undefined ? {} : { diameter: readValue(diameter, "diameter", `${place}.diameter`) }),
    ...(drag === undefined
      ? {}
      : {
          drag: {
            across: readValue(drag.across, "drag", `${place}.drag.across`),
            along: readValue(drag.along, "drag", `${place}.drag.along`),
          },
        }),
    ...readStrengths(given, place),
    ...(material === undefined ? {} : { material }),
  };
}

function readWeight(given: Fields<"weight">, place: string): PointPart {
  return {
    kind: "point",
    name: given.name ?? "weight",
    mass: readValue(given.mass, "mass", `${place}.mass`),
    density: readValue(given.density, "pointDensity", `${place}.density`),
    ...readStrengths(given, place),
  };
}

function pointFromRow(given: { readonly name?: string | undefined }, row: PointRow): PointPart {
  return { kind: "point", name: given.name ?? row.name, mass: row.mass, density: row.density, ...strengthsOf(row) };
}

/** The catalogue tells a shackle by its shape: "bow shackle". */
function findShackle(given: Fields<"shackle">, catalogue: Catalogue, place: string): PointRow {
  const shape = given.shape ?? "bow";
  try {
    return findPoint(
      { what: /shackle$/i.test(shape) ? shape : `${shape} shackle`, size: given.size },
      catalogue,
      place,
    );
  } catch (error) {
    if (error instanceof InputError && error.place === `${place}.what`) {
      throw new InputError(`${place}.shape`, quoted(shape), error.expected);
    }
    throw error;
  }
}

function readStretch(given: Fields<"line">, place: string): StretchLaw {
  const { stiffness, stretch } = given;
  if (stiffness !== undefined && stretch !== undefined) {
    throw new InputError(place, "stiffness and stretch", "one of the two is expected, or neither for no stretch");
  }
  if (stiffness === "none") return { kind: "rigid" };
  if (stiffness !== undefined)
    return { kind: "linear", stiffness: readValue(stiffness, "stiffness", `${place}.stiffness`) };
  if (stretch === undefined) return { kind: "rigid" };
  const points: [strain: number, load: number][] = [];
  let [strainBefore, loadBefore] = [0, 0];
  for (const [i, [strainText, loadText]] of stretch.entries()) {
    const at = `${place}.stretch${nth(i)}`;
    if (i === 0 && isZero(strainText, "ratio", `${at} #1`) && isZero(loadText, "force", `${at} #2`)) continue;
    const strain = readValue(strainText, "strain", `${at} #1`);
    const load = readValue(loadText, "load", `${at} #2`);
    if (!(strain > strainBefore))
      throw new InputError(`${at} #1`, quoted(strainText), "a strain above the one before is expected");
    if (!(load > loadBefore))
      throw new InputError(`${at} #2`, quoted(loadText), "a load above the one before is expected");
    points.push([strain, load]);
    [strainBefore, loadBefore] = [strain, load];
  }
  if (points.length === 0)
    throw new InputError(`${place}.stretch`, "(0, 0) alone", "a point above zero strain and load is expected");
  return { kind: "curve", points };
}

/** The curve begins at (0, 0) whether or not it is written. */
function isZero(given: Text, dimension: "ratio" | "force", place: string): boolean {
  return parseQuantity(given, dimension, place) === 0;
}

interface Strengths {
  readonly workingLoad?: number | undefined;
  readonly breakingLoad?: number | undefined;
}

function strengthsOf({ workingLoad, breakingLoad }: Strengths): { workingLoad?: number; breakingLoad?: number } {
  return {
    ...(workingLoad === undefined ? {} : { workingLoad }),
    ...(breakingLoad === undefined ? {} : { breakingLoad }),
  };
}

function readStrengths(given: { workingLoad?: Text | undefined; breakingLoad?: Text | undefined }, place: string) {
  const { workingLoad, breakingLoad } = given;
  const read = strengthsOf({
    workingLoad: workingLoad === undefined ? undefined : readValue(workingLoad, "load", `${place}.workingLoad`),
    breakingLoad: breakingLoad === undefined ? undefined : readValue(breakingLoad, "load", `${place}.breakingLoad`),
  });
  if (read.workingLoad !== undefined && read.breakingLoad !== undefined && read.workingLoad > read.breakingLoad) {
    throw new InputError(
      `${place}.workingLoad`,
      quoted(workingLoad),
      "a working load not above the breaking load is expected",
    );
  }
  return read;
}
