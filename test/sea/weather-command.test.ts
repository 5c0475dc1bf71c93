import { describe, expect, it } from "vitest";
import { weather as weatherOf } from "../../src/sea/index.ts";
import { rodebench, unfolded } from "../support/command-line.ts";
import { kn, tern, ternText } from "./demo.ts";

const noWindage = `format: rodebench/boat@1
name: Bare
length: 12 m
beam: 3.8 m
draught: 1.8 m
displacement: 9000 kg
bowRollerHeight: 1.3 m
`;

const weather = (
  options: readonly string[],
  files: Record<string, string> = { "tern.yaml": ternText, "bare.yaml": noWindage },
) => rodebench(["weather", ...options], files);

const everything = [
  ...["tern.yaml", "--wind", "20 kn", "--u", "1 kn", "--gust", "froya", "--current", "1 kn", "--current-u", "0.2 kn"],
  ...["--waves", "0.6 m, 3 s", "--depth", "6 m"],
];
const cautionOnce = "not a promise that a boat stays put";

describe("rodebench weather", () => {
  it("answers a wind in text: both roads, tables beside, guesses and assumptions said, the caution once", async () => {
    const { out, err, status } = await weather(everything);
    expect([status, err]).toEqual([0, ""]);
    for (const part of [
      "Marsh Tern in a mean wind of 20.0 ± 1.0 kn at 10 m: Beaufort 5, fresh breeze",
      "By windage, horizontal at the bow",
      "By 5 measured points at the bow",
      "brief peaks",
      "a new reading",
      "Current alone",
      "Surge of the bow",
      "Full engine thrust, 2600 ± 300 N",
      "Published design loads, beside and not part of the above",
      "they disagree at",
      "Guessed inertia",
      "Assumed (standard uncertainties)",
    ]) {
      expect(out).toContain(part);
    }
    expect(out.split(cautionOnce)).toHaveLength(2);
    for (const line of out.split("\n")) expect(line).toBe(line.trimEnd());
  });

  it("answers in one JSON document, SI, the same numbers as the library", async () => {
    const { out, status } = await weather([...everything, "--json"]);
    expect(status).toBe(0);
    const document = JSON.parse(out);
    expect(document.format).toBe("rodebench/weather@1");
    const { gust, current, surge, ...known } = document;
    expect(gust.factor).toBeGreaterThan(1);
    expect(current.along_N).toBeGreaterThan(30);
    expect(surge.significantAmplitude_m).toBeGreaterThan(0.05);
    const alone = weatherOf(tern, { value: 20 * kn, u: kn });
    expect(known.measured[0].mean_N.value).toBeCloseTo(alone.measured[0]!.mean.value, 9);
    expect(known.measured[0].law.exponent.from).toBe("fitted");
    expect(known.windage.steady_N.shares.length).toBeGreaterThan(3);
    expect(known.tables).toHaveLength(2);
    expect(known.disagreements).toHaveLength(3);
    expect(known.engine.windage.kind).toBe("wind");
    expect(known.caution).toContain(cautionOnce);
  });

  it("says the same in metric and US units", async () => {
    const [metric, us] = [await weather(everything), await weather([...everything, "--units", "us"])];
    expect(us.out).toContain("20.0 ± 1.0 kn");
    expect(us.out).not.toContain(" N,");
    const lines = ({ out }: { out: string }): number => unfolded(out).split("\n").length;
    expect(lines(us)).toBe(lines(metric));
    const same = await weather(["tern.yaml", "--wind", "10.288888888888889 m/s", "--json"]);
    expect(JSON.parse(same.out)).toEqual(JSON.parse((await weather(["tern.yaml", "--wind", "20 kn", "--json"])).out));
  });

  it("answers a load with the wind it is worth, in text and JSON", async () => {
    const { out, err, status } = await weather([
      "tern.yaml",
      "--load",
      "800 lbf",
      "--u",
      "40 lbf",
      "--gust",
      "kaimal-c",
      "--units",
      "us",
    ]);
    expect([status, err]).toEqual([0, ""]);
    expect(out).toContain("Marsh Tern: a load of 800 ± 40 lbf is worth a mean wind at 10 m of");
    expect(out).toContain("load in the gust");
    expect(out.split(cautionOnce)).toHaveLength(2);
    const document = JSON.parse((await weather(["tern.yaml", "--load", "800 lbf", "--json"])).out);
    expect(document.format).toBe("rodebench/wind-worth@1");
    expect(document.measured[0].mean_m_per_s.low).toBeLessThan(document.measured[0].mean_m_per_s.value);
  });

  it("reads the boat from standard input", async () => {
    const { status } = await weather(["-", "--wind", "20 kn"], { "-": ternText });
    expect(status).toBe(0);
  });

  it("says so when a boat states neither windage nor points, and still shows the tables", async () => {
    const { out, status } = await weather(["bare.yaml", "--wind", "20 kn"]);
    expect(status).toBe(0);
    expect(out).toContain("neither windage nor measured points: only the tables below speak of load");
    expect(out).toContain("row of 12.2 m");
  });

  it("says that the current alone pulls more than a small load", async () => {
    const { out, status } = await weather(["tern.yaml", "--load", "20 N", "--current", "2 kn"]);
    expect(status).toBe(0);
    expect(out).toContain("no wind: the current alone pulls");
  });

  it.each(["log", "power", "uniform"])("takes the wind at the masthead down by the %s profile", async (profile) => {
    const at = async (height: string) =>
      JSON.parse(
        (await weather(["tern.yaml", "--wind", "20 kn", "--wind-height", height, "--profile", profile, "--json"])).out,
      ).wind_m_per_s.value;
    const ratio = (await at("17 m")) / (await at("10 m"));
    if (profile === "uniform") expect(ratio).toBe(1);
    else {
      expect(ratio).toBeLessThan(0.97);
      expect(ratio).toBeGreaterThan(0.93);
    }
  });

  it.each(["froya", "kaimal-a", "kaimal-b", "kaimal-c", "ochi-shin"])("knows the gusts of %s", async (gust) => {
    const { out, status } = await weather(["tern.yaml", "--wind", "20 kn", "--gust", gust]);
    expect(status).toBe(0);
    expect(out).toMatch(/gust of 3 s +\d+ ± \d+ N/);
  });

  it("knows both spectra of waves", async () => {
    for (const options of [
      ["--waves", "0.6 m, 3 s, 2"],
      ["--waves", "0.6 m, 3 s", "--spectrum", "pierson-moskowitz"],
    ]) {
      const { out, status } = await weather(["tern.yaml", "--wind", "20 kn", ...options]);
      expect(status).toBe(0);
      expect(out).toContain("highest third");
    }
  });
});

const wind = ["tern.yaml", "--wind", "20 kn"];
const wrong: readonly (readonly [what: string, options: readonly string[], told: string | RegExp])[] = [
  ["neither wind nor load", ["tern.yaml"], "weather: neither --wind nor --load; one of the two is expected"],
  ["both wind and load", [...wind, "--load", "1 kN"], "weather: both --wind and --load; one of the two is expected"],
  ["no boat", ["--wind", "20 kn"], /missing required argument 'boat'/],
  [
    "a boat that is not there",
    ["gone.yaml", "--wind", "20 kn"],
    "gone.yaml: no such file; a readable file is expected",
  ],
  ["a wind in newtons", ["tern.yaml", "--wind", "20 N"], /^--wind: "20 N" is a force; a speed is expected/],
  ["a wind of two meanings", ["tern.yaml", "--wind", "20 kt"], /^--wind: "20 kt" has a unit of two meanings/],
  ["no wind at all", ["tern.yaml", "--wind", "0 kn"], '--wind: "0 kn"; a value above zero is expected'],
  [
    "a wind beyond weather",
    ["tern.yaml", "--wind", "300 kn"],
    '--wind: "300 kn"; a wind of at most 100 m/s is expected',
  ],
  ["a load in kilograms", ["tern.yaml", "--load", "100 kg"], /^--load: "100 kg" is a mass; /],
  ["a load that pushes", ["tern.yaml", "--load", "-1 kN"], '--load: "-1 kN"; a value above zero is expected'],
  ["an uncertainty of the wrong sort", [...wind, "--u", "10 N"], /^--u: "10 N" is a force; a speed is expected/],
  ["an uncertainty below zero", [...wind, "--u", "-1 kn"], '--u: "-1 kn"; zero or more is expected'],
  [
    "a wind read at the waterline",
    [...wind, "--wind-height", "0.1 mm"],
    /^--wind-height: "0\.1 mm"; a height well above the water/,
  ],
  ["an unknown profile", [...wind, "--profile", "straight"], /--profile.*straight.*log, power, uniform/],
  [
    "a wind from beyond astern",
    [...wind, "--yaw", "200 deg"],
    '--yaw: "200 deg"; an angle within 180 deg either side is expected',
  ],
  [
    "a swing without a period",
    [...wind, "--swing", "25 deg"],
    /^--swing: "25 deg"; a largest angle and a period are expected/,
  ],
  ["a swing too wide", [...wind, "--swing", "120 deg, 40 s"], /^--swing: "120 deg, 40 s"; at most 90 deg is expected/],
  ["a swing that stands still", [...wind, "--swing", "20 deg, 0 s"], /^--swing: "0 s"; a value above zero is expected/],
  ["an unknown model of gusts", [...wind, "--gust", "squall"], /--gust.*squall.*froya/],
  [
    "a gust longer than the mean",
    [...wind, "--gust", "froya", "--gust-time", "20 min"],
    /^--gust-time: "20 min"; a gust from 1 s to the averaging time/,
  ],
  ["a gust too short", [...wind, "--gust", "froya", "--gust-time", "0.1 s"], /^--gust-time: "0\.1 s"; /],
  [
    "a mean over a day",
    [...wind, "--gust", "froya", "--averaging", "1 d"],
    '--averaging: "1 d"; at most 1 h is expected',
  ],
  ["a current like a cataract", [...wind, "--current", "40 kn"], /^--current: "40 kn"; a current of at most 10 m\/s/],
  ["a current without speed", [...wind, "--current", "0 kn"], /^--current: "0 kn"; a value above zero/],
  ["a current from nowhere", [...wind, "--current", "1 kn", "--current-angle", "north"], /^--current-angle: "north"; /],
  [
    "a negative doubt of current",
    [...wind, "--current", "1 kn", "--current-u", "-1 kn"],
    /^--current-u: "-1 kn"; zero or more/,
  ],
  ["too little water", [...wind, "--depth", "1 m"], /^--depth: "1 m"; a depth in which the boat floats is expected/],
  [
    "waves without a period",
    [...wind, "--waves", "0.6 m"],
    /^--waves: "0\.6 m"; a significant height and a peak period are expected/,
  ],
  [
    "waves with a comma too many",
    [...wind, "--waves", "0.6 m, 3 s, 3, 3"],
    /^--waves: .*; a significant height and a peak period are expected/,
  ],
  ["waves of no height", [...wind, "--waves", "0 m, 3 s"], /^--waves: .*above zero are expected/],
  ["waves too steep to stand", [...wind, "--waves", "4 m, 3 s"], /^--waves: .*break above a seventh of it/],
  [
    "waves too high for the depth",
    [...wind, "--waves", "3 m, 12 s", "--depth", "3 m"],
    /^--waves: .*eight tenths of the depth/,
  ],
  [
    "waves with height and period swapped",
    [...wind, "--waves", "3 s, 0.6 m"],
    /^--waves, significant height: "3 s" is a time; a length is expected/,
  ],
  [
    "a peakedness beyond the spectrum",
    [...wind, "--waves", "0.6 m, 3 s, 12"],
    /^--waves: "12"; a peakedness from 1 to 7 is expected/,
  ],
  [
    "a peakedness where there is none",
    [...wind, "--waves", "0.6 m, 3 s, 2", "--spectrum", "pierson-moskowitz"],
    /no peakedness is expected/,
  ],
  ["an unknown spectrum", [...wind, "--spectrum", "swell"], /--spectrum.*swell.*jonswap/],
  ["unknown units", [...wind, "--units", "imperial"], /--units.*imperial.*metric, us/],
  ["an unknown option", [...wind, "--heading", "3"], /unknown option '--heading'/],
  [
    "a boat that tells nothing of wind, asked for one",
    ["bare.yaml", "--load", "1 kN"],
    "bare.yaml: neither windage nor measured points; one of them is expected to tell a wind by",
  ],
];

describe("a wrong question is told in one line with status 2", () => {
  it.each(wrong)("%s", async (_, options, told) => {
    const { out, err, status } = await weather(options);
    expect([status, out]).toEqual([2, ""]);
    expect(err.endsWith("\n")).toBe(true);
    expect(err.trimEnd()).not.toContain("\n");
    if (typeof told === "string") expect(err.trimEnd()).toBe(told);
    else expect(err.trimEnd()).toMatch(told);
  });
});
