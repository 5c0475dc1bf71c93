import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { drawRode, drawTogether, type RodeDrawing } from "../../src/figure/index.ts";
import {
  certaintyOf,
  type Pull,
  type Rig,
  readRig,
  riseOf,
  type SettledTrace,
  settleTraced,
} from "../../src/rode/index.ts";
import { anyRig } from "../rode/any-rig.ts";
import { all, parse, places, texts } from "./parse.ts";
import { expectKept } from "./snapshot.ts";

const folder = join(import.meta.dirname, "../../data/examples/rigs");
const rigOf = (file: string) => readRig(readFileSync(join(folder, file), "utf8"), file);

function traced(rig: Rig, pull: Pull): SettledTrace {
  const answer = settleTraced(rig, pull);
  if (!("settled" in answer)) throw new Error(answer.cause);
  return answer;
}

function drawing(file: string, newtons: number, more: Partial<RodeDrawing> = {}): RodeDrawing {
  const rig = rigOf(file);
  const pull: Pull = { at: "bow", newtons };
  // In a current every settling is a march along the rode: no ± there, for the sake of the suite's time.
  const still = rig.setting.medium === "air" || rig.setting.current === 0;
  return { rig, traced: traced(rig, pull), certainty: still ? certaintyOf(rig, pull) : null, ...more };
}

describe("a rode drawn as it lies", () => {
  it.each(readdirSync(folder))("%s is the one that was looked at", (file) => {
    expectKept(drawRode(drawing(file, 900, { alone: true })).svg, `rode-${file.replace(/\..*/, "")}`);
  });

  it("is drawn to scale: a metre across is a metre up, and the rode ends where the model says", () => {
    const given = drawing("quay-rig.yaml", 900);
    const { stage, svg } = drawRode(given);
    const { settled } = given.traced;
    expect(stage.exaggeration).toBe(1);
    expect(texts(parse(svg))).toContain("drawn to scale");
    const across = stage.toX(settled.span) - stage.toX(0);
    const up = stage.toY(0) - stage.toY(9);
    expect(across / settled.span).toBeCloseTo(up / 9, 9);
    const ends = all(parse(svg), "path").map((path) => places(path.attributes.d!).at(-1)!);
    // Three decimals of a pixel.
    expect(
      ends.some(([x, y]) => Math.abs(x - stage.toX(settled.span)) < 2e-3 && Math.abs(y - stage.toY(9)) < 2e-3),
    ).toBe(true);
  });

  it("says so when it is not to scale", () => {
    const rig = rigOf("quay-rig.yaml");
    const flat: Rig = { ...rig, setting: { ...rig.setting, rise: 0.5 } as Rig["setting"] };
    const { stage, svg } = drawRode({ rig: flat, traced: traced(flat, { at: "bow", newtons: 5000 }) });
    expect(stage.exaggeration).toBeGreaterThan(1);
    expect(texts(parse(svg))).toContain(`not to scale: heights drawn ${stage.exaggeration} times as large as lengths`);
    expect(texts(parse(svg))).not.toContain("drawn to scale");
  });

  it("shows loads and angles at both ends with their ±, rise, span and what rests", () => {
    const said = texts(parse(drawRode(drawing("quay-rig.yaml", 900)).svg));
    expect(said).toContain("900 N");
    expect(said.some((line) => /^701\.\d ± \d\.\d N$/.test(line))).toBe(true);
    expect(said.some((line) => /^\d+\.\d\d° ± 0\.\d\d°$/.test(line))).toBe(true);
    expect(said).toContain("rise 9.00 ± 0.10 m");
    expect(said.some((line) => line.startsWith("span "))).toBe(true);
    expect(said.some((line) => line.endsWith(" at rest"))).toBe(true);
  });

  it("speaks the units asked for", () => {
    const said = texts(parse(drawRode(drawing("quay-rig.yaml", 900, { units: "us" })).svg)).join("\n");
    expect(said).toContain("lbf");
    expect(said).toContain(" ft");
    expect(said).not.toMatch(/\d N$|\d m$/m);
  });

  it("points its arrows outward along the rode", () => {
    const given = drawing("all-chain-afloat.yaml", 5000);
    const { stage, svg } = drawRode(given);
    const { anchor, bow, span } = given.traced.settled;
    const heads = all(parse(svg), "path")
      .filter((path) => path.attributes.fill?.includes("computed") && path.attributes.d!.endsWith("Z"))
      .map((path) => places(path.attributes.d!)[0]!);
    const angles = heads.map(([x, y]) =>
      x < stage.toX(0)
        ? Math.atan2(y - stage.toY(0), stage.toX(0) - x)
        : Math.atan2(stage.toY(9.5) - y, x - stage.toX(span)),
    );
    expect(angles.length).toBe(2);
    // Three decimals of a pixel over 46 px.
    expect(Math.abs(angles[0]! - anchor.angle)).toBeLessThan(1e-4);
    expect(Math.abs(angles[1]! - bow.angle)).toBeLessThan(1e-4);
  });

  it("tells parts apart by their line and names each with its length", () => {
    const given = drawing("chain-rope-snubber.yaml", 5000);
    const root = parse(drawRode(given).svg);
    const strokes = new Set(
      all(root, "path")
        .filter((path) => path.attributes.stroke?.includes("computed"))
        .map((path) => `${path.attributes["stroke-width"]} ${path.attributes["stroke-dasharray"] ?? "solid"}`),
    );
    expect(strokes).toContain("4 5.5 2.5");
    expect(strokes).toContain("3 solid");
    expect(strokes).toContain("2.4 14 3");
    for (const part of given.rig.rode) expect(texts(root).some((line) => line.includes(part.name))).toBe(true);
  });

  it("tells a float from a weight", () => {
    const float = all(parse(drawRode(drawing("float-over-rising-bottom.yaml", 900)).svg), "circle");
    expect(float.some((circle) => circle.attributes.r === "7")).toBe(true);
    const kellet = all(parse(drawRode(drawing("kellet.json", 900)).svg), "rect");
    expect(kellet.some((rect) => rect.attributes.height === "13")).toBe(true);
  });

  it("shows the same rig under a second load behind it, named", () => {
    const given = drawing("quay-rig.yaml", 3000);
    const behind = traced(given.rig, { at: "bow", newtons: 800 });
    const root = parse(drawRode({ ...given, beside: { traced: behind, label: "at 800 N" } }).svg);
    expect(texts(root)).toContain("at 800 N");
    expect(all(root, "path").some((path) => path.attributes["stroke-dasharray"] === "1.5 4")).toBe(true);
  });

  it("keeps its labels apart", () => {
    for (const file of readdirSync(folder))
      for (const newtons of [900, 5000]) {
        const boxes = all(parse(drawRode(drawing(file, newtons)).svg), "text").map((text) => ({
          line: text.text,
          x: Number(text.attributes.x),
          y: Number(text.attributes.y),
        }));
        for (const [i, a] of boxes.entries())
          for (const b of boxes.slice(i + 1))
            expect(
              Math.abs(a.y - b.y) > 8 || Math.abs(a.x - b.x) > 20,
              `${file} at ${newtons} N: ${a.line} / ${b.line}`,
            ).toBe(true);
      }
  });

  it("draws any rig that settles, as a well-formed page with nothing missing", () => {
    let drawn = 0;
    fc.assert(
      fc.property(
        anyRig,
        fc.double({ min: 1, max: 6, noNaN: true }),
        fc.constantFrom("metric", "us"),
        (rig, power, units) => {
          const answer = settleTraced(still(rig), { at: "bow", newtons: 10 ** power });
          if (!("settled" in answer)) return;
          drawn += 1;
          const { svg, stage } = drawRode({ rig, traced: answer, units, certainty: null });
          const root = parse(svg);
          expect(svg).not.toMatch(/NaN|undefined|Infinity/);
          expect(root.attributes.role).toBe("img");
          expect(stage.toX(answer.settled.span)).toBeLessThanOrEqual(680);
          expect(stage.toY(riseOf(rig.setting))).toBeGreaterThanOrEqual(0);
        },
      ),
      { seed: 5, numRuns: 120 },
    );
    expect(drawn).toBeGreaterThan(20);
  });
});

describe("two rodes laid over each other", () => {
  const rig = rigOf("quay-rig.yaml");
  const afloat: Rig = {
    ...rig,
    name: "The same chain afloat",
    setting: {
      medium: "water",
      depth: 7.5,
      rollerHeight: 1.5,
      waterDensity: 1025,
      bottomSlope: 0,
      bottomFriction: 0,
      current: 0,
    },
  };
  const pull: Pull = { at: "anchor", newtons: 2500 };
  const both = { first: { rig, traced: traced(rig, pull) }, second: { rig: afloat, traced: traced(afloat, pull) } };
  const { svg, stage } = drawTogether(both);
  const root = parse(svg);

  it("is the one that was looked at", () => expectKept(drawTogether({ ...both, alone: true }).svg, "rodes-together"));
  it("tells on a narrow sheet what each anchor feels, a long name cut before any number", () => {
    const rows = all(parse(drawTogether({ ...both, width: 320 }).svg), "text").map((one) => texts(one).join(""));
    for (const { rig: its, traced: one } of [both.first, both.second]) {
      const row = rows.find((said) => said.startsWith(its.name.slice(0, 3)) && said.includes("N at "))!;
      const { tension, angle } = one.settled.anchor;
      expect(row).toContain(
        `${(tension / 10).toFixed(0)}0 N at ${((angle * 180) / Math.PI).toPrecision(3)}° at the anchor`,
      );
      expect(row).not.toContain("bow");
    }
  });

  it("has one anchor and one scale for both", () => {
    const starts = all(root, "path")
      .filter((path) => path.attributes.fill === "none" && /computed|other/.test(path.attributes.stroke ?? ""))
      .map((path) => places(path.attributes.d!));
    const ends = starts.map((path) => path.at(-1)!);
    for (const { traced: each } of [both.first, both.second])
      expect(
        ends.some(([x, y]) => Math.abs(x - stage.toX(each.settled.span)) < 2e-3 && Math.abs(y - stage.toY(9)) < 2e-3),
      ).toBe(true);
    expect(starts.every((path) => Math.abs(path[0]![0] - stage.toX(0)) < 2e-3)).toBe(true);
  });

  it("tells them apart by colour and by the mark at their end, and says the loads of each", () => {
    expect(all(root, "rect").filter((rect) => rect.attributes.width === "10").length).toBe(2);
    expect(all(root, "circle").filter((circle) => circle.attributes.r === "7").length).toBe(2);
    const said = texts(root);
    expect(said.some((line) => line.startsWith("Quay rig: 2500 N at "))).toBe(true);
    expect(said.some((line) => line.startsWith("The same chain afloat: 2500 N at "))).toBe(true);
  });
});

describe("two rodes in water of different depths", () => {
  const shallow = afloatIn("Shallow", 5);
  function afloatIn(name: string, depth: number) {
    const rig: Rig = {
      ...rigOf("quay-rig.yaml"),
      name,
      setting: {
        medium: "water",
        depth,
        rollerHeight: 1.5,
        waterDensity: 1025,
        bottomSlope: 0,
        bottomFriction: 0,
        current: 0,
      },
    };
    return { rig, traced: traced(rig, { at: "anchor", newtons: 2500 }) };
  }
  const surfaces = (second: ReturnType<typeof afloatIn>) => {
    const { svg, stage } = drawTogether({ first: shallow, second });
    const root = parse(svg);
    const across = all(root, "line").filter(
      ({ attributes: { x1, x2, y1, y2 } }) => x1 === "0" && Number(x2) === stage.width && y1 === y2,
    );
    const names = all(root, "text")
      .filter((one) => texts(one).join("").startsWith("surface"))
      .map((one) => ({ x: Number(one.attributes.x), said: texts(one).join("") }));
    return { stage, names, heights: across.map((line) => Number(line.attributes.y1)) };
  };

  it("have each its own surface, named", () => {
    const { stage, names, heights } = surfaces(afloatIn("Deep", 8));
    for (const depth of [5, 8]) expect(heights.some((y) => Math.abs(y - stage.toY(depth)) < 2e-3)).toBe(true);
    expect(names.map(({ said }) => said)).toEqual(["surface, Shallow", "surface, Deep"]);
  });

  it("have their names beside each other where the surfaces lie close, and one surface in one depth", () => {
    const close = surfaces(afloatIn("Deeper by a hand", 5.3)).names;
    expect(Math.abs(close[0]!.x - close[1]!.x)).toBeGreaterThan(200);
    expect(surfaces(afloatIn("As deep", 5)).names.map(({ said }) => said)).toEqual(["surface"]);
  });
});

/** Without current, in which settling is slow. */
function still(rig: Rig): Rig {
  return rig.setting.medium === "air" ? rig : { ...rig, setting: { ...rig.setting, current: 0 } };
}
