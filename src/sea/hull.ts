/**
 * What a boat file leaves out, and what follows from it: waterline, depth of the body, mass that moves with the boat.
 * Every guess carries how it was made, to be shown.
 */
import type { Boat } from "./boat.ts";
import { SEA_WATER_DENSITY } from "./fluids.ts";

/** How a number that may be missing from a boat file was come by. */
export type Derivation =
  | { readonly kind: "stated" }
  | { readonly kind: "shareOfLength"; readonly share: number }
  | { readonly kind: "wholeDraught" }
  /** Displacement, and water that moves along as this share of it: the body as half a spheroid; no keel in sway. */
  | { readonly kind: "addedWater"; readonly motion: "surge" | "sway"; readonly share: number }
  /** A radius of gyration as this share of the length, and the water that turns along; no keel. */
  | { readonly kind: "gyration"; readonly share: number };

/** A number that no file stated, and where it is from. */
export interface Guess {
  readonly value: number;
  readonly from: Derivation;
}

/** Length of the waterline where none is stated, and radius of gyration in yaw, as shares of the length over all. */
const WATERLINE = 0.9;
const GYRATION = 0.25;

/** Length of the waterline, m; left out: 0.9 of the length over all. */
export function waterlineOf(boat: Boat): Guess {
  return boat.waterline === undefined
    ? { value: WATERLINE * boat.length, from: { kind: "shareOfLength", share: WATERLINE } }
    : { value: boat.waterline, from: { kind: "stated" } };
}

/** Draught of the hull without its keel, m; left out: the whole draught, which the current then meets in full. */
export function bodyDraughtOf(boat: Boat): Guess {
  return boat.bodyDraught === undefined
    ? { value: boat.draught, from: { kind: "wholeDraught" } }
    : { value: boat.bodyDraught, from: { kind: "stated" } };
}

/** Mass and inertia a boat moves with in still water. */
export interface Inertia {
  /** kg: displacement and the water that surges with it. */
  readonly surge: Guess;
  /** kg: displacement and the water that sways with it. */
  readonly sway: Guess;
  /** kg m²: about the vertical through the middle, with the water that turns with it. */
  readonly yaw: Guess;
}

/**
 * Inertia guessed from length and displacement: the body as the lower half of a spheroid as long as the waterline and of
 * the boat's displaced volume, in water without end (Lamb's coefficients); the boat's own radius of gyration in yaw as a
 * quarter of the length. Keel, rudder and shallow water add to sway and yaw and are not counted.
 * @source Lamb, Hydrodynamics, §114-115 (prolate spheroid)
 */
export function inertiaOf(boat: Boat, waterDensity = SEA_WATER_DENSITY): Inertia {
  const halfLength = waterlineOf(boat).value / 2;
  const volume = boat.displacement / waterDensity;
  // Half a spheroid holds (2/3) π a b²; a hull fuller than a sphere of its length counts as a sphere.
  const radius = Math.min(Math.sqrt(volume / ((2 / 3) * Math.PI * halfLength)), halfLength);
  const k = spheroidAddedMass(halfLength / radius);
  const gyration = GYRATION * boat.length;
  const turning =
    boat.displacement * gyration ** 2 + (k.turn * boat.displacement * (halfLength ** 2 + radius ** 2)) / 5;
  return {
    surge: {
      value: boat.displacement * (1 + k.along),
      from: { kind: "addedWater", motion: "surge", share: k.along },
    },
    sway: {
      value: boat.displacement * (1 + k.across),
      from: { kind: "addedWater", motion: "sway", share: k.across },
    },
    yaw: { value: turning, from: { kind: "gyration", share: GYRATION } },
  };
}

/**
 * Lamb's coefficients of added mass of a prolate spheroid of slenderness a/b ≥ 1: along and across its length in units of
 * the mass displaced, and in turning end over end in units of the displaced inertia m (a² + b²)/5.
 * The closed forms cancel near the sphere; below a/b = 1.02 its exact values ½, ½, 0 stand (error below 0.013).
 */
export function spheroidAddedMass(slenderness: number): { along: number; across: number; turn: number } {
  if (slenderness < 1.02) return { along: 0.5, across: 0.5, turn: 0 };
  const e2 = 1 - slenderness ** -2;
  const e = Math.sqrt(e2);
  const l = Math.log((1 + e) / (1 - e));
  const alpha = ((2 * (1 - e2)) / e ** 3) * (l / 2 - e);
  const beta = 1 / e2 - ((1 - e2) / (2 * e ** 3)) * l;
  const d = beta - alpha;
  return {
    along: alpha / (2 - alpha),
    across: beta / (2 - beta),
    turn: (e2 * e2 * d) / ((2 - e2) * (2 * e2 - (2 - e2) * d)),
  };
}
