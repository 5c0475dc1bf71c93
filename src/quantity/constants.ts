/** Exact by definition: one degree in radians and one radian in degrees, one knot in m/s, one nautical mile in metres. */
export const DEGREE = Math.PI / 180;
/** Degrees in a radian, 180/π. */
export const DEGREES = 180 / Math.PI;
/** A sea mile in m, exact by definition. */
export const NAUTICAL_MILE = 1852;
/** A knot in m/s, exact: a sea mile an hour. */
export const KNOT = NAUTICAL_MILE / 3600;
