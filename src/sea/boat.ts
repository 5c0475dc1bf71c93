/**
 * A boat as its file states it: SI and radians, nothing derived. Heights are above the water, lengths along the hull.
 * What the file leaves out stays out; `hull.ts` says what is assumed then.
 */

/** Flat area as the wind meets it: m², its drag coefficient, and the height of its middle, m. */
export interface WindArea {
  readonly area: number;
  readonly drag: number;
  readonly height: number;
}

/** A simple shape that the wind meets. Drag coefficients left out take the shape's usual value (`windage.ts`). */
export type WindageShape =
  | { readonly kind: "hull"; readonly freeboard: number; readonly drag?: number; readonly sideDrag?: number }
  | {
      readonly kind: "deckhouse";
      readonly length: number;
      readonly width: number;
      readonly height: number;
      /** Height of its foot; left out: it stands on the hull's freeboard. */
      readonly foot?: number;
      readonly drag?: number;
      readonly sideDrag?: number;
    }
  | {
      readonly kind: "mast";
      /** Mean thickness across, and along the boat when that differs. */
      readonly thickness: number;
      readonly chord?: number;
      readonly foot: number;
      readonly top: number;
      readonly drag?: number;
    }
  | {
      readonly kind: "rigging";
      /** Whole length of stays of this diameter. */
      readonly length: number;
      readonly diameter: number;
      readonly foot: number;
      readonly top: number;
      readonly drag?: number;
    }
  | {
      readonly kind: "part";
      /** What it is: rolled headsail, bimini, dinghy on deck. */
      readonly name: string;
      readonly front: number;
      readonly side: number;
      readonly foot: number;
      readonly top: number;
      readonly drag?: number;
      readonly sideDrag?: number;
    };

/** Shares of the head-on and of the beam-on force felt at one angle of the wind off the bow, rad. */
export interface HeadingShare {
  readonly angle: number;
  readonly along: number;
  readonly across: number;
}

/** A boat's windage: front and side areas, or the shapes they are made of. */
export type Windage = (
  | { readonly kind: "areas"; readonly front: WindArea; readonly side: WindArea }
  | { readonly kind: "shapes"; readonly shapes: readonly WindageShape[] }
) & { readonly byHeading?: readonly HeadingShare[] };

/** Where a load was read: at the anchor, at the bow, or as the horizontal force. */
export type LoadEnd = "anchor" | "bow" | "horizontal";

/** One measured point: the mean load (and the brief peaks, where noted) in a mean wind, with standard uncertainties. */
export interface MeasuredPoint {
  /** m/s at 10 m, or at `windHeight`. */
  readonly wind: number;
  readonly windHeight?: number;
  /** N */
  readonly load: number;
  readonly peak?: number;
  readonly at: LoadEnd;
  /** m/s, N, N */
  readonly uncertainty: { readonly wind?: number; readonly load?: number; readonly peak?: number };
}

/** Standard uncertainties the file may state; the rest are assumed and said so. */
export interface BoatUncertainty {
  /** Relative, of every area the wind meets. */
  readonly area?: number;
  /** Relative, of every drag coefficient in air. */
  readonly drag?: number;
  /** Relative, of the force of the current. */
  readonly current?: number;
  /** Of the exponent of load over wind when it is not fitted. */
  readonly exponent?: number;
  /** N */
  readonly engineThrust?: number;
}

/** A boat that swings from side to side: largest angle off the wind, rad, and the time of a whole swing, s. */
export interface Veering {
  readonly amplitude: number;
  readonly period: number;
}

/** A boat as wind, current and sea meet her. */
export interface Boat {
  readonly name: string;
  /** Over all, m. */
  readonly length: number;
  readonly waterline?: number;
  readonly beam: number;
  /** To the lowest point of the keel, m. */
  readonly draught: number;
  /** Of the hull without its keel, m. */
  readonly bodyDraught?: number;
  /** kg */
  readonly displacement: number;
  readonly bowRollerHeight: number;
  readonly windage?: Windage;
  /** Full thrust at rest, N. */
  readonly engineThrust?: number;
  readonly veering?: Veering;
  readonly measured: readonly MeasuredPoint[];
  readonly uncertainty: BoatUncertainty;
}
