import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { drawRode, type RodeDrawing } from "../../src/figure/index.ts";
import { widthOf } from "../../src/figure/lettering.ts";
import { overlap, textBox } from "../../src/figure/room-for.ts";
import { certaintyOf, type Pull, readRig, settleTraced } from "../../src/rode/index.ts";
import { anyRig } from "../rode/any-rig.ts";
import { all, parse, texts } from "./parse.ts";
import { expectKept } from "./snapshot.ts";

const folder = join(import.meta.dirname, "../../data/examples/rigs");
const files = readdirSync(folder);

function drawing(file: string, newtons: number, more: Partial<RodeDrawing> = {}): RodeDrawing {
  const rig = readRig(readFileSync(join(folder, file), "utf8"), file);
  const pull: Pull = { at: "bow", newtons };
  const traced = settleTraced(rig, pull);
  if (!("settled" in traced)) throw new Error(traced.cause);
  const still = rig.setting.medium === "air" || rig.setting.current === 0;
  return { rig, traced, certainty: still ? certaintyOf(rig, pull) : null, ...more };
}

/** Every line of text with the room it takes, by the program's own measure, which is on the wide side. */
function labels(svg: string) {
  return all(parse(svg), "text").map(({ text, attributes }) => {
    const size = Number(attributes["font-size"]);
    const anchor = (attributes["text-anchor"] ?? "start") as "start" | "middle" | "end";
    const wide = widthOf(text, size, attributes["font-weight"] !== undefined);
    return { text, box: textBox(Number(attributes.x), Number(attributes.y), wide, size, anchor) };
  });
}

function expectApart(svg: string, width: number, height: number, what: string): void {
  const lines = labels(svg);
  for (const [i, a] of lines.entries()) {
    expect(a.box.left, `${what}: ${a.text}`).toBeGreaterThanOrEqual(0);
    expect(a.box.right, `${what}: ${a.text}`).toBeLessThanOrEqual(width);
    expect(a.box.top, `${what}: ${a.text}`).toBeGreaterThanOrEqual(0);
    expect(a.box.bottom, `${what}: ${a.text}`).toBeLessThanOrEqual(height);
    for (const b of lines.slice(i + 1)) expect(overlap(a.box, b.box), `${what}: ${a.text} / ${b.text}`).toBe(0);
  }
}

describe("a rode drawn on a phone", () => {
  it.each([320, 360, 419])("keeps every label whole, on the page and off the others at %i px", (width) => {
    for (const file of files)
      for (const newtons of [900, 5000])
        for (const units of ["metric", "us"] as const) {
          const { svg, height } = drawRode(drawing(file, newtons, { width, units }));
          expectApart(svg, width, height, `${file} at ${newtons} N, ${units}`);
        }
  });

  it("says all that the wide form says", () => {
    for (const file of files) {
      const wide = texts(parse(drawRode(drawing(file, 900, { width: 900 })).svg));
      const narrow = texts(parse(drawRode(drawing(file, 900, { width: 320 })).svg)).join("\n");
      for (const line of wide) if (!/to scale/.test(line)) expect(narrow, file).toContain(line);
    }
  });

  it("numbers the parts in the drawing as in the key", () => {
    const given = drawing("chain-rope-snubber.yaml", 900, { width: 320 });
    const { svg, stage } = drawRode(given);
    const lines = labels(svg);
    for (const number of ["1", "2", "3", "4"]) {
      const [inDrawing, inKey] = lines.filter(({ text }) => text === number).sort((a, b) => a.box.top - b.box.top);
      expect(inDrawing!.box.bottom).toBeLessThan(stage.toY(0) + 8);
      expect(inKey!.box.top).toBeGreaterThan(stage.toY(0) + 8);
    }
    expect(lines.filter(({ text }) => /^[1-4]$/.test(text)).length).toBe(8);
  });

  it("is the one that was looked at", () => {
    const given = drawing("chain-rope-snubber.yaml", 900, { width: 320, alone: true, loadCellAt: "bow" });
    expectKept(drawRode(given).svg, "rode-narrow");
  });

  it("keeps the words below apart for any rig that settles", () => {
    let drawn = 0;
    fc.assert(
      fc.property(anyRig, fc.double({ min: 1, max: 6, noNaN: true }), (rig, power) => {
        const setting = rig.setting.medium === "air" ? rig.setting : { ...rig.setting, current: 0 };
        const traced = settleTraced({ ...rig, setting }, { at: "bow", newtons: 10 ** power });
        if (!("settled" in traced)) return;
        drawn += 1;
        const { svg, stage, height } = drawRode({ rig, traced, certainty: null, width: 320 });
        expect(svg).not.toMatch(/NaN|undefined|Infinity/);
        const foot = labels(svg).find(({ text }) => /to scale/.test(text))!.box.bottom;
        const key = labels(svg).filter(({ box }) => box.top > foot);
        expect(key.length).toBeGreaterThanOrEqual(7 + 2 * Math.min(rig.rode.length, 12));
        for (const [i, a] of key.entries()) {
          expect(a.box.right).toBeLessThanOrEqual(320);
          expect(a.box.bottom).toBeLessThanOrEqual(height);
          for (const b of key.slice(i + 1)) expect(overlap(a.box, b.box), `${a.text} / ${b.text}`).toBe(0);
        }
        expect(stage.width).toBe(320);
      }),
      { seed: 6, numRuns: 80 },
    );
    expect(drawn).toBeGreaterThan(20);
  });
});
