/** Pulls on an axis of load: each mark stands at its load, by the ticks' own scale, and says by its shape what it says. */
import { parseHTML } from "linkedom";
import { describe, expect, it } from "vitest";
import { drawPulls, type PullMark } from "../../src/figure/index.ts";

const marks: PullMark[] = [
  { kind: "gaveWay", load: 4 },
  { kind: "heldTo", load: 6 },
  { kind: "neverHeld", load: 1.5 },
  { kind: "between", from: 2, to: 5 },
];
const draw = (rows: { name: string; marks: readonly PullMark[] }[]) =>
  parseHTML(
    drawPulls({ rows, axis: "load at the anchor, kN", width: 680, title: "Pulls", description: "Each as a mark." }).svg,
  ).document;
const document = draw([
  { name: "Scoop <15 kg>", marks },
  { name: "Claw", marks: [{ kind: "gaveWay", load: 12.5 }] },
]);
const texts = [...document.querySelectorAll("text")].map((one) => ({
  says: one.textContent!,
  x: Number(one.getAttribute("x")),
  y: Number(one.getAttribute("y")),
}));
const ticks = texts.filter(({ says }) => /^\d+(\.\d+)?$/.test(says)).map(({ says, x }) => [Number(says), x] as const);
const atLoad = (load: number): number => {
  const [a, b] = [ticks[0]!, ticks.at(-1)!];
  return a[1] + ((load - a[0]) / (b[0] - a[0])) * (b[1] - a[1]);
};
const paths = [...document.querySelectorAll("path")].map((one) => ({
  d: one.getAttribute("d")!,
  fill: one.getAttribute("fill")!,
}));
const first = (d: string) =>
  d
    .match(/^M(-?[\d.]+) (-?[\d.]+)/)!
    .slice(1)
    .map(Number) as [number, number];

describe("pulls as marks", () => {
  it("have ticks at round loads from 0 past the highest, evenly", () => {
    expect(ticks[0]![0]).toBe(0);
    expect(ticks.at(-1)![0]).toBeGreaterThanOrEqual(10);
    expect(ticks.at(-1)![0]).toBeLessThanOrEqual(12.5 * 1.05);
    for (const [value, x] of ticks) expect(Math.abs(atLoad(value) - x)).toBeLessThan(0.01);
  });
  it("name each anchor with the number of its pulls, and the axis", () => {
    expect(texts.map(({ says }) => says)).toEqual(
      expect.arrayContaining(["Scoop <15 kg> (4)", "Claw (1)", "load at the anchor, kN"]),
    );
    const [one, two] = [
      texts.find(({ says }) => says.startsWith("Scoop"))!,
      texts.find(({ says }) => says.startsWith("Claw"))!,
    ];
    expect(two.y - one.y).toBeGreaterThan(40);
  });
  it("stand at their loads: a diamond, an arrow on, an arrow back, a bar", () => {
    const filled = paths.filter(({ fill }) => fill !== "none");
    const open = paths.filter(({ fill }) => fill === "none");
    expect(filled).toHaveLength(2);
    expect(open).toHaveLength(2);
    expect(first(filled[0]!.d)[0]).toBeCloseTo(atLoad(4), 1);
    expect(filled[0]!.d).toContain("l4 4l-4 4l-4-4z");
    expect(first(filled[1]!.d)[0]).toBeCloseTo(atLoad(12.5), 1);
    expect(first(filled[1]!.d)[1]).toBeGreaterThan(first(filled[0]!.d)[1] + 40);
    const [arrows, bar] = open.map(({ d }) => d) as [string, string];
    expect(first(arrows)[0]).toBeCloseTo(atLoad(6), 1);
    expect(arrows).toContain("h14l-4-3m4 3l-4 3");
    const back = arrows.slice(arrows.indexOf("M", 1));
    expect(first(back)[0]).toBeCloseTo(atLoad(1.5), 1);
    expect(Number(/H([\d.]+)l4-3/.exec(back)![1])).toBeCloseTo(atLoad(0) + 1, 1);
    expect(first(bar)[0]).toBeCloseTo(atLoad(2), 1);
    expect(Number(/H([\d.]+)m0-3v6/.exec(bar)![1])).toBeCloseTo(atLoad(5), 1);
  });
  it("of one row lie in six lanes, one below the other, and begin again", () => {
    const many = draw([{ name: "A", marks: Array.from({ length: 7 }, () => ({ kind: "gaveWay", load: 3 }) as const) }]);
    const d = [...many.querySelectorAll("path")].find((one) => one.getAttribute("fill") !== "none")!.getAttribute("d")!;
    const y = [...d.matchAll(/M[\d.]+ ([\d.]+)l/g)].map(([, value]) => Number(value));
    expect(y).toHaveLength(7);
    for (let i = 1; i < 6; i++) expect(y[i]! - y[i - 1]!).toBeCloseTo(6, 6);
    expect(y[6]).toBe(y[0]);
    // Within its own row.
    expect(y[5]).toBeLessThan(58);
  });
  it("none at all is an empty axis, not a fault", () => {
    const empty = draw([{ name: "A", marks: [] }]);
    expect(empty.querySelectorAll("path")).toHaveLength(0);
    expect(empty.documentElement.outerHTML).not.toMatch(/NaN|undefined/);
  });
});
