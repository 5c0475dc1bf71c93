/** What the place asks of the sea room: conditions of the boat, the loads of one wind, and the wind a load is worth. */

import { KNOT } from "../../quantity/index.ts";
import type { Pull } from "../../rode/index.ts";
import {
  type Boat,
  bowSurge,
  type Conditions,
  DEEP_SEA_WATER,
  type Estimate,
  type GustModel,
  jonswap,
  type Measured,
  type Surge,
  USUAL_AIR,
  type Weather,
  type WindsForLoad,
  waveLength,
  weather,
} from "../../sea/index.ts";
import type { Around, GustName, Road, WeatherState } from "./state.ts";

const models: Readonly<Record<Exclude<GustName, "none">, GustModel>> = {
  froya: { kind: "froya" },
  "kaimal-a": { kind: "kaimal", turbulence: "A" },
  "kaimal-b": { kind: "kaimal", turbulence: "B" },
  "kaimal-c": { kind: "kaimal", turbulence: "C" },
  "ochi-shin": { kind: "ochi-shin" },
};

/** Why a sea cannot be; null when it can. The same bounds as the command's. */
export function seaTrouble({ waves, wavePeriod }: Around, depth: number): string | null {
  if (!(waves > 0)) return null;
  const length = waveLength(wavePeriod, depth);
  if (waves > length / 7)
    return `waves: ${waves} m in ${wavePeriod} s breaks, the waves being ${length.toPrecision(2)} m long; a lower height or a longer period is expected`;
  if (waves > 0.8 * depth) return "waves: they break above eight tenths of the depth; a lower height is expected";
  return null;
}

/** Depth the boat floats in, m; deep where the rig states none she could. */
export const depthOf = ({ rig, boat }: Pick<WeatherState, "rig" | "boat">): number =>
  rig.setting.medium === "water" && rig.setting.depth > boat.draught ? rig.setting.depth : Number.POSITIVE_INFINITY;

/** Conditions of a wind; the sea is asked of apart, since it does not change with the pointer. */
export function conditionsOf({ around, boat, rig }: Pick<WeatherState, "around" | "boat" | "rig">): Conditions {
  const { gust, gustTime, averaging } = around;
  const depth = depthOf({ rig, boat });
  return {
    air: USUAL_AIR,
    yaw: around.yaw,
    water: {
      ...DEEP_SEA_WATER,
      depth,
      ...(rig.setting.medium === "water" ? { waterDensity: rig.setting.waterDensity } : {}),
    },
    ...(boat.veering === undefined ? {} : { veering: boat.veering }),
    ...(gust === "none" ? {} : { gust: { model: models[gust], averaging, duration: Math.min(gustTime, averaging) } }),
    ...(around.current > 0
      ? { current: { speed: { value: around.current, u: around.currentU }, angle: around.currentAngle } }
      : {}),
  };
}

/** How far and how fast the bow would surge in the sea if nothing held it; null without a sea that can be. */
export function surgeOf({ around, boat, rig }: Pick<WeatherState, "around" | "boat" | "rig">): Surge | null {
  const depth = depthOf({ rig, boat });
  if (!(around.waves > 0) || seaTrouble(around, depth) !== null) return null;
  return bowSurge(boat, jonswap(around.waves, around.wavePeriod), depth);
}

/** A load on the rode with the words that say what it is. */
export interface RoadLoad extends Estimate {
  readonly name: string;
}

export interface LoadsAt {
  readonly weather: Weather;
  /** Along the road taken: the mean, and the largest it knows of; null where it knows none. */
  readonly mean: RoadLoad | null;
  readonly peak: RoadLoad | null;
}

/** The loads of one mean wind. */
export function loadsAt(boat: Boat, road: Road | null, conditions: Conditions, wind: Measured): LoadsAt {
  const answer = weather(boat, wind, conditions);
  if (road === null) return { weather: answer, mean: null, peak: null };
  if (road === "windage") {
    const { steady, gust } = answer.windage!;
    return {
      weather: answer,
      mean: { ...steady, name: "steady load by windage" },
      peak: gust === undefined ? null : { ...gust, name: "in the gust, by windage" },
    };
  }
  const own = answer.measured.find(({ at }) => at === road);
  return {
    weather: answer,
    mean: own === undefined ? null : { ...own.mean, name: "mean load by its own points" },
    peak: own?.peak === undefined ? null : { ...own.peak, name: "brief peaks by its own points" },
  };
}

/** The end of the rode a road's loads are read at. */
export const pullAlong = (road: Road, newtons: number): Extract<Pull, { newtons: number }> => ({
  at: road === "windage" ? "horizontal" : road,
  newtons,
});

/** The mean wind a load is worth along one road, with its ±; null where the road gives none. */
export function windForLoadAlong(worth: WindsForLoad, road: Road): Estimate | null {
  if (road === "windage") return worth.windage?.kind === "wind" ? worth.windage.wind : null;
  return worth.measured.find(({ at }) => at === road)?.mean ?? null;
}

export const roadName: Readonly<Record<Road, string>> = {
  windage: "windage",
  bow: "own points at the bow",
  horizontal: "own points, horizontal",
  anchor: "own points at the anchor",
};

/** Mean loads along a road at winds of every ten knots within the axis, N. */
export function loadsOver(
  boat: Boat,
  road: Road | null,
  conditions: Conditions,
  most: number,
): readonly { readonly wind: number; readonly load: number }[] {
  return [10, 20, 30, 40, 50, 60]
    .map((knots) => knots * KNOT)
    .filter((wind) => wind <= most)
    .flatMap((wind) => {
      const { mean } = loadsAt(boat, road, conditions, { value: wind, u: 0 });
      return mean === null ? [] : [{ wind, load: mean.value }];
    });
}
