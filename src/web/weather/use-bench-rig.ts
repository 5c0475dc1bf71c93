/**
 * The rig of the bench is the place's rig: when it was changed in Rig since this place last looked, it is taken over, and
 * the current it lies in with it where that was changed.
 */
import { useEffect } from "react";
import type { Rig } from "../../rode/index.ts";
import { rigStore } from "../rig/state.ts";
import { withCurrentOf } from "./scene.ts";
import { weatherStore } from "./state.ts";

let seen: Rig = rigStore.get().rig;

const currentIn = ({ setting }: Rig): number => (setting.medium === "water" ? setting.current : 0);

export function useBenchRig(): void {
  useEffect(() => {
    const look = () => {
      const { rig } = rigStore.get();
      if (rig === seen) return;
      const streamed = currentIn(rig) !== currentIn(seen);
      seen = rig;
      if (weatherStore.get().rig !== rig)
        weatherStore.set(
          (before) => ({ ...before, rig, around: streamed ? withCurrentOf(before.around, rig) : before.around }),
          { label: `rig ${rig.name}` },
        );
    };
    look();
    return rigStore.subscribe(look);
  }, []);
}
