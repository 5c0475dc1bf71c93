/** What of a rig may be unknown, and the rig with a value put in its place. */
import { InputError } from "../quantity/index.ts";
import { type Part, type Rig, riseOf } from "./model.ts";

export type Unknown =
  /** Unloaded length of the n-th part (a line; 1 is next to the anchor), m. */
  | { readonly what: "length"; readonly part: number }
  /** Depth of water over the anchor, m. */
  | { readonly what: "depth" }
  /** Height of the upper end over the anchor, m; afloat the depth changes with it. */
  | { readonly what: "rise" }
  /** The load itself, N. */
  | { readonly what: "pull" }
  /** Mass of the n-th part (a point), kg. */
  | { readonly what: "mass"; readonly part: number }
  /** Distance of the n-th part (a point between two lines of one kind) along the rode from the anchor, m. */
  | { readonly what: "place"; readonly part: number };

/** Reads `length:N`, `depth`, `rise`, `pull`, `mass:N` or `place:N`. */
export function readUnknown(text: string, place: string): Unknown {
  const match = /^(length|mass|place):([1-9]\d*)$/.exec(text);
  if (match !== null) return { what: match[1] as "length" | "mass" | "place", part: Number(match[2]) };
  if (text === "depth" || text === "rise" || text === "pull") return { what: text };
  throw new InputError(
    place,
    JSON.stringify(text),
    "one of length:N, depth, rise, pull, mass:N, place:N is expected, such as length:1",
  );
}

/** Checks that a rig has such an unknown. @throws InputError naming the part and what stands there */
export function checkUnknown(rig: Rig, unknown: Unknown, place: string): void {
  if (unknown.what === "depth" && rig.setting.medium !== "water") {
    throw new InputError(place, "depth", "a rig in water has a depth; a rig in air has a rise");
  }
  if (!("part" in unknown)) return;
  const part = rig.rode[unknown.part - 1];
  const given = `${unknown.what}:${unknown.part}`;
  if (part === undefined) throw new InputError(place, given, `a part from 1 to ${rig.rode.length} is expected`);
  if (unknown.what === "length" && part.kind !== "line")
    throw new InputError(place, given, `a line is expected; part ${unknown.part} is a point`);
  if (unknown.what !== "length" && part.kind !== "point")
    throw new InputError(place, given, `a point is expected; part ${unknown.part} is a line`);
  if (unknown.what === "place") {
    const [below, above] = [rig.rode[unknown.part - 2], rig.rode[unknown.part]];
    if (below?.kind !== "line" || above?.kind !== "line")
      throw new InputError(place, given, "a point between two lines is expected");
    if (!sameLine(below, above))
      throw new InputError(
        place,
        given,
        "a point between two lengths of one kind of line is expected, so that it can slide",
      );
  }
}

function sameLine(a: Part, b: Part): boolean {
  if (a.kind !== "line" || b.kind !== "line") return false;
  return (
    a.massPerLength === b.massPerLength &&
    a.density === b.density &&
    JSON.stringify(a.stretch) === JSON.stringify(b.stretch)
  );
}

/** The value the rig has now; undefined for the pull. */
export function currentValue(rig: Rig, unknown: Unknown): number | undefined {
  switch (unknown.what) {
    case "length":
      return lengthOf(rig.rode[unknown.part - 1]!);
    case "mass":
      return (rig.rode[unknown.part - 1] as { mass: number }).mass;
    case "place":
      return rig.rode.slice(0, unknown.part - 1).reduce((sum, part) => sum + lengthOf(part), 0);
    case "depth":
      return rig.setting.medium === "water" ? rig.setting.depth : undefined;
    case "rise":
      return riseOf(rig.setting);
    case "pull":
      return undefined;
  }
}

/** The rig with the unknown set. The pull is not part of a rig: it comes back unchanged. */
export function withValue(rig: Rig, unknown: Unknown, value: number): Rig {
  switch (unknown.what) {
    case "pull":
      return rig;
    case "depth":
      return rig.setting.medium === "water" ? { ...rig, setting: { ...rig.setting, depth: value } } : rig;
    case "rise":
      return rig.setting.medium === "water"
        ? { ...rig, setting: { ...rig.setting, depth: value - rig.setting.rollerHeight } }
        : { ...rig, setting: { ...rig.setting, rise: value } };
    case "length":
      return withParts(rig, unknown.part - 1, (part) => ({ ...part, length: value }) as Part);
    case "mass":
      return withParts(rig, unknown.part - 1, (part) => ({ ...part, mass: value }) as Part);
    case "place": {
      const i = unknown.part - 1;
      const before = rig.rode.slice(0, i - 1).reduce((sum, part) => sum + lengthOf(part), 0);
      const both = lengthOf(rig.rode[i - 1]!) + lengthOf(rig.rode[i + 1]!);
      const below = value - before;
      const moved = withParts(rig, i - 1, (part) => ({ ...part, length: below }) as Part);
      return withParts(moved, i + 1, (part) => ({ ...part, length: both - below }) as Part);
    }
  }
}

export function lengthOf(part: Part): number {
  return part.kind === "line" ? part.length : 0;
}

function withParts(rig: Rig, at: number, change: (part: Part) => Part): Rig {
  return { ...rig, rode: rig.rode.map((part, i) => (i === at ? change(part) : part)) };
}

/** Bounds between which a value makes sense, m, kg or N. */
export function boundsOf(rig: Rig, unknown: Unknown): [low: number, high: number] {
  const total = rig.rode.reduce((sum, part) => sum + lengthOf(part), 0);
  const rise = riseOf(rig.setting);
  switch (unknown.what) {
    case "length": {
      const others = total - lengthOf(rig.rode[unknown.part - 1]!);
      return [Math.max(rise - others, 0) + 1e-9 * rise, 1e3 * (rise + total)];
    }
    case "depth":
      return [1e-3 * total, total - (rig.setting.medium === "water" ? rig.setting.rollerHeight : 0)];
    case "rise":
      return [1e-3 * total + (rig.setting.medium === "water" ? rig.setting.rollerHeight : 0), total];
    case "mass":
      return [1e-6, 1e5];
    case "place": {
      const i = unknown.part - 1;
      const before = rig.rode.slice(0, i - 1).reduce((sum, part) => sum + lengthOf(part), 0);
      const both = lengthOf(rig.rode[i - 1]!) + lengthOf(rig.rode[i + 1]!);
      return [before + 1e-6 * both, before + both * (1 - 1e-6)];
    }
    case "pull":
      return [1e-3, 1e9];
  }
}
