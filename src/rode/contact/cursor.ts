/**
 * A place on a rode and the state there, for marches that meet more than one touchdown: floats, floating line, points in
 * the surface, current. x, z in m from the anchor; H, V the tension's parts with which the upper side pulls, N.
 */
export interface Cursor {
  /** Part of the rode, and the unstretched distance into it, m. */
  part: number;
  offset: number;
  x: number;
  z: number;
  H: number;
  V: number;
  /** Above the water surface. Kept apart from z: a cursor in the surface has left it upward or downward. */
  inAir: boolean;
}

export function copy(from: Cursor): Cursor {
  return { ...from };
}
