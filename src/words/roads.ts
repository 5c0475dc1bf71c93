/** How a boat's own points lie to her windage and to the tables of the trade: one sentence each, with why. */
import { formatQuantity, significant, type UnitSystem } from "../quantity/index.ts";
import type { RoadsBeside, TablesBeside } from "../sea/index.ts";
import { besideWords, type Stated } from "./beside.ts";

interface Shown {
  readonly system: UnitSystem;
  /** Of loads, and of winds. */
  readonly force?: string | undefined;
  readonly speed?: string | undefined;
}

const load = ({ system, force }: Shown, { value, u }: Stated): string =>
  formatQuantity(value, "force", {
    system,
    ...(force === undefined ? {} : { unit: force }),
    ...(u > 0 ? { u } : { digits: 3 }),
  });

/** `The two roads agree: the mean loads by her own points and by windage are the same within their ±.` */
export function roadsSentence({ at, windage, swinging, points, agree }: RoadsBeside, shown: Shown): string {
  const whose = `her own points${at === "bow" ? " at the bow" : ""}`;
  const road = `by windage${swinging ? " (swinging)" : ""}`;
  const { system, force } = shown;
  const words = besideWords(windage, points, "force", { system, ...(force === undefined ? {} : { unit: force }) });
  if (agree) return `The two roads agree: the mean loads by ${whose} and ${road} are ${words}.`;
  const why =
    points.value > windage.value
      ? "windage knows no swinging it is not told of, and no more area, drag or current than is stated"
      : "her stated area or drag may be too large, or her points were read in less wind than was written down";
  return `The two roads differ: by ${whose} the mean load is ${words} than ${road}; ${why}.`;
}

/** `At 15 kn the tables print 1330 N, 3.5 times her own 380 ± 45 N: they hold …` */
export function tablesSentence({ wind, printed, own, agree }: TablesBeside, shown: Shown): string {
  const { system, speed } = shown;
  const at = formatQuantity(wind, "speed", { system, digits: 3, ...(speed === undefined ? {} : { unit: speed }) });
  const [low, high] = [Math.min(...printed), Math.max(...printed)];
  const one = load(shown, { value: low, u: 0 });
  const print = high === low ? one : `${one} to ${load(shown, { value: high, u: 0 })}`;
  const head = `At ${at} the tables print ${print}`;
  if (agree) return `${head}, which her own points' ${load(shown, own)} do not contradict.`;
  const times = [low, high].map((value) => significant(value / own.value, 2));
  const ratio = times[0] === times[1] ? times[0] : `${times[0]} to ${times[1]}`;
  const why =
    low > own.value
      ? "they hold yaw, surge and a margin for any boat of her length, which a mean read on her does not"
      : high < own.value
        ? "she pulls more than boats of her length are taken to: her own points are the better guide"
        : "they do not agree with each other either";
  return `${head}, ${ratio} times the ${load(shown, own)} of her own points: ${why}.`;
}
