/** In words, everything an answer rests on that nobody stated: shown with it, so that no guess passes for a fact. */
import { roundToUncertainty } from "../quantity/index.ts";
import type { Boat } from "./boat.ts";
import { ASSUMED_EXPONENT_U, ASSUMED_POINT, calibrate } from "./calibrate.ts";
import { bodyDraughtOf, waterlineOf } from "./hull.ts";
import { ASSUMED, type Conditions } from "./windage-load.ts";

/** One short sentence each. */
export function assumptions(boat: Boat, conditions: Conditions): readonly string[] {
  const said: string[] = [];
  const { uncertainty } = boat;
  const { current, sea, gust } = conditions;
  if (boat.windage !== undefined) {
    if (uncertainty.drag === undefined) said.push(`drag coefficients to ${percent(ASSUMED.drag)}`);
    if (uncertainty.area === undefined) said.push(`areas to ${percent(ASSUMED.area)}`);
    said.push(`air density to ${percent(ASSUMED.airDensity)}`);
    if (gust !== undefined) said.push("the gust factor as the model has it, without uncertainty");
  }
  if (current !== undefined) {
    if (uncertainty.current === undefined) said.push(`force of the current to ${percent(ASSUMED.current)}`);
    if (boat.measured.length > 0) said.push("measured points without current: none is added to what they give");
  }
  if (current !== undefined || sea !== undefined) {
    if (boat.waterline === undefined) said.push(`waterline ${waterlineOf(boat).how}`);
    if (boat.bodyDraught === undefined) said.push(`draught of the body ${bodyDraughtOf(boat).how}`);
  }
  if (sea !== undefined) said.push("surge of a free box in long-crested waves from ahead, without uncertainty");
  for (const { at, assumed, mean } of calibrate(boat, conditions.air.profile)) {
    const where = `points at the ${at === "horizontal" ? "bow, horizontal" : at}`;
    if (assumed.includes("load")) said.push(`${where}: loads to ${percent(ASSUMED_POINT.load)}`);
    if (assumed.includes("peak")) said.push(`${where}: peaks to ${percent(ASSUMED_POINT.load)}`);
    if (assumed.includes("wind")) said.push(`${where}: wind to ${percent(ASSUMED_POINT.wind)}`);
    if (assumed.includes("exponent")) said.push(`${where}: exponent to ${ASSUMED_EXPONENT_U}`);
    if (mean.setAside !== undefined) {
      const { value, u, because } = mean.setAside;
      const shown = roundToUncertainty(value, u);
      said.push(`${where}: square law kept, a fitted exponent of ${shown.value} ± ${shown.u} ${because}`);
    }
  }
  if (boat.engineThrust !== undefined && uncertainty.engineThrust === undefined) {
    said.push(`engine thrust to ${percent(ASSUMED.engineThrust)}`);
  }
  return said;
}

function percent(share: number): string {
  return `${Math.round(100 * share)} %`;
}
