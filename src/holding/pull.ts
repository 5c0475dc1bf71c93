/**
 * What one pull tells: the load at the anchor was at least this, and at most that. Loads are newtons at the anchor,
 * along the rode; angles radians above the horizontal; masses kilograms.
 */

/** What the anchor did, as far as it is known. */
export type Hold =
  /** It gave way at this load. */
  | { readonly kind: "gaveWay"; readonly newtons: number }
  /** It held this, and nothing is known beyond (right-censored). */
  | { readonly kind: "heldTo"; readonly newtons: number }
  /** It never held: it had given way by this load (left-censored). */
  | { readonly kind: "neverHeld"; readonly newtons: number }
  /** It held the one and had given way by the other (interval-censored). */
  | { readonly kind: "between"; readonly heldTo: number; readonly gaveWayBy: number };

/** One pull of one anchor; what is not known is left out. */
export interface Pull {
  readonly anchor: string;
  readonly hold: Hold;
  /** Mass of the anchor, kg. */
  readonly mass?: number;
  /** Area of its flukes, m². */
  readonly flukeArea?: number;
  /** Angle of the rode at the anchor, above the horizontal, rad. */
  readonly anchorAngle?: number;
  /** The same at the load it held, where it gave way by another. */
  readonly angleHeld?: number;
  /** By how much the angle grows with each unit of ln load, rad; left out: the angle is not of the load's making. */
  readonly angleRise?: number;
  /** Standard uncertainty of the load, as a share of it. */
  readonly loadError?: number;
  readonly seabed?: string;
  readonly site?: string;
  readonly day?: string;
  /** How it ended: drag, roll-out, break-out, never set …, as the tester wrote it. */
  readonly ending?: string;
  readonly tester?: string;
  /** When a load counted as held: kept so long, s, the anchor moving by less, m. */
  readonly holdRule?: { readonly heldFor: number; readonly heldWithin: number };
}

/** Bounds of the load at which it gave way: both equal when exact; 0 below and infinity above where nothing is known. */
export function boundsOf(hold: Hold): { readonly low: number; readonly high: number } {
  switch (hold.kind) {
    case "gaveWay":
      return { low: hold.newtons, high: hold.newtons };
    case "heldTo":
      return { low: hold.newtons, high: Number.POSITIVE_INFINITY };
    case "neverHeld":
      return { low: 0, high: hold.newtons };
    case "between":
      return { low: hold.heldTo, high: hold.gaveWayBy };
  }
}

/** An uncertainty beyond the load itself says no more than this: its logarithm is then open either way. */
const WIDEST = 1;

/** Standard uncertainty of a load, N, as the share of it a pull has. @param u of the load it gave way by, or else held */
export function loadError(u: number, hold: Hold): number {
  return Math.min(WIDEST, u / (hold.kind === "between" ? hold.gaveWayBy : hold.newtons));
}

/** Whether the angles are those the loads themselves made. */
export function anglesFollowLoads(pulls: readonly Pull[]): boolean {
  return pulls.some(({ angleRise }) => angleRise !== undefined && angleRise !== 0);
}

/** How many pulls of each kind. */
export interface Tally {
  readonly pulls: number;
  readonly gaveWay: number;
  readonly heldOn: number;
  readonly between: number;
  readonly neverHeld: number;
}

/** Counts pulls by how they ended. */
export function tally(holds: readonly Hold[]): Tally {
  const count = (kind: Hold["kind"]): number => holds.reduce((n, hold) => n + (hold.kind === kind ? 1 : 0), 0);
  return {
    pulls: holds.length,
    gaveWay: count("gaveWay"),
    heldOn: count("heldTo"),
    between: count("between"),
    neverHeld: count("neverHeld"),
  };
}
