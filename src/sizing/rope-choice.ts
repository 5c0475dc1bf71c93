/** The rope of a snubber by fibre, lay and any diameter: the catalogue's own row, or one between its sizes. */
import { type Catalogue, findRope, type RopeRow, type StretchLaw } from "../gear/index.ts";
import { InputError, parseQuantity, quoted } from "../quantity/index.ts";

/** Rope as sizing needs it: wet and worked in, as the catalogue's curves are. */
export interface Rope {
  readonly name: string;
  readonly fibre: string;
  readonly lay: string;
  /** m */
  readonly diameter: number;
  /** kg/m */
  readonly massPerLength: number;
  /** kg/m³ */
  readonly density: number;
  readonly stretch: StretchLaw;
  /** New and dry, N; and wet, where the fibre loses strength. */
  readonly breakingLoad: number;
  readonly wetBreakingLoad: number;
  /** A row of the catalogue, or scaled between its sizes. */
  readonly from: "row" | "scaled";
  /** Relative standard uncertainty of the stretch under a load. */
  readonly stretchU: number;
}

/** Sizes closer than this are one, m. */
const SAME = 2e-5;

/**
 * The rope of a fibre and lay at a diameter, m. Between the catalogue's metric sizes mass and strength over diameter
 * squared run
 * straight, and the stretch curve keeps its shape over the share of strength.
 * @throws InputError when the catalogue has no such fibre or lay, or the diameter is half or twice what it has
 */
export function ropeOf(
  wanted: { readonly fibre: string; readonly lay: string; readonly diameter: number },
  catalogue: Catalogue,
  place: string,
): Rope {
  return ropesOf(wanted, [wanted.diameter], catalogue, place)[0]!;
}

/**
 * The ropes of a fibre and lay at several diameters, as `ropeOf` has each: between two of the sizes of the catalogue
 * scaled by diameter squared.
 * @param diameters m
 * @throws InputError when the catalogue has no such fibre or lay, or a diameter is half or twice what it has
 */
export function ropesOf(
  wanted: { readonly fibre: string; readonly lay: string },
  diameters: ArrayLike<number>,
  catalogue: Catalogue,
  place: string,
): readonly Rope[] {
  const rows = rowsOf(wanted, catalogue, place);
  return Array.from(diameters, (diameter) => ropeAt(rows, diameter, place));
}

function ropeAt(rows: readonly RopeRow[], diameter: number, place: string): Rope {
  const [thinnest, thickest] = [rows[0]!, rows.at(-1)!];
  if (!(diameter >= 0.5 * thinnest.diameter && diameter <= 2 * thickest.diameter)) {
    throw new InputError(
      `${place}.diameter`,
      `${mm(diameter)} mm`,
      `a diameter near those of the catalogue is expected, ${mm(thinnest.diameter)} to ${mm(thickest.diameter)} mm`,
    );
  }
  const own = nearestTo(rows, diameter);
  if (Math.abs(own.diameter - diameter) <= SAME) return ropeFrom(own, own.diameter, 1, 1);
  // Between sizes of one system only: the standards of inch and metric rope differ in strength by more than their sizes do.
  const metric = rows.filter((row) => row.size.endsWith("mm"));
  const kin = metric.length > 1 ? metric : rows;
  const nearest = nearestTo(kin, diameter);
  const squared = (of: (row: RopeRow) => number): number => between(kin, diameter, of) * diameter ** 2;
  const strength = squared((row) => row.breakingLoad! / row.diameter ** 2) / nearest.breakingLoad!;
  const mass = squared((row) => row.massPerLength / row.diameter ** 2) / nearest.massPerLength;
  return ropeFrom(nearest, diameter, strength, mass);
}

function nearestTo(rows: readonly RopeRow[], diameter: number): RopeRow {
  return rows.reduce((best, row) =>
    Math.abs(row.diameter - diameter) < Math.abs(best.diameter - diameter) ? row : best,
  );
}

/** A figure of the rows at a diameter: straight between its neighbours, that of the end row beyond. */
function between(rows: readonly RopeRow[], diameter: number, of: (row: RopeRow) => number): number {
  const i = rows.findIndex((row) => row.diameter >= diameter);
  if (i <= 0) return of(i === 0 ? rows[0]! : rows.at(-1)!);
  const [below, above] = [rows[i - 1]!, rows[i]!];
  const share = (diameter - below.diameter) / (above.diameter - below.diameter);
  return of(below) + share * (of(above) - of(below));
}

function ropeFrom(row: RopeRow, diameter: number, strength: number, mass: number): Rope {
  const own = strength === 1 && mass === 1;
  return {
    name: own ? row.name : `${row.fibre} ${row.lay} ${mm(diameter)} mm`,
    fibre: row.fibre,
    lay: row.lay,
    diameter,
    massPerLength: row.massPerLength * mass,
    density: row.density,
    stretch: scaledLaw(row.stretch, strength),
    breakingLoad: row.breakingLoad! * strength,
    wetBreakingLoad: (row.wetBreakingLoad ?? row.breakingLoad!) * strength,
    from: own ? "row" : "scaled",
    stretchU: row.uncertainty.stretch ?? 0,
  };
}

/** The law of a line as many times as strong. */
export function scaledLaw(law: StretchLaw, scale: number): StretchLaw {
  if (law.kind === "rigid" || scale === 1) return law;
  if (law.kind === "linear") return { kind: "linear", stiffness: law.stiffness * scale };
  return { kind: "curve", points: law.points.map(([strain, load]) => [strain, load * scale] as const) };
}

/** The rows of a fibre and lay that state a strength, by diameter. */
export function rowsOf(
  wanted: { readonly fibre: string; readonly lay: string },
  catalogue: Catalogue,
  place: string,
): readonly RopeRow[] {
  // Asked for a size that is sure to be there, the catalogue itself says what is wrong with a fibre or a lay.
  const any = catalogue.rows.find((row) => row.kind === "rope");
  if (any === undefined) throw new InputError(place, "no rope in the catalogue", "rows of rope are expected");
  const named = nameIn(wanted, catalogue, place);
  const rows = catalogue.rows
    .filter((row): row is RopeRow => row.kind === "rope" && row.fibre === named.fibre && row.lay === named.lay)
    .filter((row) => row.breakingLoad !== undefined)
    .sort((a, b) => a.diameter - b.diameter);
  if (rows.length === 0)
    throw new InputError(place, `${wanted.fibre} ${wanted.lay}`, "a rope whose breaking load is known is expected");
  return rows;
}

/** The catalogue's own names for a fibre and a lay, by way of a row it has. */
function nameIn(
  wanted: { fibre: string; lay: string },
  catalogue: Catalogue,
  place: string,
): { fibre: string; lay: string } {
  for (const row of catalogue.rows) {
    if (row.kind !== "rope") continue;
    try {
      return findRope({ ...wanted, diameter: row.size }, catalogue, place);
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      if (error.place !== `${place}.diameter`) throw error;
    }
  }
  throw new InputError(place, `${wanted.fibre} ${wanted.lay}`, "a rope of the catalogue is expected");
}

/** `polyamide three-strand` or `nylon, braided`: fibre, then lay. */
export function readRopeName(text: string, place: string): { fibre: string; lay: string } {
  const words = text.trim().split(/[\s,]+/);
  if (words.length !== 2)
    throw new InputError(place, quoted(text), 'a fibre and a lay are expected, such as "polyamide three-strand"');
  return { fibre: words[0]!, lay: words[1]! };
}

/** A diameter as typed, m. @throws InputError when it is none */
export function readDiameter(text: string | number, place: string): number {
  const value = parseQuantity(text, "length", place);
  if (!(value > 0)) throw new InputError(place, quoted(text), "a diameter above zero is expected");
  return value;
}

function mm(metres: number): string {
  return String(Number((1000 * metres).toPrecision(3)));
}
