/**
 * What lies around boat and rode is said once. The current around the boat bends the rode too, and the rode's upper end is
 * the boat's roller: a rig in this place keeps its depth, ground and water, and takes these two from where they are said.
 */
import type { Rig } from "../../rode/index.ts";
import type { Boat } from "../../sea/index.ts";
import type { Around } from "./state.ts";

/** Slower than this, m/s, is still water. */
const STILL = 1e-6;

/** The current's part from anchor to boat, m/s: she lies behind her anchor, so a current from ahead runs toward her. */
function currentTowardBoat({ current, currentAngle }: Around): number {
  const toward = current * Math.cos(currentAngle);
  return Math.abs(toward) < STILL ? 0 : toward;
}

/** A rig as it lies under this boat in these surroundings; the same object where nothing differs. */
export function rigInScene(rig: Rig, boat: Boat, around: Around): Rig {
  const { setting } = rig;
  if (setting.medium !== "water") return rig;
  const current = currentTowardBoat(around);
  const rollerHeight = boat.bowRollerHeight;
  const { current: _, ...others } = rig.uncertainty;
  const u = current === 0 ? 0 : around.currentU * Math.abs(Math.cos(around.currentAngle));
  if (setting.current === current && setting.rollerHeight === rollerHeight && (rig.uncertainty.current ?? 0) === u)
    return rig;
  const uncertainty = u > 0 ? { ...others, current: u } : others;
  return { ...rig, setting: { ...setting, current, rollerHeight }, uncertainty };
}

/** The surroundings with the current that a rig states: it is one water. Air states none. */
export function withCurrentOf(around: Around, { setting, uncertainty }: Rig): Around {
  if (setting.medium !== "water") return around;
  if (currentTowardBoat(around) === setting.current) return around;
  return {
    ...around,
    current: Math.abs(setting.current),
    currentAngle: setting.current < 0 ? Math.PI : 0,
    currentU: uncertainty.current ?? 0,
  };
}
