import type { Figure, Source } from "./figure.ts";
import type { LineLoop } from "./loop.ts";
import type { StretchLaw } from "./stretch.ts";

/** What a row states figures of. */
export type Property =
  | "massPerLength"
  | "mass"
  | "density"
  | "workingLoad"
  | "breakingLoad"
  | "wetStrength"
  | "stretch";

interface AnyRow {
  /** For people: "chain 10 mm grade 30". */
  readonly name: string;
  /** The size as the trade writes it: "3/8 in", "10 mm". */
  readonly size: string;
  /** The same, m. */
  readonly nominal: number;
  /** kg/m³ */
  readonly density: number;
  /** Working load limit, N. */
  readonly workingLoad?: number;
  /** Minimum breaking load, new and dry, N. */
  readonly breakingLoad?: number;
  /** Every figure known, the one used first. The figure of `stretch` is the strain at a tenth of the breaking load, or EA in N where the law is linear. */
  readonly figures: Readonly<Partial<Record<Property, readonly Figure[]>>>;
  /** Relative standard uncertainty of each figure used. */
  readonly uncertainty: Readonly<Partial<Record<Property, number>>>;
  /** "built in", or the file the row was read from. */
  readonly origin: string;
  readonly note?: string;
}

interface AnyLineRow extends AnyRow {
  /** Diameter of the bar, rope or wire, m. */
  readonly diameter: number;
  /** kg per metre of unloaded length. */
  readonly massPerLength: number;
  readonly stretch: StretchLaw;
}

/** Chain of one grade, size and standard. */
export interface ChainRow extends AnyLineRow {
  readonly kind: "chain";
  /** Breaking stress over both legs of a link, tens of N/mm²: "30", "43". */
  readonly grade: string;
  /** The standard its links are made to, where more than one size of link goes by one designation. */
  readonly standard?: string;
  /** Inside length and inside width of a link, m. */
  readonly link: { readonly pitch: number; readonly insideWidth: number };
}

/** Rope of one fibre, lay and diameter. */
export interface RopeRow extends AnyLineRow {
  readonly kind: "rope";
  readonly fibre: string;
  readonly lay: string;
  /** Minimum breaking load when wet, N; absent where the fibre loses nothing. */
  readonly wetBreakingLoad?: number;
  /** What its stretch loses over a cycle; absent where nothing is stated. */
  readonly loop?: LineLoop;
}

/** Wire of one material, construction and diameter. */
export interface WireRow extends AnyLineRow {
  readonly kind: "wire";
  /** "stainless" or "galvanised". */
  readonly material: string;
  /** Strands by wires: "1x19", "7x19". */
  readonly construction: string;
}

/** A shackle, swivel or other joint of one size. */
export interface PointRow extends AnyRow {
  readonly kind: "point";
  /** "bow shackle", "swivel". */
  readonly what: string;
  /** kg */
  readonly mass: number;
}

/** Gear with a length: chain, rope or wire. */
export type LineRow = ChainRow | RopeRow | WireRow;
/** Any row of the catalogue, told apart by its kind. */
export type Row = LineRow | PointRow;

/** A stretch curve by share of the breaking load, shared by rows of one fibre and lay. */
export interface Curve {
  /** From (0, 0) on, both rising: strain against share of the minimum breaking load (new and dry). */
  readonly points: readonly (readonly [strain: number, share: number])[];
  /** Every strain known at one share, the curve's own first: how far the curve can be trusted. */
  readonly figures: readonly Figure[];
}

/** Rows of gear with the sources their figures name. */
export interface Catalogue {
  readonly sources: Readonly<Record<string, Source>>;
  readonly curves: Readonly<Record<string, Curve>>;
  readonly rows: readonly Row[];
}

/** Rows of one key are the same article: a later one replaces an earlier one. */
export function keyOf(row: Row): string {
  const size = Math.round(row.nominal * 1e6);
  switch (row.kind) {
    case "chain":
      return `chain ${row.grade} ${size} ${row.standard ?? ""}`;
    case "rope":
      return `rope ${row.fibre} ${row.lay} ${size}`;
    case "wire":
      return `wire ${row.material} ${row.construction} ${size}`;
    case "point":
      return `point ${row.what} ${size}`;
  }
}
