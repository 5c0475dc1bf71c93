/** Parts of a rode: from the catalogue, and moved about in the list. Lists run from the anchor to the bow. */
import type { LineRow, PointRow, Row } from "../../gear/index.ts";
import type { LinePart, Part, PointPart, Rig } from "../../rode/index.ts";

/** Metres a line begins with: changed in the list. */
export const FIRST_LENGTH = 10;

/** A row of the catalogue as a part of a rode, as a rig file that names it would give. */
export function partOfRow(row: Row, length: number): Part {
  return row.kind === "point" ? pointOfRow(row) : lineOfRow(row, length);
}

function lineOfRow(row: LineRow, length: number): LinePart {
  const { name, massPerLength, density, stretch, diameter } = row;
  return {
    kind: "line",
    name,
    length,
    massPerLength,
    density,
    stretch,
    diameter,
    ...strengths(row),
    material: row.kind,
  };
}

function pointOfRow(row: PointRow): PointPart {
  return { kind: "point", name: row.name, mass: row.mass, density: row.density, ...strengths(row) };
}

function strengths({ workingLoad, breakingLoad }: Row): { workingLoad?: number; breakingLoad?: number } {
  return {
    ...(workingLoad === undefined ? {} : { workingLoad }),
    ...(breakingLoad === undefined ? {} : { breakingLoad }),
  };
}

/** Whether two parts are the same sort of line, so that a weight between them can slide and the two can be one. */
export function sameLine(one: Part | undefined, other: Part | undefined): boolean {
  if (one?.kind !== "line" || other?.kind !== "line") return false;
  return JSON.stringify({ ...one, length: 0 }) === JSON.stringify({ ...other, length: 0 });
}

/** Points that can slide along the line they hang on, by their index. */
export function sliding(rode: readonly Part[]): readonly number[] {
  return rode.flatMap((part, i) => (part.kind === "point" && sameLine(rode[i - 1], rode[i + 1]) ? [i] : []));
}

/** The rode with a part put in before index `at`. */
export function withPart(rode: readonly Part[], at: number, part: Part): readonly Part[] {
  return [...rode.slice(0, at), part, ...rode.slice(at)];
}

/** A weight hung on a line at its middle: the line is cut in two, so that the weight can slide. */
export function hungOn(rode: readonly Part[], line: number, weight: PointPart): readonly Part[] {
  const cut = rode[line];
  if (cut?.kind !== "line") return withPart(rode, line + 1, weight);
  const half = { ...cut, length: cut.length / 2 };
  return [...rode.slice(0, line), half, weight, half, ...rode.slice(line + 1)];
}

/** The rode without a part; a line that was cut for it is whole again. */
export function withoutPart(rode: readonly Part[], at: number): readonly Part[] {
  const [before, after] = [rode[at - 1], rode[at + 1]];
  if (rode[at]?.kind === "point" && sameLine(before, after)) {
    const whole = { ...(before as LinePart), length: (before as LinePart).length + (after as LinePart).length };
    return [...rode.slice(0, at - 1), whole, ...rode.slice(at + 2)];
  }
  return rode.filter((_, i) => i !== at);
}

/** The rode with a part moved to another place in the list. */
export function movedPart(rode: readonly Part[], from: number, to: number): readonly Part[] {
  const part = rode[from];
  if (part === undefined || to < 0 || to >= rode.length) return rode;
  const rest = rode.filter((_, i) => i !== from);
  return withPart(rest, to, part);
}

/** The rode with one part changed. */
export function changedPart(rode: readonly Part[], at: number, part: Part): readonly Part[] {
  return rode.map((old, i) => (i === at ? part : old));
}

/** The line one pays out: the one nearest the bow. */
export function paidOut(rode: readonly Part[]): number {
  return rode.findLastIndex((part) => part.kind === "line");
}

export const totalLength = (rig: Rig): number =>
  rig.rode.reduce((sum, part) => sum + (part.kind === "line" ? part.length : 0), 0);
