/**
 * The colours of figures, by meaning. Each is a CSS custom property with the colour on light paper as its fallback, so that
 * a page themes its figures by setting `--figure-…` and a figure on its own still shows.
 *
 * What was measured and what was computed are far apart in hue for eyes of every kind, and in lightness for a copier
 * (test/figure/ink.test.ts); they are told apart by shape as well.
 */

export const INKS = {
  /** Read from an instrument. */
  measured: { light: "#b34400", dark: "#f08a3c" },
  /** Follows from the model. */
  computed: { light: "#123f73", dark: "#b9dcff" },
  /** A second computed thing beside the first: another rig, a bound. */
  other: { light: "#5d6b1f", dark: "#c9d97a" },
  /** Text and axes. */
  ink: { light: "#17212b", dark: "#edf2f6" },
  /** Lesser text, dimension lines. */
  soft: { light: "#51606d", dark: "#a9b6c2" },
  /** Grid lines and edges nobody reads. */
  faint: { light: "#d3dae0", dark: "#334250" },
  paper: { light: "#ffffff", dark: "#0f1820" },
  water: { light: "#e4eff7", dark: "#142b3d" },
  ground: { light: "#8a7f6d", dark: "#8d8371" },
} as const;

/** A colour by what it stands for. */
export type Ink = keyof typeof INKS;
/** Light, dark or full sun. */
export type Theme = "light" | "dark";

/** A colour as an attribute takes it: `var(--figure-measured, #b34400)`. */
export function ink(name: Ink): string {
  return `var(--figure-${name}, ${INKS[name].light})`;
}

/** The custom properties of a theme, as the inside of a CSS rule. */
export function inkProperties(theme: Theme): string {
  return Object.entries(INKS)
    .map(([name, colours]) => `--figure-${name}:${colours[theme]}`)
    .join(";");
}

/** A figure with its colours written out, for programs that know no custom properties. */
export function flat(svg: string, theme: Theme = "light"): string {
  return svg.replace(/var\(--figure-([a-z]+), #[0-9a-f]{6}\)/g, (whole, name: string) =>
    name in INKS ? INKS[name as Ink][theme] : whole,
  );
}
