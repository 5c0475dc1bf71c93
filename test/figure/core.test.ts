import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { fitted, widthOf } from "../../src/figure/lettering.ts";
import { overlap, roomFor, textBox } from "../../src/figure/room-for.ts";
import { linearScale, rimmedRange, ticksBetween, tickText } from "../../src/figure/scale.ts";
import { escaped, num, tag } from "../../src/figure/svg.ts";
import { parse } from "./parse.ts";

describe("numbers and text in SVG", () => {
  it("rounds to three decimals, without a negative zero", () => {
    expect([1 / 3, -0.0001, 2, -1.23456, 1e-9].map(num)).toEqual(["0.333", "0", "2", "-1.235", "0"]);
  });

  it("refuses what has no place on a page", () => {
    for (const none of [Number.NaN, Number.POSITIVE_INFINITY]) expect(() => num(none)).toThrow(RangeError);
  });

  it("lets no text out of its place: whatever is written comes back as text", () => {
    fc.assert(
      fc.property(fc.string({ unit: "binary", maxLength: 40 }), (written) => {
        const root = parse(tag("text", { title: written }, escaped(written)));
        expect(root.name).toBe("text");
        expect(root.children).toEqual([]);
      }),
      { seed: 1, numRuns: 150 },
    );
    expect(escaped(`<script>"'&`)).toBe("&lt;script&gt;&quot;&#39;&amp;");
    expect(escaped("a\u0000b\u001b[31m\ud800c")).toBe("ab[31mc");
  });
});

describe("scales", () => {
  it("go from values to pixels and back", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1e6, max: 1e6, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (from, share) => {
          const scale = linearScale(from, from + 10, [500, 20]);
          const value = from + 10 * share;
          // Rounding of the sum from + 10 · share alone.
          expect(Math.abs(scale.toValue(scale.toPixel(value)) - value)).toBeLessThan(1e-9 * (1 + Math.abs(from)));
        },
      ),
      { seed: 2 },
    );
    expect(linearScale(0, 10, [500, 20]).toPixel(10)).toBe(20);
  });

  it("are marked at round values, inside their ends, about as many as asked", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1e5, max: 1e5, noNaN: true }),
        fc.double({ min: 1e-3, max: 1e5, noNaN: true }),
        fc.integer({ min: 2, max: 12 }),
        (from, extent, about) => {
          const { values, step } = ticksBetween(from, from + extent, about);
          const lead = step / 10 ** Math.floor(Math.log10(step) + 1e-9);
          expect([1, 2, 5].some((round) => Math.abs(lead - round) < 1e-6)).toBe(true);
          for (const value of values) {
            expect(value).toBeGreaterThanOrEqual(from - 1e-6 * extent);
            expect(value).toBeLessThanOrEqual(from + extent + 1e-6 * extent);
          }
          // Steps of 1, 2, 5 are at most 2.5 apart.
          expect(values.length).toBeLessThanOrEqual(about + 1);
          expect(values.length).toBeGreaterThanOrEqual(Math.floor(about / 2.5));
        },
      ),
      { seed: 3 },
    );
  });

  it("write marks with the decimals of their step and a true minus sign", () => {
    expect(ticksBetween(0, 1, 5)).toEqual({ values: [0, 0.2, 0.4, 0.6, 0.8, 1], step: 0.2, decimals: 1 });
    expect([tickText(-2, 0), tickText(-0.001, 1), tickText(0.5, 2)]).toEqual(["−2", "0.0", "0.50"]);
  });

  it("leave a rim about the data, and an extent to a single value", () => {
    expect(rimmedRange(0, 100)).toEqual([-4, 104]);
    expect(rimmedRange(5, 5)).toEqual([2.5, 7.5]);
    expect(rimmedRange(0, 0)).toEqual([-0.5, 0.5]);
  });
});

describe("room for labels", () => {
  const within = { left: 0, top: 0, right: 100, bottom: 100 };
  const box = (left: number, top: number) => ({ left, top, right: left + 10, bottom: top + 10 });

  it("takes the first place that is free", () => {
    const places = [box(0, 0), box(20, 0), box(40, 0)].map((one) => ({ box: one }));
    expect(roomFor(places, [box(5, 5)], within)).toBe(places[1]);
  });

  it("takes the least covered when none is free, and keeps off the edge", () => {
    const places = [box(0, 0), box(8, 8), box(95, 95)].map((one) => ({ box: one }));
    expect(roomFor(places, [box(0, 0), box(16, 16)], within)).toBe(places[1]);
  });

  it("measures overlap", () => {
    expect(overlap(box(0, 0), box(5, 5))).toBe(25);
    expect(overlap(box(0, 0), box(10, 0))).toBe(0);
  });

  it("knows where text of each anchor lies", () => {
    const [start, middle, end] = (["start", "middle", "end"] as const).map((anchor) => textBox(50, 50, 20, 12, anchor));
    expect([start!.left, middle!.left, end!.left]).toEqual([50, 40, 30]);
  });

  it("cuts a line that is too wide, and only that", () => {
    expect(fitted("short", 200)).toBe("short");
    const cut = fitted("a rather long name of some part", 90);
    expect(cut).toMatch(/^a rather.*…$/);
    expect(widthOf(cut)).toBeLessThanOrEqual(90);
  });
});
