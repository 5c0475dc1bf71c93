/** What a plan file says of the load and of the surge. */
import { InputError, quoted } from "../quantity/index.ts";
import { type Boat, CALM_SURROUNDINGS, type Conditions, inertiaOf, readBoat } from "../sea/index.ts";
import type { PlanLoad } from "./plan.ts";
import type { PlanFiles } from "./plan-files.ts";
import type { PlanFields } from "./plan-shape.ts";
import { above, notBelow } from "./plan-value.ts";
import type { Surge } from "./snatch.ts";

const GUSTS = {
  froya: { kind: "froya" },
  "kaimal-a": { kind: "kaimal", turbulence: "A" },
  "kaimal-b": { kind: "kaimal", turbulence: "B" },
  "kaimal-c": { kind: "kaimal", turbulence: "C" },
  "ochi-shin": { kind: "ochi-shin" },
} as const;

export function readLoad(given: PlanFields["load"], files: PlanFiles, place: string): PlanLoad {
  const { mean, peak, u, at, boat, wind, by, gust } = given;
  if ((mean === undefined) === (wind === undefined)) {
    const what = mean === undefined ? "neither mean nor wind" : "both mean and wind";
    throw new InputError(place, what, "one of them is expected: a load, or a wind on a boat");
  }
  const only = (field: string, value: unknown, with_: string) => {
    if (value !== undefined) throw new InputError(`${place}.${field}`, quoted(value), `a ${with_} is expected with it`);
  };
  if (mean !== undefined) {
    only("by", by, "wind");
    only("gust", gust, "wind");
    const spread = u === undefined ? 0 : notBelow(u, "force", `${place}.u`);
    const value = above(mean, "force", `${place}.mean`);
    const top = peak === undefined ? undefined : above(peak, "force", `${place}.peak`);
    if (top !== undefined && top < value)
      throw new InputError(`${place}.peak`, quoted(peak), "a load not below the mean is expected");
    return {
      kind: "stated",
      at: at ?? "bow",
      mean: { value, u: spread },
      ...(top === undefined ? {} : { peak: { value: top, u: (spread * top) / value } }),
    };
  }
  only("peak", peak, "mean");
  if (at !== undefined)
    throw new InputError(`${place}.at`, quoted(at), "no end is expected with a wind: the boat's loads know theirs");
  if (boat === undefined)
    throw new InputError(`${place}.boat`, "", "a boat, or the path of its file, is expected with a wind");
  const read = boatOf(boat, files, `${place}.boat`);
  const way = by ?? (read.measured.length > 0 ? "measured" : "windage");
  if (way === "measured" && read.measured.length === 0)
    throw new InputError(`${place}.by`, quoted(way), "a boat with measured points is expected");
  if (way === "windage" && read.windage === undefined)
    throw new InputError(
      `${place}.${by === undefined ? "boat" : "by"}`,
      quoted(by ?? read.name),
      "a boat with windage or measured points is expected",
    );
  if (way === "measured" && gust !== undefined)
    throw new InputError(
      `${place}.gust`,
      quoted(gust),
      "by: windage is expected with it; measured points have peaks of their own",
    );
  const conditions: Conditions =
    gust === undefined
      ? CALM_SURROUNDINGS
      : { ...CALM_SURROUNDINGS, gust: { model: GUSTS[gust], averaging: 600, duration: 3 } };
  return {
    kind: "wind",
    boat: read,
    wind: {
      value: above(wind!, "speed", `${place}.wind`, 100, "100 m/s"),
      u: u === undefined ? 0 : notBelow(u, "speed", `${place}.u`),
    },
    by: way,
    conditions,
  };
}

function boatOf(given: NonNullable<PlanFields["load"]["boat"]>, files: PlanFiles, place: string): Boat {
  if (typeof given !== "string") return readBoat(JSON.stringify(given), place);
  const file = files[given];
  if (file === undefined) throw new InputError(place, quoted(given), "the path of a readable boat file is expected");
  return readBoat(file.text, file.place);
}

/** Standard uncertainty of the surge's speed or distance; 0 where none is stated. */
export function readSurgeU({ speed, u }: NonNullable<PlanFields["surge"]>, place: string): number {
  return u === undefined ? 0 : notBelow(u, speed === undefined ? "length" : "speed", `${place}.u`);
}

export function readSurge(given: NonNullable<PlanFields["surge"]>, load: PlanLoad, place: string): Surge {
  const { speed, mass, distance } = given;
  if ((speed === undefined) === (distance === undefined)) {
    const what = speed === undefined ? "neither speed nor distance" : "both speed and distance";
    throw new InputError(place, what, "one of the two is expected");
  }
  if (distance !== undefined) {
    if (mass !== undefined) throw new InputError(`${place}.mass`, quoted(mass), "a speed is expected with it");
    return { kind: "distance", distance: above(distance, "length", `${place}.distance`) };
  }
  if (mass === undefined && load.kind === "stated")
    throw new InputError(`${place}.mass`, "", "the mass that moves is expected with a speed where no boat is given");
  return {
    kind: "speed",
    speed: above(speed!, "speed", `${place}.speed`, 10, "10 m/s"),
    mass:
      mass === undefined && load.kind === "wind"
        ? inertiaOf(load.boat).surge.value
        : above(mass!, "mass", `${place}.mass`),
  };
}
