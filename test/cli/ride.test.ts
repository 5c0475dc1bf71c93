import { describe, expect, it } from "vitest";
import { rodebench } from "../support/command-line.ts";

const rig = "data/demo/marsh-tern-rode.yaml";
const boat = ["--boat", "data/boats/marsh-tern.yaml"];

describe("rodebench ride", () => {
  it("answers in JSON with the loads, and the same seed gives the same ride", async () => {
    const ask = (seed: string) =>
      rodebench(["ride", rig, ...boat, "--wind", "16 kn", "--hours", "0.05", "--seed", seed, "--json"]);
    const [first, again, other] = [await ask("4"), await ask("4"), await ask("5")];
    expect(first.status).toBe(0);
    expect(again.out).toBe(first.out);
    expect(other.out).not.toBe(first.out);
    const answer = JSON.parse(first.out);
    expect(answer.format).toBe("rodebench/ridden@1");
    expect(answer.seconds_s).toBeCloseTo(180, 0);
    expect(answer.bow.largest_N).toBeGreaterThan(answer.bow.mean_N);
    expect(answer.anchor.mean_N).toBeLessThan(answer.bow.mean_N);
    expect(answer.parts[0].highest_N).toBeGreaterThan(0.9 * answer.anchor.largest_N);
  });

  it("in a steady wind the mean load is near that of the wind, and above it by what sheering adds", async () => {
    const { out } = await rodebench([
      "ride",
      rig,
      ...boat,
      "--wind",
      "20 kn",
      "--gusts",
      "none",
      "--hours",
      "0.1",
      "--json",
    ]);
    const answer = JSON.parse(out);
    const weather = JSON.parse(
      (await rodebench(["weather", "data/boats/marsh-tern.yaml", "--wind", "20 kn", "--json"])).out,
    );
    const steady = weather.windage.steady_N.value;
    const horizontal = answer.anchor.mean_N;
    expect(horizontal).toBeGreaterThan(steady);
    expect(horizontal).toBeLessThan(1.25 * steady);
  });

  it("writes a trace that holds what the answer says", async () => {
    const written = new Map<string, string | Uint8Array>();
    const { out } = await rodebench(
      ["ride", rig, ...boat, "--wind", "16 kn", "--hours", "0.03", "--trace", "out.csv", "--json"],
      {},
      { write: async (path, content) => void written.set(path, content) },
    );
    const rows = String(written.get("out.csv")).trim().split("\n");
    expect(rows[0]).toBe("time_s,anchor_N,anchorAngle_deg,bow_N,bowAngle_deg,x_m,y_m,heading_deg");
    const bow = rows.slice(1).map((row) => Number(row.split(",")[3]));
    expect(Math.max(...bow)).toBeCloseTo(JSON.parse(out).bow.largest_N, 1);
    expect(rows.length - 1).toBeGreaterThan(1070);
  });

  it("takes a wind that was measured: its own gusts and veers, its own mean, in place of a spectrum", async () => {
    const rows = Array.from({ length: 241 }, (_, i) => {
      const speed = 16 + 3 * Math.sin(i / 7) + (i > 120 ? 6 : 0);
      return `${i},${speed.toFixed(2)},${(355 + 20 * (i / 240)) % 360}`;
    });
    const log = `time (s),true wind speed (kn),wind direction (deg)\n${rows.join("\n")}\n`;
    const asked = ["ride", rig, ...boat, "--wind-log", "wind.csv", "--json"];
    const { out, err, status } = await rodebench(asked, { "wind.csv": log });
    expect([status, err]).toEqual([0, ""]);
    const answer = JSON.parse(out);
    expect(answer.seconds_s).toBeCloseTo(240, 0);
    const [first, second] = await Promise.all(
      ["16 kn", "22 kn"].map(async (wind) => {
        const said = await rodebench([
          "ride",
          rig,
          ...boat,
          "--wind",
          wind,
          "--gusts",
          "none",
          "--hours",
          "0.066",
          "--json",
        ]);
        return JSON.parse(said.out).bow.mean_N as number;
      }),
    );
    expect(answer.bow.mean_N).toBeGreaterThan(first!);
    expect(answer.bow.mean_N).toBeLessThan(second!);
    const text = await rodebench(asked.slice(0, -1), { "wind.csv": log });
    expect(text.out).toContain("as it was measured");
  });

  it.each([
    [["--wind", "16 kn", "--wind-log", "wind.csv"], "--wind"],
    [[], "--wind"],
    [["--wind-log", "wind.csv", "--hours", "2"], "--hours"],
    [["--wind-log", "wind.csv", "--shift", "1 min, 20 kn, 0 deg"], "--shift"],
    [["--wind-log", "wind.csv", "--wind-height", "1 km"], "--wind-height"],
    [["--wind", "16 kn", "--wind-height", "4 m"], "--wind-height"],
    [["--wind-log", "short.csv"], "rows of wind"],
    [["--wind-log", "loads.csv"], "wind speeds"],
  ])("refuses a measured wind by %s", async (options, place) => {
    const line = (n: number) => Array.from({ length: n }, (_, i) => `${i},12`).join("\n");
    const { err, status } = await rodebench(["ride", rig, ...boat, ...options], {
      "wind.csv": `time (s),true wind speed (kn)\n${line(120)}\n`,
      "short.csv": `time (s),true wind speed (kn)\n${line(4)}\n`,
      "loads.csv": `time (s),load (N)\n${line(120)}\n`,
    });
    expect(status).toBe(2);
    expect(err.trim().split("\n")).toHaveLength(1);
    expect(err).toContain(place);
  });

  it("stopped by hand it answers with what was ridden and says so", async () => {
    const stop = new AbortController();
    stop.abort();
    const { out, err } = await rodebench(["ride", rig, ...boat, "--wind", "16 kn"], {}, { stop: stop.signal });
    expect(`${out}${err}`).toContain("a ride of a minute at least is expected");
  });

  it.each([
    [["--wind", "200 kn"], "--wind"],
    [["--wind", "12 m"], "--wind"],
    [["--wind", "20 kn", "--hours", "0"], "--hours"],
    [["--wind", "20 kn", "--hours", "40", "--elements", "2000"], "--elements"],
    [["--wind", "20 kn", "--sea", "3 m, 2 s"], "--sea"],
    [["--wind", "20 kn", "--shift", "20 min, 35 kn"], "--shift 1"],
    [["--wind", "20 kn", "--seed", "x"], "--seed"],
    [["--wind", "20 kn", "--current", "20 kn"], "--current"],
    [["--wind", "10 kn", "--hours", "0.03", "--trace", "x.txt"], "--trace"],
  ])("refuses %s in one line that names it", async (options, place) => {
    const { err, out, status } = await rodebench(["ride", rig, ...boat, ...options]);
    expect(status).toBe(2);
    expect(out).toBe("");
    expect(err.trim().split("\n")).toHaveLength(1);
    expect(err).toContain(place);
  });

  it("refuses a rig in air, and a boat without windage", async () => {
    const air = await rodebench(["ride", "data/demo/gantry-rig.yaml", ...boat, "--wind", "20 kn"]);
    expect(air.status).toBe(2);
    expect(air.err).toContain("a rig in water");
    const bare =
      "format: rodebench/boat@1\nname: Bare\nlength: 9 m\nbeam: 3 m\ndraught: 1.5 m\ndisplacement: 4000 kg\nbowRollerHeight: 1 m\n";
    const none = await rodebench(["ride", rig, "--boat", "bare.yaml", "--wind", "20 kn"], { "bare.yaml": bare });
    expect(none.status).toBe(2);
    expect(none.err).toContain("windage");
  });
});
