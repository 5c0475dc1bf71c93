/** The address of Weather, field by field: what stands in it, in which unit, and between which values it is taken. */
import { describe, expect, it } from "vitest";
import { weatherCodec } from "../../src/web/weather/address.ts";
import { usualWeather, type WeatherState } from "../../src/web/weather/state.ts";
import { refusalOf, stateOf } from "../support/address.ts";

const DEGREE = Math.PI / 180;
const state: WeatherState = {
  ...usualWeather,
  wind: 11,
  windU: 0.6,
  most: 26,
  road: "windage",
  around: {
    ...{ yaw: 20 * DEGREE, gust: "ochi-shin", gustTime: 5, averaging: 300 },
    ...{ current: 0.7, currentU: 0.2, currentAngle: -40 * DEGREE, waves: 1.1, wavePeriod: 5 },
  },
  load: 4100,
  loadU: 90,
  give: 0.0003,
  surge: { by: "distance", speed: 0.8, distance: 1.4 },
  snubber: {
    ...{ fibre: "polyester", lay: "double-braid", length: 9, diameter: 0.018, ends: "knotted", slack: 1.5 },
    bridle: { beam: 2.2, heading: 15 * DEGREE },
    limits: {
      ...{ peak: 3000, ropeShare: 0.2, workingLoadShare: 0.9, hook: 7000, cleat: 6000 },
      ...{ anchorAngle: 6 * DEGREE, loopShare: 0.1 },
    },
  },
};
const written = weatherCodec.write(state);
const own = {
  wind: "11",
  "u-wind": "0.6",
  most: "26",
  road: "windage",
  yaw: "20",
  gust: "ochi-shin*5*300",
  current: "0.7*0.2*-40",
  waves: "1.1*5",
  load: "4100*90",
  give: "0.3",
  surge: "distance*0.8*1.4",
  snubber: "polyester*double-braid*9*18*knotted*1.5",
  bridle: "2.2*15",
  limits: "peak 3000*ropeShare 20*workingLoadShare 90*hook 7000*cleat 6000*anchorAngle 6*loopShare 10",
} as const;

describe("a state in the address", () => {
  it("has its numbers in SI, angles in degrees, shares in per cent, a rope in mm and give in m for each kN", () => {
    expect(written).toMatchObject(own);
    const { yaw, current, waves, bridle, ...still } = written;
    expect(
      weatherCodec.write({
        ...state,
        around: { ...state.around, yaw: 0, current: 0, waves: 0 },
        snubber: { ...state.snubber, bridle: null },
      }),
    ).toEqual(still);
    expect([yaw, current, waves, bridle].every((text) => text !== undefined)).toBe(true);
  });

  it("comes back field by field", () => {
    const back = stateOf(weatherCodec, written);
    const close = (value: unknown): unknown =>
      typeof value === "number"
        ? expect.closeTo(value, 8)
        : typeof value === "object" && value !== null
          ? Object.fromEntries(Object.entries(value).map(([name, one]) => [name, close(one)]))
          : value;
    for (const name of [
      "wind",
      "windU",
      "most",
      "road",
      "around",
      "load",
      "loadU",
      "give",
      "surge",
      "snubber",
    ] as const)
      expect(back[name], name).toEqual(close(state[name]));
  });

  const bounds: readonly [name: string, taken: readonly string[], refused: readonly string[]][] = [
    ["wind", ["0.1", "26"], ["0.09", "101", "-1"]],
    ["u-wind", ["0", "50"], ["-0.1", "51"]],
    ["most", ["1", "100"], ["0.9", "101"]],
    ["road", ["bow", "horizontal", "anchor"], ["stern", "bridle"]],
    ["yaw", ["-180", "180"], ["-181", "181"]],
    [
      "gust",
      ["none*1*1", "froya*3600*3600", "kaimal-a*3*600", "kaimal-b*3*600", "kaimal-c*3*600"],
      ["gale*3*600", "froya*0.9*600", "froya*3601*600", "froya*3*0.9", "froya*3*3601"],
    ],
    ["current", ["0*0*0", "10*10*180", "1*0*-180"], ["-0.1*0*0", "10.1*0*0", "1*10.1*0", "1*-0.1*0", "1*0*181"]],
    ["waves", ["0*0.5", "30*30"], ["-0.1*5", "30.1*5", "1*0.4", "1*30.1"]],
    ["load", ["0.001*0", "1e9*1e9"], ["0*0", "1.1e9*0", "10*-1", "10*1.1e9"]],
    ["give", ["0.000001", "1000000"], ["0", "1000001"]],
    [
      "surge",
      ["speed*0.001*0.001", "waves*20*100"],
      ["far*1*1", "speed*0.0009*1", "speed*20.1*1", "speed*1*0.0009", "speed*1*101"],
    ],
    [
      "snubber",
      ["polyamide*three-strand*0.1*1*spliced*0", "polyamide*three-strand*200*200*knotted*100"],
      [
        "polyamide*three-strand*0.09*14*spliced*0",
        "polyamide*three-strand*201*14*spliced*0",
        "polyamide*three-strand*8*0.9*spliced*0",
        "polyamide*three-strand*8*201*spliced*0",
        "polyamide*three-strand*8*14*tied*0",
        "polyamide*three-strand*8*14*spliced*101",
        "polyamide*three-strand*8*14*spliced*-1",
      ],
    ],
    ["bridle", ["0.05*-80", "100*80"], ["0.04*0", "101*0", "1*81", "1*-81"]],
    ["limits", ["", "peak 0*hook 1e9"], ["peak -1", "cleat 1.1e9", "mast 3"]],
  ];
  it.each(bounds)("%s is taken as %j and not as %j", (name, taken, refused) => {
    for (const text of taken) expect(refusalOf(weatherCodec, { ...written, [name]: text }), text).toEqual([]);
    for (const text of refused) {
      const lines = refusalOf(weatherCodec, { ...written, [name]: text });
      expect(lines.length, text).toBeGreaterThan(0);
      expect(lines[0]!.startsWith(name), lines[0]).toBe(true);
    }
  });

  it("has the usual where a field is not told, and a wind no stronger than its axis ends", () => {
    for (const [name, part] of [
      ["u-wind", "windU"],
      ["most", "most"],
      ["road", "road"],
      ["load", "load"],
      ["give", "give"],
      ["surge", "surge"],
      ["limits", "snubber"],
    ] as const) {
      const { [name]: _, ...rest } = written;
      const back = stateOf(weatherCodec, rest)[part];
      if (part === "snubber")
        expect((back as WeatherState["snubber"]).limits, name).toEqual(usualWeather.snubber.limits);
      else if (part === "surge") expect(back, name).toEqual(usualWeather.surge);
      else if (typeof back === "number") expect(back / (usualWeather[part] as number), name).toBeCloseTo(1, 12);
      else expect(back, name).toBe(usualWeather[part]);
    }
    expect(stateOf(weatherCodec, { ...written, wind: "30" }).wind).toBe(26);
    const { yaw: _, waves: __, ...calm } = written;
    expect(stateOf(weatherCodec, calm).around).toMatchObject({ yaw: 0, waves: 0 });
  });
});
