/** What `publish figure` can draw, by the names it is asked with; every frame of the bench tells which of them it shows. */
export const FIGURE_KINDS = [
  "rode",
  "together",
  "ladder",
  "map",
  "angle",
  "movement",
  "trace",
  "way",
  "weather",
  "ride",
  "shares",
  "moment",
  "give",
  "snubbers",
  "bridle",
  "water",
  "sites",
  "one-pull",
  "pulls",
  "held",
  "holding",
  "chance",
] as const;

/** A kind of figure. */
export type FigureKindName = (typeof FIGURE_KINDS)[number];
