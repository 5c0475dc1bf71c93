import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { reduceTrace } from "../../src/pull/index.ts";
import { simulatePull } from "../pull/trace/simulated-pull.ts";
import { trialRode } from "../study/cases.ts";
import { rodebench } from "../support/command-line.ts";

const LOG = readFileSync("data/examples/pulls/three-steps.csv", "utf8");

const trace = (options: readonly string[], files: Record<string, string> = {}) =>
  rodebench(["trace", ...options], { "pull.csv": LOG, ...files });

const RIG = `format: rodebench/rig@1
name: Quay rig
setting: { medium: air, rise: 3 m }
rode:
  - chain: { grade: "30", size: 10 mm, length: 30 m }
`;

describe("rodebench trace", () => {
  it("tells the pull in words, cautions once and ends with the held load", async () => {
    const { out, err, status } = await trace(["pull.csv"]);
    expect([status, err]).toEqual([0, ""]);
    for (const word of ["Zero: ", "Filter: ", "Plateaus", "Peaks", "Drags", "It gave way at", "read at the bow"])
      expect(out).toContain(word);
    expect(out.split("Loaded gear hurts people").length).toBe(2);
    for (const line of out.split("\n")) expect(line).toBe(line.trimEnd());
  });

  it("--json is one document, the same numbers as the door's", async () => {
    const { out, status } = await trace(["pull.csv", "--json", "--read-at", "anchor"]);
    expect(status).toBe(0);
    const json = JSON.parse(out);
    expect(json).toMatchObject({
      format: "rodebench/traced@1",
      readAt: "anchor",
      clock: "elapsed",
      channel: "load",
      parts: 1,
    });
    expect(json.held).toMatchObject({ kind: "gaveWay", at: "anchor" });
    expect(json.drags[0].distance.value_m).toBeGreaterThan(3);
  });

  it("units change the text, not the answer", async () => {
    const [metric, us] = [await trace(["pull.csv"]), await trace(["pull.csv", "--units", "us"])];
    expect(metric.out).toMatch(/gave way at [\d.]+ ± [\d.]+ k?N/);
    expect(us.out).toMatch(/gave way at [\d.]+ ± [\d.]+ lbf/);
    expect((await trace(["pull.csv", "--units", "us", "--json"])).out).toBe((await trace(["pull.csv", "--json"])).out);
  });

  it("units reach the rig as it lay, its doubts, and how far the anchor went", async () => {
    const afloat = RIG.replace("medium: air, rise: 3 m", "medium: water, depth: 4 m, rollerHeight: 1 m");
    const asked = ["pull.csv", "--rig", "rig.yaml", "--depth", "3 m", "--paid-out", "20 m", "--units", "us"];
    const { out, err, status } = await trace(asked, { "rig.yaml": afloat });
    expect([status, err]).toEqual([0, ""]);
    expect(out).toMatch(/By the rig that is [\d.]+ ± [\d.]+ lbf at the anchor/);
    expect(out).toMatch(/\d ft\b/);
    // No length, load or speed of the other system.
    expect(out).not.toMatch(/\d (m|mm|N|kN|m\/s)\b/);
  });

  it("a log in pounds-force says the same as one in newtons", async () => {
    const { trace: pull } = simulatePull({ seed: 41 });
    const inLbf = [
      "time (s),load (lbf)",
      ...Array.from(pull.time, (t, i) => `${t.toFixed(1)},${(pull.load[i]! / 4.4482216152605).toFixed(4)}`),
    ].join("\n");
    const json = JSON.parse((await trace(["lbf.csv", "--json"], { "lbf.csv": inLbf })).out);
    const own = reduceTrace(pull, { readAt: "bow" });
    expect(json.plateaus.length).toBe(own.plateaus.length);
    // The file holds loads to 1e-4 lbf.
    json.plateaus.forEach((p: { load_N: number }, i: number) => {
      expect(Math.abs(p.load_N - own.plateaus[i]!.load.value)).toBeLessThan(1e-3);
    });
  });

  it("tells the highest loads sustained, each no higher than for a shorter time", async () => {
    const { sustained, peaks } = JSON.parse((await trace(["pull.csv", "--json"])).out);
    expect(sustained.map((one: { for_s: number }) => one.for_s)).toEqual([1, 3, 5, 10, 30, 60]);
    for (let i = 1; i < sustained.length; i++) expect(sustained[i].load_N).toBeLessThanOrEqual(sustained[i - 1].load_N);
    expect(sustained[0].load_N).toBeLessThan(peaks[0].load_N);
    for (const one of sustained) expect(one.to_s - one.from_s).toBeGreaterThanOrEqual(one.for_s);
    expect((await trace(["pull.csv"])).out).toContain("Highest loads sustained");
  });

  it("--hold-for says how long a load is kept before it counts as held", async () => {
    // The highest plateau of this log lasts 15.5 s and ends in a drag; the one before it 36 s.
    const held = async (...more: string[]) => JSON.parse((await trace(["pull.csv", "--json", ...more])).out).held;
    expect((await held()).kind).toBe("gaveWay");
    expect(await held("--hold-for", "20 s")).not.toEqual(await held());
    expect(await held("--hold-for", "60 s")).toMatchObject({ kind: "gaveWay" });
    expect(await held("--hold-for", "8 s")).toEqual(await held());
  });

  it("--slack-load is what the cell truly carries while the rode is slack", async () => {
    const plateau = async (...more: string[]) =>
      JSON.parse((await trace(["pull.csv", "--json", ...more])).out).plateaus[0].load_N;
    expect((await plateau("--slack-load", "100 N")) - (await plateau())).toBeCloseTo(100, 6);
  });

  it("refuses a hold rule that is none in one line", async () => {
    for (const [option, value, wanted] of [
      ["--hold-for", "0 s", "a time above zero is expected"],
      ["--hold-within", "-1 m", "a length above zero is expected"],
      ["--hold-for", "3 m", "s"],
      ["--slack-load", "3 m", "N"],
    ] as const) {
      const { err, out, status } = await trace(["pull.csv", option, value]);
      expect([status, out]).toEqual([2, ""]);
      expect(err).toContain(option);
      expect(err).toContain(wanted);
      expect(err.trimEnd().split("\n")).toHaveLength(1);
    }
  });

  it("--steps says which step was held", async () => {
    const { out } = await trace(["pull.csv", "--steps", "1700N:40s,3800 N:30s,9kN:30s"]);
    expect(out).toMatch(/1700 N +40 s +held/);
    expect(out).toMatch(/9000 N +30 s +not reached/);
  });

  it("--rig carries the held load to the other end, lighter by the chain that hangs", async () => {
    const json = JSON.parse((await trace(["pull.csv", "--json", "--rig", "rig.yaml"], { "rig.yaml": RIG })).out);
    const hanging = json.carried.bow.load_N - json.carried.anchor.load_N;
    // Some 2.2 kg/m of chain over 3 m in air: 65 N; the catalogue's weight of 10 mm chain is near 2.25 kg/m.
    expect(hanging).toBeGreaterThan(55);
    expect(hanging).toBeLessThan(80);
    expect(json.carried.bow.load_N).toBeCloseTo(json.held.load_N, 6);
  });

  it("--depth and --scope put the rig into the pull's own water, and say what contradicts its file", async () => {
    const afloat = { "rig.yaml": trialRode };
    const asked = ["pull.csv", "--rig", "rig.yaml", "--depth", "4.4 m", "--scope", "5:1"];
    const [filed, own] = [
      JSON.parse((await trace(["pull.csv", "--json", "--rig", "rig.yaml"], afloat)).out),
      JSON.parse((await trace([...asked, "--json"], afloat)).out),
    ];
    expect(filed.carried.doubts).toEqual([]);
    expect(own.carried.rise).toEqual({ value_m: 5.75, u_m: 0.3, from: "recorded" });
    expect(own.carried.rodeOut.value_m).toBeCloseTo(28.75, 9);
    expect(own.carried.doubts.map((doubt: { kind: string }) => doubt.kind)).toEqual([
      "depthDiffers",
      "lengthDiffers",
      "lineUnknown",
    ]);
    expect(own.carried.angleToBottom_deg).not.toBeCloseTo(filed.carried.angleToBottom_deg, 1);
    expect(own.carried.angleToBottomU_deg).toBeGreaterThan(filed.carried.angleToBottomU_deg);
    const { out } = await trace(asked, afloat);
    expect(out).toContain("- the depth recorded, 4.4 m, is used, not the 6 m of the rig file\n");
    expect(out).toContain("28.8 m lay out, not the 37 m of the rig file: part 2 of the rode is taken as shorter");
    expect(out).toContain("it may have been part 1 of the rode instead");
  });

  it("--track takes places from another log on the same clock", async () => {
    const { trace: pull } = simulatePull({
      seed: 132,
      rate: 5,
      track: true,
      top: 6000,
      surge: 0.012,
      noise: 0.003,
      spikes: 0,
    });
    const start = Date.UTC(2030, 5, 1) / 1000;
    const stamp = (t: number): string => new Date((start + t) * 1000).toISOString();
    const log = ["time,load (N)", ...Array.from(pull.time, (t, i) => `${stamp(t)},${pull.load[i]!.toFixed(1)}`)].join(
      "\n",
    );
    const points = Array.from(
      pull.track!.time,
      (t, i) =>
        `<trkpt lat="${(45 + pull.track!.north[i]! / 111_131.75).toFixed(8)}" lon="${(-30 + pull.track!.east[i]! / 78_846.8).toFixed(8)}"><time>${stamp(t)}</time></trkpt>`,
    ).join("");
    const gpx = `<?xml version="1.0"?><gpx version="1.1" creator="test" xmlns="http://www.topografix.com/GPX/1/1"><trk><trkseg>${points}</trkseg></trk></gpx>`;
    const json = JSON.parse(
      (await trace(["log.csv", "--track", "track.gpx", "--json"], { "log.csv": log, "track.gpx": gpx })).out,
    );
    expect(json.clock).toBe("utc");
    expect(json.drags.some((d: { seenIn: string }) => d.seenIn === "both")).toBe(true);
  });

  it("--corrections are carried through, and the automatic mark stands beside", async () => {
    const plain = JSON.parse((await trace(["pull.csv", "--json"])).out);
    const drag = plain.drags[0];
    const file = JSON.stringify({
      format: "rodebench/corrections@1",
      corrections: [
        {
          change: "take away",
          mark: drag.id,
          lay: { kind: "drag", from_s: drag.from_s, to_s: drag.to_s },
          why: "throttle cut",
        },
      ],
    });
    const json = JSON.parse(
      (await trace(["pull.csv", "--json", "--corrections", "mine.json"], { "mine.json": file })).out,
    );
    expect(json.held.kind).toBe("heldTo");
    expect(json.takenAway.map((m: { id: string }) => m.id)).toEqual([drag.id]);
  });

  const backward = "time (s),load (N)\n0,1\n1,2\n2,3\n3,4\n4,5\n5,6\n0,1\n1,2\n2,3\n3,4\n4,5\n5,6\n6,7\n";

  it("a log whose clock was started again is cut there, and the longer part taken", async () => {
    const json = JSON.parse((await trace(["two.csv", "--json"], { "two.csv": backward })).out);
    expect([json.part, json.parts, json.log.readings]).toEqual([2, 2, 7]);
    const first = JSON.parse((await trace(["two.csv", "--json", "--part", "1"], { "two.csv": backward })).out);
    expect([first.part, first.log.readings]).toEqual([1, 6]);
  });

  it.each([
    ["no such file", ["none.csv"], {}, "none.csv: no such file"],
    ["no log", ["a.csv"], { "a.csv": "" }, "a.csv: "],
    ["prose", ["a.csv"], { "a.csv": "It was a windy day.\nWe pulled.\n" }, "a.csv: "],
    ["a log without a load", ["a.csv"], { "a.csv": "time (s),depth (m)\n0,1\n1,2\n2,3\n3,4\n" }, "a.csv: "],
    ["a load channel nobody logged", ["pull.csv", "--channel", "load-9"], {}, "pull.csv: no load channel"],
    ["a part that is not there", ["pull.csv", "--part", "2"], {}, "pull.csv: part 2"],
    ["a part that is no number", ["pull.csv", "--part", "x"], {}, '--part: "x"'],
    ["a step without a time", ["pull.csv", "--steps", "500lbf"], {}, '--steps: "500lbf"'],
    ["a step of no load", ["pull.csv", "--steps", "0N:30s"], {}, "--steps: "],
    ["a step of a speed", ["pull.csv", "--steps", "5kn:30s"], {}, "--steps: "],
    ["slack that ends before it begins", ["pull.csv", "--slack", "5..1"], {}, '--slack: "5..1"'],
    ["slack that is no span", ["pull.csv", "--slack", "5"], {}, '--slack: "5"'],
    ["a rig that is none", ["pull.csv", "--rig", "r.yaml"], { "r.yaml": "format: rodebench/run@1\n" }, "r.yaml: "],
    ["a depth without a rig", ["pull.csv", "--depth", "4 m"], {}, '--depth: "4 m"; a rig is expected with it'],
    ["a depth of nought", ["pull.csv", "--rig", "r.yaml", "--depth", "0 m"], { "r.yaml": RIG }, "--depth: "],
    ["a scope that is none", ["pull.csv", "--rig", "r.yaml", "--scope", "much"], { "r.yaml": RIG }, "--scope: "],
    [
      "a length of another kind",
      ["pull.csv", "--rig", "r.yaml", "--paid-out", "3 kg"],
      { "r.yaml": RIG },
      "--paid-out: ",
    ],
    ["a track on another clock", ["pull.csv", "--track", "pull.csv"], {}, "pull.csv: its clock is"],
    [
      "corrections of another format",
      ["pull.csv", "--corrections", "c.json"],
      { "c.json": '{"format":"x","corrections":[]}' },
      "c.json: ",
    ],
    [
      "a correction nobody knows",
      ["pull.csv", "--corrections", "c.json"],
      { "c.json": '{"format":"rodebench/corrections@1","corrections":[{"change":"swap"}]}' },
      "c.json: ",
    ],
    ["a rate below zero", ["pull.csv", "--rate", "-5"], {}, '--rate: "-5"'],
    ["a column role nobody knows", ["pull.csv", "--map", "pull=2"], {}, "--map: "],
    ["an end of the rode nobody knows", ["pull.csv", "--read-at", "top"], {}, "rodebench: "],
  ])("%s is told in one line", async (_, options, files, begins) => {
    const { out, err, status } = await trace(options as string[], files as unknown as Record<string, string>);
    expect([status, out]).toEqual([2, ""]);
    expect(err.startsWith(begins as string)).toBe(true);
    expect(err.trimEnd()).not.toContain("\n");
  });
});
