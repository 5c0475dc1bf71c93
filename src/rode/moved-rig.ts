/** The one place that moves a rig by what is not known of it: for sensitivities, draws, and fitted unknowns. */
import type { UncertainInput } from "../statistics/index.ts";
import type { LinePart, Part, Rig, RigUncertainty, Setting, StretchLaw } from "./model.ts";

/** What of a rig can be moved, by as much; the same names and units as its uncertainties. */
export type RigMove = { readonly [input in keyof RigUncertainty]?: number } & {
  /** Share by which chain and wire stretch more: no rig file states it, the catalogue's rows do. */
  readonly metalStretch?: number;
};

/** The inputs in the order in which they are told, and their names for people. */
export const RIG_INPUTS: Readonly<Record<keyof RigUncertainty, string>> = {
  massPerLength: "mass per length",
  rise: "rise",
  depth: "depth",
  length: "length",
  stretch: "stretch",
  friction: "friction",
  bottomSlope: "slope of the bottom",
  waterDensity: "water density",
  current: "current",
};

/** The inputs that a rig states as uncertain, each 0 at its estimate. */
export function rigInputs({ uncertainty }: Rig): (UncertainInput & { readonly input: keyof RigUncertainty })[] {
  return (Object.keys(RIG_INPUTS) as (keyof RigUncertainty)[]).flatMap((input) => {
    const u = uncertainty[input] ?? 0;
    return u > 0 ? [{ input, name: RIG_INPUTS[input], value: 0, u }] : [];
  });
}

/**
 * The rig moved: mass per length, length and stretch of every line by a share of themselves, the rest by an amount (m,
 * rad, kg/m³, m/s). Friction ends at none.
 * @returns null where nothing is left of a line, of its stretch or of the depth
 */
export function movedRig(rig: Rig, move: RigMove): Rig | null {
  const [mass, length, stretch] = [1 + (move.massPerLength ?? 0), 1 + (move.length ?? 0), 1 + (move.stretch ?? 0)];
  const metal = 1 + (move.metalStretch ?? 0);
  if (!(mass > 0 && length > 0 && stretch > 0 && metal > 0)) return null;
  const setting = movedSetting(rig.setting, move);
  if (setting.medium === "water" && !(setting.depth > 0)) return null;
  return { ...rig, setting, rode: rodeMoved(rig.rode, mass, length, stretch, metal) };
}

/** The rig with the mass per length of every line at so many times its own, and its rise moved by so much, m. */
export function perturbed(rig: Rig, mass: number, rise: number): Rig {
  return { ...rig, setting: movedSetting(rig.setting, { rise }), rode: rodeMoved(rig.rode, mass, 1, 1) };
}

function rodeMoved(rode: readonly Part[], mass: number, length: number, stretch: number, metal = 1): readonly Part[] {
  if (mass === 1 && length === 1 && stretch === 1 && metal === 1) return rode;
  return rode.map((part) => movedPart(part, mass, length, stretch, metal));
}

function movedSetting(setting: Setting, move: RigMove): Setting {
  const bottom = {
    bottomSlope: setting.bottomSlope + (move.bottomSlope ?? 0),
    bottomFriction: Math.max(0, setting.bottomFriction + (move.friction ?? 0)),
  };
  if (setting.medium === "air") return { ...setting, ...bottom, rise: setting.rise + (move.rise ?? 0) };
  return {
    ...setting,
    ...bottom,
    depth: setting.depth + (move.rise ?? 0) + (move.depth ?? 0),
    waterDensity: setting.waterDensity + (move.waterDensity ?? 0),
    current: setting.current + (move.current ?? 0),
  };
}

function movedPart(part: Part, mass: number, length: number, stretch: number, metal: number): Part {
  if (part.kind === "point") return part;
  return {
    ...part,
    massPerLength: part.massPerLength * mass,
    length: part.length * length,
    stretch: stretchedBy(part.stretch, isRope(part) ? stretch : metal),
  };
}

/** What `stretch` moves; chain and wire are moved by `metalStretch`. */
export function isRope(part: LinePart): boolean {
  return part.material !== "chain" && part.material !== "wire";
}

function stretchedBy(law: StretchLaw, factor: number): StretchLaw {
  if (law.kind === "rigid" || factor === 1) return law;
  if (law.kind === "linear") return { kind: "linear", stiffness: law.stiffness / factor };
  return { kind: "curve", points: law.points.map(([strain, load]) => [strain * factor, load] as const) };
}
