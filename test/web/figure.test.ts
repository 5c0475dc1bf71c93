/** What is read off a figure, and its table. Values are worked out by hand. */
import Papa from "papaparse";
import { describe, expect, it } from "vitest";
import { drawXy, figureCsv } from "../../src/figure/index.ts";
import { readOff } from "../../src/web/figure/read-off.ts";
import { type ShownPlot, shownFigure } from "../../src/web/figure/shown-figure.ts";
import { tableOf } from "../../src/web/figure/table.ts";

const plot: ShownPlot = {
  box: { left: 0, top: 0, right: 100, bottom: 100 },
  x: { label: "load", unit: "kN", from: 0, to: 10 },
  y: { label: "angle", unit: "°", from: 0, to: 20 },
  series: [
    { kind: "line", name: "theory", x: [0, 4, 10], y: [0, 8, 20], u: [0, 0.4, 1] },
    { kind: "band", name: "95 % band", x: [0, 10], low: [0, 10], high: [0, 30] },
    { kind: "points", name: "reading", x: [2, 7], y: [4.2, 13], u: [0.5, Number.NaN], notes: ["", "an outlier"] },
  ],
};
const told = (x: number) => readOff(plot, x).map(({ name, text }) => `${name}: ${text}`);

describe("reading off a figure", () => {
  it("goes straight between two corners, no sharper than the ± there, and tells the points nearby", () => {
    // Halfway from (0, 0 ± 0) to (4, 8 ± 0.4): 4 ± 0.2; the band from 2 to 6.
    expect(told(2)).toEqual(["theory: 4.00 ± 0.20°", "95 % band: 2 to 6°", "reading: 4.20 ± 0.50°"]);
    // A third of the way from (4, 8) to (10, 20) is (6, 12): its ± is 0.4 + 0.2 = 0.6.
    expect(told(6)).toEqual(["theory: 12.00 ± 0.60°", "95 % band: 6 to 18°"]);
    expect(told(7.1)[2]).toBe("reading: an outlier");
  });

  it("says nothing where a line has a gap, and of a step the value it comes to", () => {
    const gap = { ...plot, series: [{ kind: "line" as const, name: "", x: [0, 1, 2], y: [1, Number.NaN, 3] }] };
    expect(readOff(gap, 0.5)).toEqual([]);
    const step = { ...plot, series: [{ kind: "line" as const, name: "", x: [0, 5, 5, 9], y: [1, 1, 0.5, 0.5] }] };
    expect(readOff(step, 4.9)[0]!.at[0]!.y).toBe(1);
    expect(readOff(step, 5.1)[0]!.at[0]!.y).toBe(0.5);
  });

  it("finds a line whose corners run backwards", () => {
    const back = { ...plot, series: [{ kind: "line" as const, name: "", x: [8, 2], y: [1, 4] }] };
    expect(readOff(back, 5)[0]!.at).toEqual([{ x: 5, y: 2.5 }]);
  });
});

describe("the table of a figure", () => {
  it("has a row a value, as another reader of the format takes it", () => {
    const csv = figureCsv(tableOf({ width: 100, height: 100, plots: [plot] }));
    const { data, errors } = Papa.parse<string[]>(csv.trimEnd());
    expect(errors).toEqual([]);
    expect(data[0]).toEqual(["line", "load, kN", "angle, °", "standard uncertainty", "low", "high"]);
    expect(data).toHaveLength(1 + 3 + 2 + 2);
    expect(data[2]).toEqual(["theory", "4", "8", "0.4", "", ""]);
    expect(data[5]).toEqual(["95 % band", "10", "", "", "10", "30"]);
    expect(data[7]).toEqual(["reading", "7", "13", "", "", ""]);
  });

  it("quotes what has commas and quotes in it, and keeps a spreadsheet from taking a name for a formula", () => {
    expect(figureCsv({ columns: ["a"], rows: [['say "so", then'], ["=1+1"], [Number.NaN]] })).toBe(
      'a\r\n"say ""so"", then"\r\n\'=1+1\r\n\r\n',
    );
  });

  it("is that of the drawing: its scales put a value where the drawing has it", () => {
    const drawn = drawXy({
      title: "t",
      description: "d",
      x: { label: "load", unit: "kN", from: 0, to: 10 },
      y: { label: "angle", unit: "°", from: 0, to: 20 },
      layers: [{ kind: "line", x: [0, 10], y: [0, 20], role: "computed", label: "theory" }],
    });
    const [only] = shownFigure("t", drawn).plots;
    expect(only).toMatchObject({ x: { from: 0, to: 10 }, y: { from: 0, to: 20 } });
    expect(only!.box.left).toBeCloseTo(drawn.x.toPixel(0), 9);
    expect(only!.box.top).toBeCloseTo(drawn.y.toPixel(20), 9);
    expect(only!.series).toEqual([{ kind: "line", name: "theory", x: [0, 10], y: [0, 20] }]);
  });
});
