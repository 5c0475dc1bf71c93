/** What a line of `trace` states beside the log: cells, calibration, the clock of the track, the bearing. */
import { describe, expect, it } from "vitest";
import { simulatePull } from "../pull/trace/simulated-pull.ts";
import { rodebench } from "../support/command-line.ts";

const { trace } = simulatePull({ seed: 41 });
const START = Date.UTC(2031, 4, 3, 9) / 1000;
const stamp = (t: number): string => new Date(1000 * (START + t)).toISOString();
const rows = (head: string, row: (load: number) => string): string =>
  [head, ...Array.from(trace.time, (t, i) => `${stamp(t)},${row(trace.load[i]!)}`)].join("\n");
const whole = rows("time (UTC),load (N)", (f) => f.toFixed(3));
const halves = rows(
  "time (UTC),load port (N),load starboard (N)",
  (f) => `${(0.4 * f).toFixed(3)},${(0.6 * f).toFixed(3)}`,
);
const answer = async (options: readonly string[], files: Record<string, string>) => {
  const { out, err, status } = await rodebench(["trace", ...options, "--json"], files);
  expect([status, err]).toEqual([0, ""]);
  return JSON.parse(out);
};

describe("rodebench trace, told of the cells", () => {
  it("takes the sum of two cells side by side as the load of one", async () => {
    const one = await answer(["one.csv"], { "one.csv": whole });
    const refusal = await rodebench(["trace", "two.csv", "--loads", "each"], { "two.csv": halves });
    expect(refusal.status).toBe(2);
    const names = /--channel (\S+\+[^\s;]+)/.exec(refusal.err)![1]!;
    const two = await answer(["two.csv", "--loads", "each", "--channel", names], { "two.csv": halves });
    expect(two.plateaus.length).toBe(one.plateaus.length);
    // Each half is written to a thousandth of a newton.
    for (const [i, { load_N }] of two.plateaus.entries())
      expect(Math.abs(load_N - one.plateaus[i].load_N)).toBeLessThan(0.01);
    expect(two.channel).toContain(" + ");
  });

  it("multiplies what was read by the cell's calibration", async () => {
    const [plain, more] = [
      await answer(["a.csv"], { "a.csv": whole }),
      await answer(["a.csv", "--calibration", "1.02"], { "a.csv": whole }),
    ];
    expect(more.held.load_N / plain.held.load_N).toBeCloseTo(1.02, 6);
  });

  it("takes the cell's tare off each reading before its calibration, which a pull never slack needs", async () => {
    // From the first to the last time under load: nothing is left that tells the zero.
    const under = whole.split("\n").filter((row, i) => i === 0 || Number(row.split(",")[1]) > 1000);
    const pulled = { "a.csv": under.join("\n") };
    const [plain, tared] = [
      await answer(["a.csv"], pulled),
      await answer(["a.csv", "--tare", "200 N", "--calibration", "1.02"], pulled),
    ];
    expect(plain.zero.kind).toBe("notFound");
    expect(plain.plateaus.length).toBeGreaterThan(0);
    expect(tared.plateaus[0].load_N).toBeCloseTo(1.02 * (plain.plateaus[0].load_N - 200), 6);
    // Where the rode is slack before and after, the zero found there has the tare in it already.
    const [slack, both] = [
      await answer(["a.csv"], { "a.csv": whole }),
      await answer(["a.csv", "--tare=-200 N"], { "a.csv": whole }),
    ];
    expect(both.held.load_N).toBeCloseTo(slack.held.load_N, 6);
  });

  it.each([
    [["--tare", "5 kg m"], "--tare"],
    [["--tare", "3 s"], "--tare"],
    [["--calibration", "0"], "--calibration"],
    [["--calibration", "much"], "--calibration"],
    [["--track-clock", "2 s"], "--track-clock"],
    [["--track-clock", "auto"], "--track-clock"],
    [["--track-clock", "soon"], "--track-clock"],
    [["--bearing", "5 m"], "--bearing"],
    [["--anchor-at", "48.1, 5"], "--track FILE"],
    [["--anchor-at", "48.1"], "--anchor-at"],
    [["--anchor-at", "-95.1, 148"], "--anchor-at"],
    [["--anchor-at", "north, east"], "--anchor-at"],
    [["--ahead", "--astern"], "--astern"],
    [["--hold-for", "0 s"], "--hold-for"],
    [["--hold-within", "-1 m"], "--hold-within"],
    [["--channel", "load+load"], "a.csv"],
  ])("refuses %j in one line", async (options, place) => {
    const { err, status } = await rodebench(["trace", "a.csv", ...options], { "a.csv": whole });
    expect(status).toBe(2);
    expect(err.startsWith(`rodebench: ${place}`) || err.includes(place)).toBe(true);
    expect(err.trimEnd().split("\n")).toHaveLength(1);
  });
});

describe("rodebench trace, told of a video", () => {
  const marks = "WEBVTT\n\n00:00:10.000 --> 00:00:12.000\nfluke turns\n\n00:00:20.000 --> 00:00:21.000\nsand lifts\n";

  it("tells the load read while each thing was seen", async () => {
    const { video } = await answer(["a.csv", "--video", "v.vtt", "--video-start", "20 s"], {
      "a.csv": whole,
      "v.vtt": marks,
    });
    expect(video.map(({ text }: { text: string }) => text)).toEqual(["fluke turns", "sand lifts"]);
    const { zero } = await answer(["a.csv"], { "a.csv": whole });
    expect(zero.kind).not.toBe("notFound");
    for (const [k, [from, to]] of (
      [
        [30, 32],
        [40, 41],
      ] as const
    ).entries()) {
      const read = trace.load.filter((_, i) => trace.time[i]! >= from - 1e-6 && trace.time[i]! <= to + 1e-6);
      const mean = read.reduce((sum, f) => sum + f, 0) / read.length;
      expect(video[k].from_s).toBeCloseTo(START + from, 3);
      // The zero is taken off what was read: no more than a twentieth of the highest load, by the simulator's own making.
      expect(Math.abs(video[k].load_N - mean)).toBeLessThan(0.08 * Math.max(...trace.load));
    }
  });

  it.each([
    [["--video", "v.vtt"], "v.vtt"],
    [["--video-start", "20 s"], "--video-start"],
    [["--video", "none.txt", "--video-start", "20 s"], "none.txt"],
  ])("refuses %j in one line", async (options, place) => {
    const files = { "a.csv": whole, "v.vtt": marks, "none.txt": "no marks here" };
    const { err, status } = await rodebench(["trace", "a.csv", ...options], files);
    expect(status).toBe(2);
    expect(err).toContain(place);
    expect(err.trimEnd().split("\n")).toHaveLength(1);
  });
});

describe("rodebench trace, told of the track", () => {
  const degrees = 180 / Math.PI / 6_378_137;
  const fixes = (late: number): string =>
    [
      "time (UTC),latitude,longitude",
      ...Array.from({ length: Math.floor(trace.time.at(-1)!) }, (_, t) => {
        const load = trace.load[Math.min(trace.load.length - 1, Math.round(t / (trace.time[1]! - trace.time[0]!)))]!;
        return `${stamp(t + late)},${(0.1 + 0.001 * Math.max(0, load) * degrees).toFixed(9)},0.2`;
      }),
    ].join("\n");

  it("brings a clock that is 7 s late back by --track-clock", async () => {
    const right = await answer(["a.csv", "--track", "t.csv"], { "a.csv": whole, "t.csv": fixes(0) });
    const late = await answer(["a.csv", "--track", "t.csv", "--track-clock", "-7 s"], {
      "a.csv": whole,
      "t.csv": fixes(7),
    });
    expect(late.path.stretches.length).toBeGreaterThan(0);
    expect(late.path).toEqual(right.path);
  });

  it("tells by load and track that the track's clock is 7 s late, adds it when asked, and never otherwise", async () => {
    const files = { "a.csv": whole, "t.csv": fixes(7) };
    const right = await answer(["a.csv", "--track", "t.csv"], { "a.csv": whole, "t.csv": fixes(0) });
    expect(right.trackClock.kind).toBe("told");
    expect(Math.abs(right.trackClock.offset_s)).toBeLessThan(2 * right.trackClock.u_s);

    const late = await answer(["a.csv", "--track", "t.csv"], files);
    expect(late.trackClock).toMatchObject({ kind: "told", applied: false });
    expect(Math.abs(late.trackClock.offset_s + 7)).toBeLessThan(2 * late.trackClock.u_s);
    const said = await rodebench(["trace", "a.csv", "--track", "t.csv"], files);
    expect(said.out).toMatch(
      /\nNote: by load and track the track's clock is off: -7\.?\d* ± .* s would have to be added/,
    );

    const auto = await answer(["a.csv", "--track", "t.csv", "--track-clock", "auto"], files);
    expect(auto.trackClock).toEqual({ ...late.trackClock, applied: true });
    const stated = await answer(["a.csv", "--track", "t.csv", `--track-clock=${late.trackClock.offset_s} s`], files);
    expect(stated.trackClock).toBeNull();
    expect(auto.path).toEqual(stated.path);
    expect(auto.path).not.toEqual(late.path);
  });

  it("says that the clock cannot be told where the boat's places follow no load", async () => {
    const still = [
      "time (UTC),latitude,longitude",
      ...Array.from({ length: Math.floor(trace.time.at(-1)!) }, (_, t) => `${stamp(t)},0.1,0.2`),
    ].join("\n");
    const argv = ["trace", "a.csv", "--track", "t.csv", "--track-clock", "auto"];
    const { out, status } = await rodebench(argv, { "a.csv": whole, "t.csv": still });
    expect(status).toBe(0);
    expect(out).toContain("Clock of the track: cannot be told by load and track; taken as it stands");
  });

  it("takes the anchor's place for the direction of the pull, however it is written", async () => {
    const files = { "a.csv": whole, "t.csv": fixes(0) };
    // 60 m south-west of the first fix, by the metre that the fixes were made with.
    const [south, west] = [60 * Math.cos(Math.PI / 4) * degrees, 60 * Math.sin(Math.PI / 4) * degrees];
    const [lat, lon] = [0.1 - south, 0.2 - west];
    const told = await answer(["a.csv", "--track", "t.csv", "--anchor-at", `${lat}, ${lon}`], files);
    expect(told.path.stretches[0].by).toBe("anchor");
    // At this latitude a minute of arc north is 0.7 % shorter than one east, and the boat went on by some metres.
    expect(Math.abs(told.path.stretches[0].direction_deg - 45)).toBeLessThan(3);
    const minutes = (angle: number): string => `0°${(60 * angle).toFixed(7)}'`;
    const written = await answer(
      ["a.csv", "--track", "t.csv", "--anchor-at", `${minutes(lat)}N, ${minutes(lon)}E`],
      files,
    );
    expect(written.path.stretches[0].direction_deg).toBeCloseTo(told.path.stretches[0].direction_deg, 5);
  });

  it("takes the bearing as the direction of the pull", async () => {
    const told = await answer(["a.csv", "--track", "t.csv", "--bearing", "15 deg"], {
      "a.csv": whole,
      "t.csv": fixes(0),
    });
    expect(told.path.stretches[0].by).toBe("stated");
    expect(told.path.stretches[0].direction_deg).toBeCloseTo(15, 9);
  });
});
