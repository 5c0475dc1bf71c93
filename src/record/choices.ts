/** What a record's field may be one of: plain data, which a form has as well as the schema made from it. */

/** Anchors by generic shape, in the words of the trade. */
export const anchorShapes = [
  "fixed plough",
  "hinged plough",
  "claw",
  "pivoting fluke",
  "scoop",
  "scoop with roll bar",
  "stocked",
  "grapnel",
  "mushroom",
  "screw",
  "deadweight",
  "other",
] as const;
/** Generic shape of an anchor. */
export type AnchorShape = (typeof anchorShapes)[number];

/** What ended a pull. */
export const endings = ["engine limit", "drag", "roll-out", "break-out", "stopped by tester", "gear"] as const;
/** What ended a pull. */
export type Ending = (typeof endings)[number];

/** Which way a boat pulls: her bow toward the anchor, or away from it. */
export const pullWays = ["astern", "ahead"] as const;

/** The end of the rode at which a pull's load was read. */
export const loadEnds = ["anchor", "bow"] as const;
