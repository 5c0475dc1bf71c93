import { describe, expect, it } from "vitest";
import { flat, INKS, type Ink, ink, type Theme } from "../../src/figure/index.ts";

type Rgb = readonly [number, number, number];

/** Linear light of an sRGB colour. Source: IEC 61966-2-1, as WCAG 2.1 prints it. */
function linear(hex: string): Rgb {
  const channel = (at: number) => {
    const c = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  };
  return [channel(1), channel(3), channel(5)];
}

const luminance = ([r, g, b]: Rgb) => 0.2126 * r + 0.7152 * g + 0.0722 * b;

/** Source: WCAG 2.1, contrast ratio. */
function contrast(a: string, b: string): number {
  const [low, high] = [luminance(linear(a)), luminance(linear(b))].sort((x, y) => x - y) as [number, number];
  return (high + 0.05) / (low + 0.05);
}

/** CIE L*a*b*, D65. Source: CIE 15:2004; matrix of IEC 61966-2-1. */
function lab([r, g, b]: Rgb): Rgb {
  const f = (t: number) => (t > (6 / 29) ** 3 ? Math.cbrt(t) : t / (3 * (6 / 29) ** 2) + 4 / 29);
  const x = f((0.4124 * r + 0.3576 * g + 0.1805 * b) / 0.9505);
  const y = f(0.2126 * r + 0.7152 * g + 0.0722 * b);
  const z = f((0.0193 * r + 0.1192 * g + 0.9505 * b) / 1.089);
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
}

/** Linear light as seen without one kind of cone. Source: Machado, Oliveira & Fernandes (2009), severity 1; recalled. */
const EYES: Readonly<Record<string, readonly Rgb[]>> = {
  usual: [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
  protan: [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  deutan: [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
  tritan: [
    [1.255528, -0.076749, -0.178779],
    [-0.078411, 0.930809, 0.147602],
    [0.004733, 0.691367, 0.3039],
  ],
};

function seen(hex: string, rows: readonly Rgb[]): Rgb {
  const light = linear(hex);
  const clipped = rows.map((row) =>
    Math.min(
      1,
      Math.max(
        0,
        row.reduce((sum, share, i) => sum + share * light[i]!, 0),
      ),
    ),
  );
  return lab(clipped as unknown as Rgb);
}

const themes: readonly Theme[] = ["light", "dark"];
const of = (name: Ink, theme: Theme) => INKS[name][theme];

describe("the colours of figures", () => {
  it("contrast formula gives WCAG's own ends: 21 for black on white, 1 for a colour on itself", () => {
    expect(contrast("#000000", "#ffffff")).toBeCloseTo(21, 10);
    expect(contrast("#b34400", "#b34400")).toBe(1);
  });

  it("can be read as text on paper and on water, in light and dark", () => {
    // WCAG 2.1, 1.4.3 (AA): 4.5 for text of ordinary size.
    for (const theme of themes)
      for (const name of ["measured", "computed", "other", "ink", "soft"] as const)
        for (const ground of ["paper", "water"] as const)
          expect(contrast(of(name, theme), of(ground, theme)), `${name} on ${ground}, ${theme}`).toBeGreaterThan(4.5);
  });

  it("the ground stands out as a line", () => {
    // WCAG 2.1, 1.4.11: 3 for what has to be seen but not read.
    for (const theme of themes) expect(contrast(of("ground", theme), of("paper", theme))).toBeGreaterThan(3);
  });

  it("tell measured from computed for eyes of every kind", () => {
    for (const theme of themes)
      for (const [eye, rows] of Object.entries(EYES)) {
        const [a, b] = [seen(of("measured", theme), rows), seen(of("computed", theme), rows)];
        const distance = Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
        // CIE 1976: 2.3 is just noticeable; ten times that is plain.
        expect(distance, `${theme}, ${eye}`).toBeGreaterThan(25);
      }
  });

  it("tell measured from computed in greyscale", () => {
    for (const theme of themes) {
      const grey = (name: Ink) => lab(linear(of(name, theme)))[0];
      // L* runs from 0 to 100; a copier keeps about ten steps apart.
      expect(Math.abs(grey("measured") - grey("computed")), theme).toBeGreaterThan(15);
    }
  });

  it("are themed by custom properties, and can be written out", () => {
    expect(ink("measured")).toBe(`var(--figure-measured, ${INKS.measured.light})`);
    const svg = `<path fill="${ink("measured")}" stroke="${ink("paper")}"/>`;
    expect(flat(svg)).toBe(`<path fill="${INKS.measured.light}" stroke="${INKS.paper.light}"/>`);
    expect(flat(svg, "dark")).toBe(`<path fill="${INKS.measured.dark}" stroke="${INKS.paper.dark}"/>`);
  });
});
