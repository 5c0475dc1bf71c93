/** The place's whole state as fields of an address: boat, rig, weather, and what is asked. */
import type { RopeEnds, SnubberLimits } from "../../sizing/index.ts";
import { rigFields, rigOfFields } from "../rig/address.ts";
import type { Codec, Fields } from "../state/address.ts";
import { boatFields, boatOfFields, short, within } from "./boat-fields.ts";
import {
  type Around,
  type GustName,
  type Road,
  type SnubberAsked,
  type SurgeBy,
  usualWeather,
  type WeatherState,
} from "./desk.ts";
import { gearFields, gearOf } from "./gear-fields.ts";

const DEG = 180 / Math.PI;
const roads: readonly Road[] = ["windage", "bow", "horizontal", "anchor"];
export const gusts: readonly GustName[] = ["none", "froya", "kaimal-a", "kaimal-b", "kaimal-c", "ochi-shin"];
const surges: readonly SurgeBy[] = ["speed", "distance", "waves"];
/** Limits by their names in the address, each with the factor from SI to what stands there. */
const limits = [
  ["peak", 1],
  ["ropeShare", 100],
  ["workingLoadShare", 100],
  ["hook", 1],
  ["cleat", 1],
  ["anchorAngle", DEG],
  ["loopShare", 100],
] as const;
/** A rig has a field of the same name: a boat's roller is part of `hull`, a rig's of `roller`. */
const ofRig = "r-";

export const weatherCodec: Codec<WeatherState> = {
  name: "weather",
  write: (state) => ({
    wind: short(state.wind),
    "u-wind": short(state.windU),
    most: short(state.most),
    road: state.road,
    ...aroundFields(state.around),
    load: `${short(state.load)}*${short(state.loadU)}`,
    give: short(1000 * state.give),
    surge: `${state.surge.by}*${short(state.surge.speed)}*${short(state.surge.distance)}`,
    ...snubberFields(state.snubber),
    ...gearFields(state.gear),
    ...boatFields(state.boat),
    ...Object.fromEntries(Object.entries(rigFields(state.rig)).map(([name, text]) => [ofRig + name, text])),
  }),
  read(fields) {
    const usual = usualWeather;
    const boat = boatOfFields(fields);
    const rig = rigOfFields(
      Object.fromEntries(
        Object.entries(fields).flatMap(([name, text]) =>
          name.startsWith(ofRig) ? [[name.slice(ofRig.length), text]] : [],
        ),
      ),
    );
    if (boat === null && rig === null && fields.wind === undefined) return null;
    const [load, loadU] = (fields.load ?? "").split("*");
    const [by, speed, distance] = (fields.surge ?? "").split("*");
    const most = within(fields.most, 1, 100) ?? usual.most;
    return {
      boat: boat ?? usual.boat,
      rig: rig ?? usual.rig,
      wind: Math.min(most, within(fields.wind, 0.1, 100) ?? usual.wind),
      windU: within(fields["u-wind"], 0, 50) ?? usual.windU,
      most,
      road: roads.find((one) => one === fields.road) ?? usual.road,
      around: aroundOf(fields),
      load: within(load, 1e-3, 1e9) ?? usual.load,
      loadU: within(loadU, 0, 1e9) ?? usual.loadU,
      give: (within(fields.give, 1e-6, 1e6) ?? 1000 * usual.give) / 1000,
      surge: {
        by: surges.find((one) => one === by) ?? usual.surge.by,
        speed: within(speed, 0.001, 20) ?? usual.surge.speed,
        distance: within(distance, 0.001, 100) ?? usual.surge.distance,
      },
      snubber: snubberOf(fields),
      gear: gearOf(fields),
    };
  },
};

function aroundFields(around: Around): Fields {
  return {
    gust: `${around.gust}*${short(around.gustTime)}*${short(around.averaging)}`,
    ...(around.yaw === 0 ? {} : { yaw: short(around.yaw * DEG) }),
    ...(around.current === 0
      ? {}
      : { current: `${short(around.current)}*${short(around.currentU)}*${short(around.currentAngle * DEG)}` }),
    ...(around.waves === 0 ? {} : { waves: `${short(around.waves)}*${short(around.wavePeriod)}` }),
  };
}

function aroundOf(fields: Fields): Around {
  const usual = usualWeather.around;
  const [gust, gustTime, averaging] = (fields.gust ?? "").split("*");
  const [current, currentU, currentAngle] = (fields.current ?? "").split("*");
  const [waves, period] = (fields.waves ?? "").split("*");
  return {
    yaw: (within(fields.yaw, -180, 180) ?? 0) / DEG,
    gust: gusts.find((one) => one === gust) ?? usual.gust,
    gustTime: within(gustTime, 1, 3600) ?? usual.gustTime,
    averaging: within(averaging, 1, 3600) ?? usual.averaging,
    current: within(current, 0, 10) ?? 0,
    currentU: within(currentU, 0, 10) ?? 0,
    currentAngle: (within(currentAngle, -180, 180) ?? 0) / DEG,
    waves: within(waves, 0, 30) ?? 0,
    wavePeriod: within(period, 0.5, 30) ?? usual.wavePeriod,
  };
}

function snubberFields(snubber: SnubberAsked): Fields {
  const { bridle } = snubber;
  return {
    snubber: [
      snubber.fibre,
      snubber.lay,
      short(snubber.length),
      short(1000 * snubber.diameter),
      snubber.ends,
      short(snubber.slack),
    ].join("*"),
    ...(bridle === null ? {} : { bridle: `${short(bridle.beam)}*${short(bridle.heading * DEG)}` }),
    limits: limits
      .flatMap(([name, factor]) => {
        const limit = snubber.limits[name];
        return limit === undefined ? [] : [`${name} ${short(limit * factor)}`];
      })
      .join("*"),
  };
}

function snubberOf(fields: Fields): SnubberAsked {
  const usual = usualWeather.snubber;
  const [fibre, lay, length, diameter, ends, slack] = (fields.snubber ?? "").split("*");
  const [beam, heading] = (fields.bridle ?? "").split("*");
  const wide = within(beam, 0.05, 100);
  return {
    fibre: fibre || usual.fibre,
    lay: lay || usual.lay,
    length: within(length, 0.1, 200) ?? usual.length,
    diameter: (within(diameter, 1, 200) ?? 1000 * usual.diameter) / 1000,
    ends: (["spliced", "knotted"] as readonly RopeEnds[]).find((one) => one === ends) ?? usual.ends,
    slack: within(slack, 0, 100) ?? usual.slack,
    bridle: wide === null ? null : { beam: wide, heading: (within(heading, -80, 80) ?? 0) / DEG },
    limits: fields.limits === undefined ? usual.limits : limitsOf(fields.limits),
  };
}

function limitsOf(text: string): SnubberLimits {
  const read: Record<string, number> = {};
  for (const one of text.split("*")) {
    const [name, value] = one.split(" ");
    const known = limits.find(([each]) => each === name);
    const number = within(value, 0, 1e9);
    if (known !== undefined && number !== null) read[known[0]] = number / known[1];
  }
  return read;
}
