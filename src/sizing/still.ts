import type { Rig } from "../rode/index.ts";

/** No current runs: settling is then a matter of microseconds, and exact to rounding. */
export function isStill(rig: Rig): boolean {
  return rig.setting.medium === "air" || rig.setting.current === 0;
}
