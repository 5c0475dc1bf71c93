export { type AnchorMovement, type AnchorPath, anchorPath } from "./anchor-path.ts";
export { type ClockOffset, clockOffset } from "./clock-offset.ts";
export type { Direction } from "./direction.ts";
export { TIGHT } from "./fix-grid.ts";
export type { Moved } from "./moved-in.ts";
