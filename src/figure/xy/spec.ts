/** What a figure of y over x is made of. Values come in the unit the axis names; the caller has converted them. */

export interface AxisSpec {
  /** "load at the anchor" */
  readonly label: string;
  /** "kN"; "" for a bare number */
  readonly unit: string;
  /** Ends; without, those of the data, rounded. */
  readonly from?: number;
  readonly to?: number;
  /** Values the axis has to reach, besides the data. */
  readonly reach?: readonly number[];
  /** About how many marks. */
  readonly marks?: number;
}

/** Measured and computed have an accent each; another computed thing has its own; faint things stand behind. */
export type Role = "measured" | "computed" | "other" | "faint";

/**
 * The code of marks, the same wherever the bench draws: `diamond`, a reading; `triangle`, an event noted by its load
 * alone; both filled, or hollow where the reading is not believed. `ring`: a point that was computed, and `square` one of
 * another computed thing beside it; both hollow.
 */
export type PointShape = "diamond" | "triangle" | "ring" | "square";

/** A point of a plot, with its ± where it has one. */
export interface PlotPoint {
  readonly x: number;
  readonly y: number;
  /** Half-lengths of error bars. */
  readonly uX?: number;
  readonly uY?: number;
  /** Without: a diamond where the layer was measured, else a ring. */
  readonly shape?: PointShape;
  /** A reading that is not believed. */
  readonly doubted?: boolean;
  /** Said of this one when it is pointed at. */
  readonly note?: string;
  /** Written beside it. */
  readonly label?: string;
}

/** A layer of a plot: points, a line, a band, bars. */
export type Layer =
  | {
      readonly kind: "band";
      readonly x: ArrayLike<number>;
      readonly low: ArrayLike<number>;
      readonly high: ArrayLike<number>;
      readonly role: Role;
      readonly label?: string;
    }
  | {
      readonly kind: "line";
      readonly x: ArrayLike<number>;
      readonly y: ArrayLike<number>;
      readonly role: Role;
      readonly stroke?: "solid" | "dashed" | "dotted";
      readonly label?: string;
    }
  | {
      readonly kind: "points";
      readonly points: readonly PlotPoint[];
      readonly role: Role;
      /** Written once, beside one of them. */
      readonly label?: string;
      /** Draws a stem from each to this y. */
      readonly stemFrom?: number;
    }
  /** A straight line across the plot at one value. */
  | {
      readonly kind: "rule";
      readonly axis: "x" | "y";
      readonly at: number;
      readonly role: Role;
      readonly label?: string;
    }
  /** A closed area, such as what is feasible. */
  | {
      readonly kind: "region";
      readonly x: ArrayLike<number>;
      readonly y: ArrayLike<number>;
      readonly role: Role;
      readonly label?: string;
    };

/** A plot of y over x: axes and layers. */
export interface XySpec {
  readonly title: string;
  readonly description: string;
  readonly x: AxisSpec;
  readonly y: AxisSpec;
  /** Drawn in order, the first at the back. */
  readonly layers: readonly Layer[];
  /** px at print size; 680 by 300 without. */
  readonly width?: number;
  readonly height?: number;
  /** A figure to stand on its own: brings its colours and its paper. */
  readonly alone?: boolean;
}
