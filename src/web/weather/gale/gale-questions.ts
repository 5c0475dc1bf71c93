/** What a ride of the place asks: its rode, or one set beside it, in the same gusts and waves. */
import { gustSpectrum, type RideQuestion, withCurrent } from "../../../motion/index.ts";
import { InputError } from "../../../quantity/index.ts";
import type { Rig } from "../../../rode/index.ts";
import { jonswap, USUAL_AIR } from "../../../sea/index.ts";
import { withSnubber } from "../../../sizing/index.ts";
import { namesOf, rigOf } from "../gear/gear.ts";
import { rigged } from "../gear/gear-work.ts";
import { depthOf, seaTrouble } from "../loads.ts";
import type { WeatherState } from "../state.ts";

type Asked = Pick<WeatherState, "rig" | "boat" | "around" | "gear" | "snubber">;

/** Null where the rode hangs in air or the boat's windage is not stated. */
export function galeQuestion(state: Asked, rig: Rig, wind: number, minutes: number): RideQuestion | null {
  const { boat, around } = state;
  if (rig.setting.medium !== "water" || boat.windage === undefined) return null;
  const sea = around.waves > 0 && seaTrouble(around, depthOf({ rig, boat })) === null;
  return {
    rig: around.current > 0 ? withCurrent(rig, around.current) : rig,
    boat,
    air: USUAL_AIR,
    wind: [{ time: 0, speed: wind, toward: 0 }],
    gusts: gustSpectrum(around.gust, wind),
    sea: sea ? jonswap(around.waves, around.wavePeriod) : null,
    duration: 60 * minutes,
    seed: 1,
  };
}

/** Names of the rodes that can be set beside the bench's own: those of the table of gear, but for itself. */
export function besides({ gear, rig }: Asked): readonly { readonly index: number; readonly name: string }[] {
  const names = namesOf(gear.candidates, rig);
  return gear.candidates.flatMap((one, index) =>
    one.rig === null && one.snubber === null ? [] : [{ index, name: names[index]! }],
  );
}

/** The rode of one of them as it lies now, with its snubber; null where that cannot be rigged. */
export function rigBeside(state: Asked, index: number): Rig | null {
  const one = state.gear.candidates[index];
  if (one === undefined) return null;
  const name = namesOf(state.gear.candidates, state.rig)[index]!;
  const rig = { ...rigOf(one, state.rig), name };
  if (one.snubber === null) return rig;
  const own = one.snubber === "chosen" ? { ...state.snubber, within: false } : one.snubber;
  try {
    const snubbed = withSnubber(rig, rigged(own));
    return "kind" in snubbed ? null : { ...snubbed.rig, name };
  } catch (error) {
    if (error instanceof InputError) return null;
    throw error;
  }
}
