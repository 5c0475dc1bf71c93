import { Command, Option } from "commander";
import { InputError, parseQuantity, quoted, type UnitSystem } from "../quantity/index.ts";
import {
  type Boat,
  type Conditions,
  DEEP_SEA_WATER,
  designLoadTables,
  engineThrustOf,
  type GustModel,
  type Measured,
  profiles,
  readBoat,
  readSea,
  toReferenceHeight,
  USUAL_AIR,
  type Veering,
  type WaveSpectrum,
  type WindProfile,
  weather as weatherOf,
  windsForLoad,
} from "../sea/index.ts";
import type { Io } from "./io.ts";
import { answerJson } from "./options.ts";
import { type Speeds, speedUnit, withSpeeds } from "./speeds.ts";
import { weatherDocument, windForLoadDocument } from "./weather-document.ts";
import { weatherText, windForLoadText } from "./weather-text.ts";

interface Options extends Speeds {
  readonly wind?: string;
  readonly load?: string;
  readonly u?: string;
  readonly windHeight: string;
  readonly profile: WindProfile["kind"];
  readonly yaw: string;
  readonly swing?: string;
  readonly gust?: keyof typeof gustModels;
  readonly gustTime: string;
  readonly averaging: string;
  readonly current?: string;
  readonly currentU: string;
  readonly currentAngle: string;
  readonly waves?: string;
  readonly spectrum: WaveSpectrum["kind"];
  readonly depth?: string;
  readonly units: UnitSystem;
  readonly json?: true;
}

const gustModels = {
  froya: { kind: "froya" },
  "kaimal-a": { kind: "kaimal", turbulence: "A" },
  "kaimal-b": { kind: "kaimal", turbulence: "B" },
  "kaimal-c": { kind: "kaimal", turbulence: "C" },
  "ochi-shin": { kind: "ochi-shin" },
} as const satisfies Record<string, GustModel>;

export function weather(io: Io): Command {
  return withSpeeds(new Command("weather"))
    .argument("<boat>", "boat file (rodebench/boat@1), - for standard input")
    .option("--wind <speed>", 'mean wind, such as "20 kn"')
    .option("--load <load>", 'load, such as "800 lbf": the wind it is worth')
    .option("--u <quantity>", "standard uncertainty of that wind or load (default: taken as exact)")
    .option("--wind-height <height>", "height the wind is meant at", "10 m")
    .addOption(new Option("--profile <shape>", "wind over height").choices(Object.keys(profiles)).default("log"))
    .option("--yaw <angle>", "angle of the wind off the bow", "0 deg")
    .option("--swing <angle,time>", 'largest angle and whole period of a swing, such as "25 deg, 45 s"')
    .addOption(new Option("--gust <model>", "published model of gusts").choices(Object.keys(gustModels)))
    .option("--gust-time <time>", "length of the gust", "3 s")
    .option("--averaging <time>", "time the mean wind is a mean over", "10 min")
    .option("--current <speed>", "current")
    .option("--current-u <speed>", "standard uncertainty of the current", "0 kn")
    .option("--current-angle <angle>", "angle off the bow the current comes from", "0 deg")
    .option("--waves <height,period>", 'significant height and peak period of a sea from ahead, such as "0.6 m, 3 s"')
    .addOption(
      new Option("--spectrum <name>", "spectrum of that sea")
        .choices(["jonswap", "pierson-moskowitz"])
        .default("jonswap"),
    )
    .option("--depth <depth>", "depth of the water (default: deep)")
    .addOption(new Option("--units <system>", "units of the text").choices(["metric", "us"]).default("metric"))
    .option("--json", "one JSON document, in SI units")
    .action(async (path: string, options: Options) => {
      const boat = readBoat(await io.read(path), path === "-" ? "standard input" : path);
      const conditions = conditionsOf(boat, options);
      if (options.wind !== undefined && options.load === undefined) {
        const wind = windOf(options.wind, options, conditions);
        const answer = weatherOf(boat, wind, conditions, designLoadTables);
        const thrust = engineThrustOf(boat);
        const engine = thrust === undefined ? undefined : windsForLoad(boat, thrust, conditions);
        if (options.json) answerJson(io, weatherDocument(boat, answer, conditions, engine));
        else io.out(weatherText(boat, answer, conditions, engine, options.units, speedUnit(options, options.wind)));
      } else if (options.load !== undefined && options.wind === undefined) {
        const answer = windsForLoad(boat, measured(options.load, options.u, "force", "--load"), conditions);
        if (answer.windage === undefined && answer.measured.length === 0) throw nothingToGoBy(path);
        if (options.json) answerJson(io, windForLoadDocument(boat, answer, conditions));
        else io.out(windForLoadText(boat, answer, conditions, options.units, speedUnit(options)));
      } else {
        const given = options.wind === undefined ? "neither --wind nor --load" : "both --wind and --load";
        throw new InputError("weather", given, "one of the two is expected");
      }
      function nothingToGoBy(place: string): InputError {
        return new InputError(
          place,
          "neither windage nor measured points",
          "one of them is expected to tell a wind by",
        );
      }
    });
}

function windOf(text: string, options: Options, { air }: Conditions): Measured {
  const read = measured(text, options.u, "speed", "--wind");
  if (read.value > 100) throw new InputError("--wind", quoted(text), "a wind of at most 100 m/s is expected");
  const height = positive(options.windHeight, "length", "--wind-height");
  const to10 = toReferenceHeight(air.profile, 1, height);
  if (!(to10 > 0 && to10 < 10)) {
    throw new InputError("--wind-height", quoted(options.windHeight), "a height well above the water is expected");
  }
  return { value: read.value * to10, u: read.u * to10 };
}

function conditionsOf(boat: Boat, options: Options): Conditions {
  const yaw = within180(options.yaw, "--yaw");
  const depth = options.depth === undefined ? Number.POSITIVE_INFINITY : positive(options.depth, "length", "--depth");
  if (depth <= boat.draught) {
    throw new InputError(
      "--depth",
      quoted(options.depth),
      "a depth in which the boat floats is expected: more than its draught",
    );
  }
  const veering = options.swing === undefined ? boat.veering : swingOf(options.swing);
  return {
    air: { ...USUAL_AIR, profile: profiles[options.profile] },
    yaw,
    water: { ...DEEP_SEA_WATER, depth },
    ...(veering === undefined ? {} : { veering }),
    ...(options.gust === undefined ? {} : { gust: gustOf(options.gust, options) }),
    ...(options.current === undefined ? {} : { current: currentOf(options.current, options) }),
    ...(options.waves === undefined ? {} : { sea: readSea(options.waves, options.spectrum, depth, "--waves") }),
  };
}

function swingOf(text: string): Veering {
  const parts = text.split(",").map((part) => part.trim());
  if (parts.length !== 2) {
    throw new InputError("--swing", quoted(text), 'a largest angle and a period are expected, such as "25 deg, 45 s"');
  }
  const amplitude = positive(parts[0]!, "angle", "--swing");
  if (amplitude > Math.PI / 2) throw new InputError("--swing", quoted(text), "at most 90 deg is expected");
  return { amplitude, period: positive(parts[1]!, "time", "--swing") };
}

function gustOf(model: keyof typeof gustModels, options: Options): NonNullable<Conditions["gust"]> {
  const averaging = positive(options.averaging, "time", "--averaging");
  if (averaging > 3600) throw new InputError("--averaging", quoted(options.averaging), "at most 1 h is expected");
  const duration = positive(options.gustTime, "time", "--gust-time");
  if (duration > averaging || duration < 1) {
    throw new InputError("--gust-time", quoted(options.gustTime), "a gust from 1 s to the averaging time is expected");
  }
  return { model: gustModels[model], averaging, duration };
}

function currentOf(text: string, options: Options): NonNullable<Conditions["current"]> {
  const value = positive(text, "speed", "--current");
  if (value > 10) throw new InputError("--current", quoted(text), "a current of at most 10 m/s is expected");
  const u = zeroOrMore(options.currentU, "speed", "--current-u");
  return { speed: { value, u }, angle: within180(options.currentAngle, "--current-angle") };
}

function measured(text: string, u: string | undefined, dimension: "speed" | "force", place: string): Measured {
  const value = positive(text, dimension, place);
  return { value, u: u === undefined ? 0 : zeroOrMore(u, dimension, "--u") };
}

function positive(text: string, dimension: "speed" | "force" | "length" | "time" | "angle", place: string): number {
  const value = parseQuantity(text, dimension, place);
  if (value <= 0) throw new InputError(place, quoted(text), "a value above zero is expected");
  return value;
}

function zeroOrMore(text: string, dimension: "speed" | "force", place: string): number {
  const value = parseQuantity(text, dimension, place);
  if (value < 0) throw new InputError(place, quoted(text), "zero or more is expected");
  return value;
}

function within180(text: string, place: string): number {
  const angle = parseQuantity(text, "angle", place);
  if (Math.abs(angle) > Math.PI)
    throw new InputError(place, quoted(text), "an angle within 180 deg either side is expected");
  return angle;
}
