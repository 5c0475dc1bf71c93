/** The place's whole state as fields of an address: boat, rig, weather, and what is asked. */
import { DEGREES } from "../../quantity/index.ts";
import type { RopeEnds, SnubberLimits } from "../../sizing/index.ts";
import { readRigFields, rigFields } from "../rig/address.ts";
import type { Codec } from "../state/address.ts";
import { FieldReader, type Fields } from "../state/fields.ts";
import { boatFields, readBoatFields, short } from "./boat/boat-fields.ts";
import { gearFields, readGearFields } from "./gear/gear-fields.ts";
import { withCurrentOf } from "./scene.ts";
import {
  type Around,
  type GustName,
  type Road,
  type SnubberAsked,
  type SurgeBy,
  usualWeather,
  type WeatherState,
} from "./state.ts";

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
  ["anchorAngle", DEGREES],
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
  read(given) {
    const fields = new FieldReader(given);
    const usual = usualWeather;
    const rig = fields.under(ofRig);
    if (!fields.has("wind", "hull", "boat", `${ofRig}rode`)) return { kind: "none" };
    return fields.read(() => {
      const [load, loadU] = parts(fields, "load");
      const [by, speed, distance] = parts(fields, "surge");
      const most = fields.numberOr("most", usual.most, 1, 100);
      const ofRode = rig.has("rode", "in") ? readRigFields(rig) : usual.rig;
      const around = aroundOf(fields);
      return {
        boat: fields.has("hull", "boat") ? readBoatFields(fields) : usual.boat,
        rig: ofRode,
        wind: Math.min(most, fields.numberOr("wind", usual.wind, 0.1, 100)),
        windU: fields.numberOr("u-wind", usual.windU, 0, 50),
        most,
        road: fields.wordOr("road", roads, usual.road),
        // An address of before told a current of the rig alone.
        around: fields.has("current") ? around : withCurrentOf(around, ofRode),
        load: fields.withinOr("load", load, usual.load, 1e-3, 1e9),
        loadU: fields.withinOr("load", loadU, usual.loadU, 0, 1e9),
        give: fields.numberOr("give", 1000 * usual.give, 1e-6, 1e6) / 1000,
        surge: {
          by: fields.wordOr("surge", surges, usual.surge.by, by),
          speed: fields.withinOr("surge", speed, usual.surge.speed, 0.001, 20),
          distance: fields.withinOr("surge", distance, usual.surge.distance, 0.001, 100),
        },
        snubber: snubberOf(fields),
        gear: readGearFields(fields),
      };
    });
  },
};

const parts = (fields: FieldReader, name: string): readonly (string | undefined)[] =>
  (fields.text(name) ?? "").split("*");

function aroundFields(around: Around): Fields {
  return {
    gust: `${around.gust}*${short(around.gustTime)}*${short(around.averaging)}`,
    ...(around.yaw === 0 ? {} : { yaw: short(around.yaw * DEGREES) }),
    ...(around.current === 0
      ? {}
      : { current: `${short(around.current)}*${short(around.currentU)}*${short(around.currentAngle * DEGREES)}` }),
    ...(around.waves === 0 ? {} : { waves: `${short(around.waves)}*${short(around.wavePeriod)}` }),
  };
}

function aroundOf(fields: FieldReader): Around {
  const usual = usualWeather.around;
  const [gust, gustTime, averaging] = parts(fields, "gust");
  const [current, currentU, currentAngle] = parts(fields, "current");
  const [waves, period] = parts(fields, "waves");
  return {
    yaw: fields.numberOr("yaw", 0, -180, 180) / DEGREES,
    gust: fields.wordOr("gust", gusts, usual.gust, gust),
    gustTime: fields.withinOr("gust", gustTime, usual.gustTime, 1, 3600),
    averaging: fields.withinOr("gust", averaging, usual.averaging, 1, 3600),
    current: fields.withinOr("current", current, 0, 0, 10),
    currentU: fields.withinOr("current", currentU, 0, 0, 10),
    currentAngle: fields.withinOr("current", currentAngle, 0, -180, 180) / DEGREES,
    waves: fields.withinOr("waves", waves, 0, 0, 30),
    wavePeriod: fields.withinOr("waves", period, usual.wavePeriod, 0.5, 30),
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
    ...(bridle === null ? {} : { bridle: `${short(bridle.beam)}*${short(bridle.heading * DEGREES)}` }),
    limits: limits
      .flatMap(([name, factor]) => {
        const limit = snubber.limits[name];
        return limit === undefined ? [] : [`${name} ${short(limit * factor)}`];
      })
      .join("*"),
  };
}

function snubberOf(fields: FieldReader): SnubberAsked {
  const usual = usualWeather.snubber;
  const [fibre, lay, length, diameter, ends, slack] = parts(fields, "snubber");
  const [beam, heading] = parts(fields, "bridle");
  return {
    fibre: fibre || usual.fibre,
    lay: lay || usual.lay,
    length: fields.withinOr("snubber", length, usual.length, 0.1, 200),
    diameter: fields.withinOr("snubber", diameter, 1000 * usual.diameter, 1, 200) / 1000,
    ends: fields.wordOr("snubber", ["spliced", "knotted"] as readonly RopeEnds[], usual.ends, ends),
    slack: fields.withinOr("snubber", slack, usual.slack, 0, 100),
    bridle: fields.has("bridle")
      ? {
          beam: fields.within("bridle", beam, 0.05, 100),
          heading: fields.withinOr("bridle", heading, 0, -80, 80) / DEGREES,
        }
      : null,
    limits: fields.has("limits") ? limitsOf(fields) : usual.limits,
  };
}

function limitsOf(fields: FieldReader): SnubberLimits {
  const read: Record<string, number> = {};
  for (const one of parts(fields, "limits")) {
    if (one === undefined || one === "") continue;
    const [name, value] = one.split(" ");
    const known = limits.find(([each]) => each === name);
    if (known === undefined)
      fields.refuse("limits", one, `one of ${limits.map(([each]) => each).join(", ")} is expected`);
    else read[known[0]] = fields.within("limits", value, 0, 1e9) / known[1];
  }
  return read;
}
