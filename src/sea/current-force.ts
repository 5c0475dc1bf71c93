/**
 * Force of a steady current on a boat lying still, axes and angle as for the wind (angle 0: from ahead).
 *
 * Along (UFC 4-159-03 eq. 16-20):
 *   form      ½ ρ V² B T · 0.1 cos θ
 *   friction  ½ ρ V² S · 0.075/(log₁₀ Re − 2)² cos θ,  S = 1.7 T L + ∇/T,  Re = V L cos θ / ν
 * Across (eq. 11-13):
 *   ½ ρ V² L T C sin θ,  C = C₀ + (3.2 − C₀)(T/d)²,  C₀ = 0.22 √χ,  χ = L² A_m / (B ∇)
 * L waterline, B beam, T draught of the body, ∇ displaced volume, d depth, A_m midship section (∇ / 0.55 L: a prismatic
 * coefficient of 0.55 is assumed). The rules were fitted to ships; the keel of a yacht and a stopped propeller add to it.
 * @source UFC 4-159-03, sec. 4-5 (formulae seen)
 */
import type { Boat } from "./boat.ts";
import { SEA_WATER_DENSITY, SEA_WATER_VISCOSITY } from "./fluids.ts";
import { bodyDraughtOf, waterlineOf } from "./hull.ts";

/** Force of a current on a boat along and across her, N. */
export interface CurrentForce {
  /** N */
  readonly form: number;
  readonly friction: number;
  readonly along: number;
  readonly across: number;
  readonly resultant: number;
  /** 1 */
  readonly reynolds: number;
  readonly frictionCoefficient: number;
  /** m² */
  readonly wettedArea: number;
}

/** The water a boat lies in: density, viscosity, depth. */
export interface WaterSetting {
  /** kg/m³, m²/s */
  readonly waterDensity: number;
  readonly viscosity: number;
  /** m; Infinity: deep. */
  readonly depth: number;
}

/** Sea water as deep as no boat notices. */
export const DEEP_SEA_WATER: WaterSetting = {
  waterDensity: SEA_WATER_DENSITY,
  viscosity: SEA_WATER_VISCOSITY,
  depth: Number.POSITIVE_INFINITY,
};

const formCoefficient = 0.1;
const prismatic = 0.55;

/** Force of a current of `speed` (m/s) coming from `angle` (rad) off the bow. */
export function currentForce(
  boat: Boat,
  speed: number,
  angle: number,
  water: WaterSetting = DEEP_SEA_WATER,
): CurrentForce {
  const length = waterlineOf(boat).value;
  const draught = bodyDraughtOf(boat).value;
  const volume = boat.displacement / water.waterDensity;
  const pressure = 0.5 * water.waterDensity * speed * speed;
  const ahead = Math.cos(angle);
  const reynolds = (speed * length * Math.abs(ahead)) / water.viscosity;
  const coefficient = frictionCoefficient(reynolds);
  const wettedArea = 1.7 * draught * length + volume / draught;
  const form = pressure * boat.beam * draught * formCoefficient * ahead;
  const friction = pressure * wettedArea * coefficient * ahead;
  const slender = (length * length * (volume / (prismatic * length))) / (boat.beam * volume);
  const across = pressure * length * draught * acrossCoefficient(slender, draught / water.depth) * Math.sin(angle);
  return {
    form,
    friction,
    along: form + friction,
    across,
    resultant: Math.hypot(form + friction, across),
    reynolds,
    frictionCoefficient: coefficient,
    wettedArea,
  };
}

/**
 * C = 0.075 / (log₁₀ Re − 2)². It has a pole at Re = 100 and no meaning far below its turbulent range, so from 1000 down
 * it is held at its value there (0.075): in such a creep the force is next to nothing.
 * @source ITTC 1957 line; UFC 4-159-03 eq. 19 (seen)
 */
export function frictionCoefficient(reynolds: number): number {
  return 0.075 / (Math.log10(Math.max(reynolds, 1000)) - 2) ** 2;
}

/** C across the hull at a share T/d of the depth (0: deep, at most 1), for χ of the ship. @source UFC 4-159-03 eq. 11-13 (seen) */
export function acrossCoefficient(chi: number, draughtOverDepth: number): number {
  const deep = 0.22 * Math.sqrt(chi);
  return deep + (3.2 - deep) * Math.min(draughtOverDepth, 1) ** 2;
}
