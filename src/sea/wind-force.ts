/**
 * Force of a steady wind on a boat lying still.
 *
 * Axes: x aft along the hull (head wind positive), y to leeward across it; yaw ψ is the angle of the wind off the bow.
 *   F_x = ½ ρ V₁₀² Σ C A m · a(ψ),   F_y = ½ ρ V₁₀² Σ C A m · b(ψ)
 * with m the mean of (V(z)/V₁₀)² over the surface's height, front faces in F_x and side faces in F_y, and the shares
 * a = cos ψ, b = sin ψ unless the boat states its own by heading. The rode holds both: the load is their resultant.
 * @source form: UFC 4-159-03, eq. 2 and eq. 6 with θx = 90° (seen); a boat's own shares replace the sine and cosine
 */
import type { Boat, HeadingShare } from "./boat.ts";
import { AIR_DENSITY } from "./fluids.ts";
import { meanSquareWind, OPEN_WATER, type WindProfile } from "./wind-profile.ts";
import { type Face, surfaces } from "./windage.ts";

export interface SurfaceForce {
  readonly name: string;
  /** N, along and across the hull. */
  readonly along: number;
  readonly across: number;
}

/** Force of the wind on a boat along and across her, N. */
export interface WindForce {
  /** N, along and across the hull, and the resultant. */
  readonly along: number;
  readonly across: number;
  readonly resultant: number;
  readonly bySurface: readonly SurfaceForce[];
}

/** Air, and how wind grows over height. */
export interface WindSetting {
  readonly airDensity: number;
  readonly profile: WindProfile;
}

/** Air and its profile over open water, where nothing else is told. */
export const USUAL_AIR: WindSetting = { airDensity: AIR_DENSITY, profile: OPEN_WATER };

/** Force of a wind of `speed` (m/s at 10 m) `yaw` (rad) off the bow; zero on a boat without stated windage. */
export function windForce(boat: Boat, speed: number, yaw: number, setting: WindSetting = USUAL_AIR): WindForce {
  const pressure = 0.5 * setting.airDensity * speed * speed;
  const share = headingShare(yaw, boat.windage?.byHeading);
  const bySurface = surfaces(boat).map((surface) => ({
    name: surface.name,
    along: pressure * dragArea(surface.front, setting.profile) * share.along,
    across: pressure * dragArea(surface.side, setting.profile) * share.across,
  }));
  const along = bySurface.reduce((sum, part) => sum + part.along, 0);
  const across = bySurface.reduce((sum, part) => sum + part.across, 0);
  return { along, across, resultant: Math.hypot(along, across), bySurface };
}

/** C A m of a face, m². */
export function dragArea(face: Face, profile: WindProfile): number {
  return face.drag * face.area * meanSquareWind(profile, face.foot, face.top);
}

/** Shares of the head-on and beam-on force at `yaw`, port and starboard alike; straight between a boat's own rows. */
export function headingShare(yaw: number, rows?: readonly HeadingShare[]): { along: number; across: number } {
  const turned = Math.abs(Math.atan2(Math.sin(yaw), Math.cos(yaw)));
  const side = Math.sin(yaw) < 0 ? -1 : 1;
  if (rows === undefined) return { along: Math.cos(turned), across: side * Math.sin(turned) };
  const next = rows.findIndex((row) => row.angle >= turned);
  if (next === -1) return { along: rows.at(-1)!.along, across: side * rows.at(-1)!.across };
  if (next === 0) return { along: rows[0]!.along, across: side * rows[0]!.across };
  const [a, b] = [rows[next - 1]!, rows[next]!];
  const t = (turned - a.angle) / (b.angle - a.angle);
  return { along: a.along + t * (b.along - a.along), across: side * (a.across + t * (b.across - a.across)) };
}
