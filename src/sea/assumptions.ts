/** Everything an answer rests on that nobody stated, typed: shown with it, so that no guess passes for a fact. */
import type { Boat, LoadEnd } from "./boat.ts";
import { ASSUMED_EXPONENT_U, ASSUMED_POINT, calibrate } from "./calibrate.ts";
import { bodyDraughtOf, type Derivation, waterlineOf } from "./hull.ts";
import type { LoadLaw } from "./load-law.ts";
import { ASSUMED, type Conditions } from "./windage-load.ts";

/** Something an answer of wind and sea takes for granted, as a cause. */
export type Assumption =
  /** A relative standard uncertainty, as a share. */
  | {
      readonly kind: "uncertainty";
      readonly of: "drag" | "area" | "airDensity" | "current" | "engineThrust";
      readonly share: number;
    }
  /** The same of measured points at one end; of the exponent it is no share but a standard uncertainty of its own. */
  | {
      readonly kind: "points";
      readonly at: LoadEnd;
      readonly of: "load" | "peak" | "wind" | "exponent";
      readonly u: number;
    }
  /** The square law stands where a fitted exponent tells less, or is no law of wind. */
  | {
      readonly kind: "squareLawKept";
      readonly at: LoadEnd;
      readonly fitted: NonNullable<LoadLaw["setAside"]>;
    }
  /** A length of the boat that her file does not state. */
  | { readonly kind: "dimension"; readonly of: "waterline" | "bodyDraught"; readonly from: Derivation }
  | { readonly kind: "gustFactorSure" | "pointsWithoutCurrent" | "freeBoxSurge" };

/** What an answer takes for granted, as causes; sentences are made elsewhere. */
export function assumptions(boat: Boat, conditions: Conditions): readonly Assumption[] {
  const assumed: Assumption[] = [];
  const { uncertainty } = boat;
  const { current, sea, gust } = conditions;
  const share = (of: Extract<Assumption, { kind: "uncertainty" }>["of"]): void => {
    assumed.push({ kind: "uncertainty", of, share: ASSUMED[of] });
  };
  if (boat.windage !== undefined) {
    if (uncertainty.drag === undefined) share("drag");
    if (uncertainty.area === undefined) share("area");
    share("airDensity");
    if (gust !== undefined) assumed.push({ kind: "gustFactorSure" });
  }
  if (current !== undefined) {
    if (uncertainty.current === undefined) share("current");
    if (boat.measured.length > 0) assumed.push({ kind: "pointsWithoutCurrent" });
  }
  if (current !== undefined || sea !== undefined) {
    if (boat.waterline === undefined)
      assumed.push({ kind: "dimension", of: "waterline", from: waterlineOf(boat).from });
    if (boat.bodyDraught === undefined)
      assumed.push({ kind: "dimension", of: "bodyDraught", from: bodyDraughtOf(boat).from });
  }
  if (sea !== undefined) assumed.push({ kind: "freeBoxSurge" });
  for (const { at, assumed: ofPoints, mean } of calibrate(boat, conditions.air.profile)) {
    const known = { load: ASSUMED_POINT.load, peak: ASSUMED_POINT.load, wind: ASSUMED_POINT.wind };
    for (const of of ["load", "peak", "wind"] as const)
      if (ofPoints.includes(of)) assumed.push({ kind: "points", at, of, u: known[of] });
    if (ofPoints.includes("exponent")) assumed.push({ kind: "points", at, of: "exponent", u: ASSUMED_EXPONENT_U });
    if (mean.setAside !== undefined) assumed.push({ kind: "squareLawKept", at, fitted: mean.setAside });
  }
  if (boat.engineThrust !== undefined && uncertainty.engineThrust === undefined) share("engineThrust");
  return assumed;
}
