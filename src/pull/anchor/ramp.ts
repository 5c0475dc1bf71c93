/** A movement of the anchor, at one speed from one moment to another, in steps of the grid. */
export interface Ramp {
  readonly from: number;
  readonly to: number;
}

/** A part of a track in which the boat pulls one way: the grid's steps [from, to). */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}
