import { describe, expect, it } from "vitest";
import { drawPanels, drawXy, type Layer, type XySpec } from "../../src/figure/index.ts";
import { all, type Element, parse, places, texts } from "./parse.ts";
import { expectKept } from "./snapshot.ts";

const wind = [0, 10, 20, 30, 40];
const squareLaw = wind.map((v) => 2.05e-3 * v * v);
const layers: Layer[] = [
  { kind: "region", x: [10, 20, 22, 14], y: [2, 2.2, 3, 3.1], role: "other", label: "feasible" },
  {
    kind: "band",
    x: wind,
    low: squareLaw.map((load) => 0.8 * load),
    high: squareLaw.map((load) => 1.2 * load),
    role: "computed",
  },
  { kind: "line", x: wind, y: squareLaw, role: "computed", label: "square law" },
  { kind: "line", x: [0, 40], y: [0.4, 2.4], role: "faint", stroke: "dashed", label: "a table" },
  { kind: "rule", axis: "y", at: 2.6, role: "other", label: "full thrust" },
  {
    kind: "points",
    role: "measured",
    label: "measured",
    points: [
      { x: 12, y: 0.3, uX: 1, uY: 0.05 },
      { x: 22, y: 1, uX: 1, uY: 0.1, note: "22 kn: <1 kN>" },
      { x: 27, y: 1.5, uX: 1, uY: 0.1, doubted: true },
      { x: 33, y: 2.4, uX: 1, shape: "triangle" },
    ],
  },
  { kind: "points", role: "computed", points: [{ x: 36, y: 2.657 }] },
];
const spec: XySpec = {
  title: "Wind and load",
  description: "An invented boat & its points.",
  x: { label: "wind", unit: "kn", from: 0 },
  y: { label: "load at the bow", unit: "kN", from: 0 },
  layers,
};

/** Corners of the closed paths, each a sign of a point, by their fill. */
const signs = (root: Element, corners: number) =>
  all(root, "path")
    .filter(({ attributes }) => attributes.d!.endsWith("Z") && places(attributes.d!).length === corners)
    .filter(({ attributes }) => attributes["fill-opacity"] === undefined)
    .map(({ attributes }) => ({ fill: attributes.fill!, corners: places(attributes.d!) }));

describe("a figure of y over x", () => {
  const drawn = drawXy(spec);
  const root = parse(drawn.svg);

  it("is the one that was looked at", () => expectKept(drawXy({ ...spec, alone: true }).svg, "wind-and-load"));

  it("says what it is to those who do not see it", () => {
    expect(root.attributes.role).toBe("img");
    expect(root.children[0]).toMatchObject({ name: "title", text: "Wind and load" });
    expect(root.children[1]).toMatchObject({ name: "desc" });
    expect(root.children[1]!.text).toContain("An invented boat");
  });

  it("puts a point where its values are", () => {
    const middles = signs(root, 4).map(({ corners: [left, top, right, bottom] }) => [
      (left![0] + right![0]) / 2,
      (top![1] + bottom![1]) / 2,
    ]);
    const [x, y] = [drawn.x.toPixel(12), drawn.y.toPixel(0.3)];
    expect(middles.some(([px, py]) => Math.hypot(px! - x, py! - y) < 0.01)).toBe(true);
    // The axes run from 0 at the left and bottom edge of the plot.
    expect(drawn.x.toPixel(0)).toBe(drawn.plot.left);
    expect(drawn.y.toPixel(0)).toBe(drawn.plot.bottom);
    expect(drawn.x.toValue(drawn.plot.right)).toBeGreaterThan(40);
  });

  it("draws error bars of the length of the uncertainty", () => {
    const lengths = all(root, "line").map((line) => Number(line.attributes.x2) - Number(line.attributes.x1));
    const expected = drawn.x.toPixel(2) - drawn.x.toPixel(0);
    expect(lengths.filter((length) => Math.abs(length - expected) < 0.002).length).toBe(4);
  });

  it("draws a band between its edges and a line through its points", () => {
    const paths = all(root, "path").map((path) => places(path.attributes.d!));
    const at = (x: number, y: number) => [Number(drawn.x.toPixel(x).toFixed(3)), Number(drawn.y.toPixel(y).toFixed(3))];
    expect(paths.some((path) => path.length === 10 && near(path[4]!, at(40, 1.2 * squareLaw[4]!)))).toBe(true);
    expect(paths.some((path) => path.length === 5 && near(path[2]!, at(20, squareLaw[2]!)))).toBe(true);
  });

  it("names its axes with their units, and every layer beside it", () => {
    const said = texts(root);
    for (const label of [
      "wind, kn",
      "load at the bow, kN",
      "feasible",
      "square law",
      "a table",
      "full thrust",
      "measured",
    ])
      expect(said).toContain(label);
  });

  it("tells what was measured from what was computed by shape as well as colour", () => {
    // Filled, for a copier: measured and believed. Hollow: not believed, or computed; those are round.
    const [diamonds, triangles] = [signs(root, 4), signs(root, 3)];
    expect(diamonds.map(({ fill }) => /measured|paper/.exec(fill)?.[0])).toEqual(["measured", "measured", "paper"]);
    expect(triangles.map(({ fill }) => /measured|paper/.exec(fill)?.[0])).toEqual(["measured"]);
    const rings = all(root, "circle").map(({ attributes }) => [attributes.fill, attributes.stroke]);
    expect(rings.length).toBe(1);
    expect(rings[0]![0]).toContain("paper");
    expect(rings[0]![1]).toContain("computed");
    expect(all(root, "path").some((path) => path.attributes.stroke?.includes("computed"))).toBe(true);
  });

  it("sets nothing smaller than 11 px", () => {
    for (const text of all(root, "text")) expect(Number(text.attributes["font-size"])).toBeGreaterThanOrEqual(11);
  });

  it("carries the note of a point as text", () => {
    expect(all(root, "title").map((title) => title.text)).toContain("22 kn: <1 kN>");
  });

  it("is the same each time, and names nothing that could clash within a page", () => {
    expect(drawXy(spec).svg).toBe(drawn.svg);
    expect(drawn.svg).not.toMatch(/ id="|url\(|href/);
  });

  it("stands on its own with its colours for light and dark when asked to", () => {
    const alone = drawXy({ ...spec, alone: true }).svg;
    expect(alone).toContain("prefers-color-scheme:dark");
    expect(drawn.svg).not.toContain("<style");
  });

  it("holds nothing at all without falling over", () => {
    const empty = drawXy({ ...spec, layers: [], y: { label: "load", unit: "" }, x: { label: "wind", unit: "" } });
    expect(texts(parse(empty.svg))).toContain("load");
  });
});

describe("panels", () => {
  const two = drawPanels({
    ...spec,
    panels: [
      { y: spec.y, layers, height: 240 },
      {
        y: { label: "residual", unit: "" },
        layers: [{ kind: "line", x: [0, 40], y: [-1, 1], role: "faint" }],
        height: 120,
      },
    ],
  });

  it("share their x and lie one under another", () => {
    const [upper, lower] = two.panels;
    expect(upper!.x.toPixel(20)).toBe(lower!.x.toPixel(20));
    expect(lower!.plot.top).toBeGreaterThan(upper!.plot.bottom);
    expect(two.height).toBe(360);
  });

  it("carry the marks of x once, below the last", () => {
    expect(texts(parse(two.svg)).filter((text) => text === "20").length).toBe(1);
  });
});

function near(a: readonly number[], b: readonly number[]): boolean {
  return Math.hypot(a[0]! - b[0]!, a[1]! - b[1]!) < 0.01;
}
