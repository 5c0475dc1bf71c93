/** The water of a series: bars and rings stand where their depths say, on every width, and are seen in the picture. */
import { Resvg } from "@resvg/resvg-js";
import { describe, expect, it } from "vitest";
import { drawWater, flat, INKS, type WaterRow } from "../../src/figure/index.ts";

const rows: readonly WaterRow[] = [
  {
    asked: "2°, 1000 N",
    said: ["2.0 m to 8.0 m", "35.2 m of a rode with a very long name indeed out", "1230 N at the bow"],
    depths: { least: 2, most: 8, best: 5 },
  },
  {
    asked: "12°, 3000 N",
    said: [`none. all chain: ${"too little engine: 2930 N level at the bow; ".repeat(6)}`],
    depths: null,
  },
];
const drawn = (width: number, deepest = 10) =>
  drawWater({
    ...{ title: "Water", description: "Two rows.", width, deepest },
    sites: [{ name: "Creek mouth", rows }],
    axis: { label: "water at the anchor", unit: "m" },
  });

const letters = {
  fontFiles: ["Regular", "Bold"].map((weight) => `data/fonts/LiberationSans-${weight}.ttf`),
  loadSystemFonts: false,
  defaultFontFamily: "Liberation Sans",
};
const numbers = (svg: string, tag: RegExp): number[] => (tag.exec(svg) ?? []).slice(1).map(Number);

describe("the water of a series", () => {
  it.each([288, 360, 680])("has its bar and ring where the axis has those depths, %s px wide", (width) => {
    const { svg } = drawn(width);
    const [from, to] = numbers(svg, /<line x1="([\d.]+)" x2="([\d.]+)"[^>]* stroke-width="7"/) as [number, number];
    const [ring] = numbers(svg, /<circle cx="([\d.]+)"/) as [number];
    // The axis is marked at 0 and at a depth of its own: what lies between is linear.
    const marks = [...svg.matchAll(/<text x="([\d.]+)"[^>]*text-anchor="middle"[^>]*>([\d.]+)<\/text>/g)].map(
      ([, x, value]) => [Number(x), Number(value)] as const,
    );
    const [zero, last] = [marks[0]!, marks.at(-1)!];
    expect(zero[1]).toBe(0);
    const at = (depth: number): number => zero[0] + (depth * (last[0] - zero[0])) / last[1];
    // A tenth of a pixel is added, so that one depth alone is seen.
    expect(from).toBeCloseTo(at(2), 2);
    expect(to - 0.1).toBeCloseTo(at(8), 2);
    expect(ring).toBeCloseTo(at(5), 2);
  });

  it.each([288, 360, 680])("keeps every word within the sheet, %s px wide, and cuts no number", (width) => {
    const { svg, height } = drawn(width);
    const box = new Resvg(flat(svg), { font: letters }).getBBox()!;
    expect(box.x).toBeGreaterThanOrEqual(0);
    expect(box.x + box.width).toBeLessThanOrEqual(width);
    expect(box.y + box.height).toBeLessThanOrEqual(height);
    const written = [...svg.matchAll(/<text [^>]*>([^<]*)<\/text>/g)].map(([, line]) => line!);
    expect(written).toContain("2°, 1000 N");
    for (const line of written) expect(line).not.toMatch(/\d…$/);
    // On a phone what there is no room for is left to the table.
    expect(written.some((line) => line.includes("1230 N at the bow"))).toBe(width === 680);
  });

  it("is seen: the bar in the ink of what is computed between its depths, paper within the ring and beside the bar", () => {
    for (const theme of ["light", "dark"] as const) {
      const { svg } = drawn(680);
      const image = new Resvg(flat(svg, theme), { font: letters, background: INKS.paper[theme] }).render();
      // Asked once: each asking copies all of them.
      const { pixels } = image;
      const colour = (x: number, y: number): string => {
        const at = 4 * (Math.round(y) * image.width + Math.round(x));
        return `#${[...pixels.subarray(at, at + 3)].map((part) => part.toString(16).padStart(2, "0")).join("")}`;
      };
      const [from, to, y] = numbers(svg, /<line x1="([\d.]+)" x2="([\d.]+)" y1="([\d.]+)"[^>]* stroke-width="7"/);
      const [ring] = numbers(svg, /<circle cx="([\d.]+)"/);
      expect(colour(from! + 20, y!)).toBe(INKS.computed[theme]);
      expect(colour(to! - 20, y!)).toBe(INKS.computed[theme]);
      expect(colour(ring!, y!)).toBe(INKS.paper[theme]);
      expect(colour(from! - 20, y!)).toBe(INKS.paper[theme]);
    }
  });

  it("stands in two columns where it is wide, a parted site named over both, every row once", () => {
    const { svg, height } = drawn(1000);
    expect(height).toBeLessThan(drawn(680).height);
    const written = [...svg.matchAll(/<text [^>]*>([^<]*)<\/text>/g)].map(([, line]) => line!);
    expect(written.filter((line) => line === "Creek mouth")).toHaveLength(2);
    for (const { asked } of rows) expect(written.filter((line) => line === asked)).toHaveLength(1);
    const box = new Resvg(flat(svg), { font: letters }).getBBox()!;
    expect(box.x + box.width).toBeLessThanOrEqual(1000);
  });

  it("has an axis where nothing can be had at all", () => {
    const { svg } = drawWater({
      ...{ title: "Water", description: "", width: 300, deepest: 0 },
      sites: [{ name: "", rows: [rows[1]!] }],
      axis: { label: "water at the anchor", unit: "m" },
    });
    expect(svg).toContain("none. all chain");
    expect(svg).not.toContain("<circle");
  });
});
