/** Nine lines: neighbours differ in colour and in stroke, and none has both of another. */

const STROKES = ["solid", "dashed", "dotted"] as const;
const ROLES = ["computed", "other", "measured"] as const;

/** The k-th line of a figure, from 0. */
export const lineOf = (k: number) => ({ role: ROLES[k % 3]!, stroke: STROKES[(k + Math.floor(k / 3)) % 3]! });
