/** What of a rig may be unknown, and the rig with a value put in its place. */
import { InputError, quoted } from "../quantity/index.ts";
import { type Part, type Rig, riseOf } from "./model.ts";

/** What of a rig may be looked for. */
export type Unknown =
  /** Unloaded length of the n-th part (a line; 1 is next to the anchor), m. */
  | { readonly what: "length"; readonly part: number }
  /** Depth of water over the anchor, m. */
  | { readonly what: "depth" }
  /** Height of the upper end over the anchor, m; afloat the depth changes with it. */
  | { readonly what: "rise" }
  /** Length of the whole rode over its rise, 1: its longest line is paid out. */
  | { readonly what: "scope" }
  /** The load itself, N. */
  | { readonly what: "pull" }
  /** Mass of the n-th part (a point), kg. */
  | { readonly what: "mass"; readonly part: number }
  /** Distance of the n-th part (a point between two lines of one kind) along the rode from the anchor, m. */
  | { readonly what: "place"; readonly part: number };

/** The unknowns as a command line names them. */
export const UNKNOWNS = "length:N, scope, depth, rise, pull, mass:N, place:N";

/** Reads one of `UNKNOWNS`. @throws InputError */
export function readUnknown(text: string, place: string): Unknown {
  const match = /^(length|mass|place):([1-9]\d*)$/.exec(text);
  if (match !== null) return { what: match[1] as "length" | "mass" | "place", part: Number(match[2]) };
  if (text === "scope" || text === "depth" || text === "rise" || text === "pull") return { what: text };
  throw new InputError(place, quoted(text), `one of ${UNKNOWNS} is expected, such as length:1`);
}

/** Checks that a rig has such an unknown. @throws InputError naming the part and what stands there */
export function checkUnknown(rig: Rig, unknown: Unknown, place: string): void {
  if (unknown.what === "depth" && rig.setting.medium !== "water") {
    throw new InputError(place, quoted("depth"), "rise is expected: a rig in air has no depth");
  }
  if (unknown.what === "scope") {
    if (!(riseOf(rig.setting) > 0))
      throw new InputError(place, quoted("scope"), "a rig whose upper end lies above its anchor is expected");
    if (lengthOf(rig.rode[longestLine(rig) - 1]!) === 0)
      throw new InputError(place, quoted("scope"), "a rode with a line to pay out is expected");
  }
  if (!("part" in unknown)) return;
  const part = rig.rode[unknown.part - 1];
  const given = quoted(`${unknown.what}:${unknown.part}`);
  if (part === undefined) {
    const last = rig.rode.length;
    throw new InputError(
      place,
      given,
      last === 1 ? "part 1 is expected: the rode has no other" : `a part from 1 to ${last} is expected`,
    );
  }
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

/**
 * The value the rig has now.
 * @param unknown part numbers count from the anchor, 1 first; `checkUnknown` says whether the rig has it
 * @returns m (length, place, depth, rise), kg (mass) or 1 (scope); undefined for the pull, which is no part of a rig
 */
export function currentValue(rig: Rig, unknown: Unknown): number | undefined {
  switch (unknown.what) {
    case "length":
      return lengthOf(rig.rode[unknown.part - 1]!);
    case "scope":
      return wholeLength(rig) / riseOf(rig.setting);
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

/**
 * The rig with the unknown set, the one given left as it is. The pull is no part of a rig: it comes back unchanged.
 * @param value m (length, place, depth, rise), kg (mass) or 1 (scope, by its longest line)
 */
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
    case "scope": {
      const i = longestLine(rig) - 1;
      const others = wholeLength(rig) - lengthOf(rig.rode[i]!);
      return withParts(rig, i, (part) => ({ ...part, length: value * riseOf(rig.setting) - others }) as Part);
    }
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

/** Unloaded length of a part, m; 0 for a point. */
export function lengthOf(part: Part): number {
  return part.kind === "line" ? part.length : 0;
}

/** The longest line of a rode, counted from the anchor, 1 first; of equals the one nearest the bow. */
export function longestLine(rig: Rig): number {
  let longest = 1;
  rig.rode.forEach((part, i) => {
    if (lengthOf(part) > 0 && lengthOf(part) >= lengthOf(rig.rode[longest - 1]!)) longest = i + 1;
  });
  return longest;
}

function wholeLength(rig: Rig): number {
  return rig.rode.reduce((sum, part) => sum + lengthOf(part), 0);
}

function withParts(rig: Rig, at: number, change: (part: Part) => Part): Rig {
  return { ...rig, rode: rig.rode.map((part, i) => (i === at ? change(part) : part)) };
}

/** Bounds between which a value makes sense, m, kg or N. */
export function boundsOf(rig: Rig, unknown: Unknown): [low: number, high: number] {
  const total = wholeLength(rig);
  const rise = riseOf(rig.setting);
  switch (unknown.what) {
    case "length": {
      const others = total - lengthOf(rig.rode[unknown.part - 1]!);
      return [Math.max(rise - others, 0) + 1e-9 * rise, 1e3 * (rise + total)];
    }
    case "scope": {
      const [low, high] = boundsOf(rig, { what: "length", part: longestLine(rig) });
      const others = total - lengthOf(rig.rode[longestLine(rig) - 1]!);
      return [(low + others) / rise, (high + others) / rise];
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
