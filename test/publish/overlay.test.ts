/** Frames in time with a log: exact to the frame over an hour, cuts, and what each frame shows. */

import { readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { rigAt } from "../../src/cli/options.ts";
import {
  clipFrames,
  frameOfStamp,
  framesWithin,
  logTimeOf,
  nanosecondsOf,
  overlayLoadAt,
  panelSvg,
  rateText,
  readCuts,
  readFrameRate,
  rodeUnder,
  secondsText,
} from "../../src/publish/index.ts";
import { DEGREES } from "../../src/quantity/index.ts";
import { settle } from "../../src/rode/index.ts";
import { root } from "../support/command-line.ts";

const NTSC = readFrameRate("30000/1001", "rate");
const rig = () =>
  rigAt("r", {
    read: async () => readFileSync(join(root, "data/examples/rigs/all-chain-afloat.yaml"), "utf8"),
  } as never);

describe("frames and seconds", () => {
  it("are exact to the frame over an hour at 30000/1001", () => {
    // 3600 s · 30000/1001 = 107892.1…: the last frame that begins within the hour is 107892, at 107892 · 1001/30000 s.
    const hour = 3600n * 1_000_000_000n;
    expect(framesWithin(hour, NTSC)).toBe(107_893);
    expect(secondsText(nanosecondsOf(107_892, NTSC))).toBe("3599.996400000");
    // Adding a frame's rounded length up instead is off by a frame's third after an hour and by frames after a day.
    expect(secondsText(nanosecondsOf(30_000, NTSC))).toBe("1001.000000000");
    for (const [rate, frames, seconds] of [
      ["25", 90_000, "3600.000000000"],
      ["24000/1001", 24_000, "1001.000000000"],
      ["59.94", 60_000, "1001.000000000"],
      ["12.5", 25, "2.000000000"],
    ] as const)
      expect(secondsText(nanosecondsOf(frames, readFrameRate(rate, "rate")))).toBe(seconds);
  });

  it("go there and back: of any rate and frame, so many frames begin before it does", () => {
    fc.assert(
      fc.property(
        fc.constantFrom("24", "25", "30000/1001", "24000/1001", "60000/1001", "50", "119.88", "12.5"),
        fc.integer({ min: 0, max: 10_000_000 }),
        (text, frame) => {
          const rate = readFrameRate(text, "rate");
          const ns = nanosecondsOf(frame, rate);
          // A reckoning of its own in fractions: |ns − frame · per · 10⁹ / frames| is at most a half.
          const off = 2n * (ns * rate.frames - BigInt(frame) * rate.per * 1_000_000_000n);
          expect(off <= rate.frames && off >= -rate.frames).toBe(true);
          expect(framesWithin(ns + 1n, rate)).toBe(frame + 1);
          expect(nanosecondsOf(-frame, rate)).toBe(-ns);
        },
      ),
    );
  });

  it("are known again by the stamps of a clip, rounded to the millisecond, over a whole hour", () => {
    for (const text of ["24", "25", "30000/1001", "24000/1001", "60000/1001", "119.88"]) {
      const rate = readFrameRate(text, "rate");
      const hour = framesWithin(3600n * 1_000_000_000n, rate);
      let wrong = 0;
      for (let frame = 0; frame < hour; frame++) {
        // As Matroska writes it (RFC 9559: a TimestampScale of a million ns), and as a camera's own container has it.
        const exact = (frame * Number(rate.per)) / Number(rate.frames);
        if (frameOfStamp(Math.round(exact * 1000) / 1000, rate) !== frame || frameOfStamp(exact, rate) !== frame)
          wrong++;
      }
      expect(wrong, text).toBe(0);
    }
    expect(frameOfStamp(-0.04, readFrameRate("25", "rate"))).toBe(-1);
    expect(frameOfStamp(-0.045, readFrameRate("25", "rate"))).toBe(-1);
  });

  it("are read as film people write them, and told so", () => {
    expect(rateText(readFrameRate("29.97", "rate"))).toBe("30000/1001");
    expect(rateText(readFrameRate("23.976", "rate"))).toBe("24000/1001");
    expect(rateText(readFrameRate("50/2", "rate"))).toBe("25");
    for (const wrong of ["", "0", "25/0", "-25", "1e3", "2000", "thirty", "30000/1001/2", "0.01"])
      expect(() => readFrameRate(wrong, "rate"), wrong).toThrow("frames a second from 0.1 to 1000 are expected");
  });

  it("follow a cut list, and the mark that is seen in clip and log", () => {
    const cuts = readCuts("2..4, 100..103", "cuts");
    expect([...clipFrames(cuts)]).toEqual([2, 3, 100, 101, 102]);
    const sync = { rate: NTSC, markFrame: 100, markNs: 12_500_000_000n };
    expect(secondsText(logTimeOf(100, sync))).toBe("12.500000000");
    expect(secondsText(logTimeOf(0, sync))).toBe("9.163333333");
    expect(secondsText(logTimeOf(0, { ...sync, markNs: 0n }))).toBe("-3.336666667");
    for (const wrong of ["", "4..2", "3..3", "a..b", "1..2;3..4", "-1..3"])
      expect(() => readCuts(wrong, "cuts"), wrong).toThrow("stretches of the clip as FROM..TO in frames are expected");
  });
});

describe("what a frame shows", () => {
  const log = {
    time: Float64Array.of(100, 101, 102, 110, 111),
    load: Float64Array.of(0, 1000, 3000, 3000, Number.NaN),
  };

  it("is the load straight between two readings, and nothing outside the log, in a gap or beside a reading that is none", () => {
    const at = (seconds: number): number | null => overlayLoadAt(log, BigInt(Math.round(seconds * 1e9)));
    expect([0, 0.5, 1, 1.25, 2].map(at)).toEqual([0, 500, 1000, 1500, 3000]);
    expect([-0.001, 5, 10.5, 11.001].map(at)).toEqual([null, null, null, null]);
  });

  it("is the rode as settle has it, with the ± of its rig", async () => {
    const own = await rig();
    const now = rodeUnder(own, "bow", 5000, 0)(3000)!;
    const settled = settle(own, { at: "bow", newtons: 3000 });
    if (settled.kind !== "settled") throw new Error(settled.kind);
    expect(now.angle).toBe(settled.anchor.angle);
    expect(now.shape.x.at(-1)).toBeCloseTo(settled.span, 9);
    expect(now.angleU! * DEGREES).toBeGreaterThan(0.05);
    expect(rodeUnder(own, "bow", 5000, 0)(0)).toBeNull();
  });

  it("stands where it was asked to, in letters of the tester's units, hostile names as text", async () => {
    const own = { ...(await rig()), name: "<script>" };
    const spec = {
      place: { width: 1080, height: 1920, corner: "above-right" as const, share: 0.5 },
      ...{ rig: own, units: "us" as const, at: "bow" as const, highest: 5000, reach: 40, loadU: 20 },
    };
    const rode = rodeUnder(own, "bow", 5000, 20)(3000);
    const svg = panelSvg(spec, { load: 3000, rode, before: [0, null, 3000] });
    expect(svg).toContain('viewBox="0 0 1080 1920"');
    // 540 px wide, 54 px from the edge: 1080 − 54 − 540.
    expect(svg).toContain("translate(486 54)");
    expect(svg).toContain(">674.4 ± 4.5 lbf<");
    expect(svg).not.toMatch(/<script|var\(/);
    const nothing = panelSvg(spec, { load: null, rode: null, before: [null, null] });
    expect(nothing.match(/>–</g)).toHaveLength(2);
  });
});
