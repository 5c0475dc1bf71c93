/**
 * The rig of the bench is the place's rig: when it was changed in Rig since this place last looked, it is taken over, and
 * the current it lies in with it where that was changed.
 */
import { useEffect } from "react";
import type { Rig } from "../../rode/index.ts";
import { rigStore } from "../rig/store.ts";
import { takeRig } from "./store.ts";

let seen: Rig | null = null;

export function useBenchRig(): void {
  useEffect(() => {
    const look = () => {
      const { rig } = rigStore.get();
      if (seen !== null && rig !== seen) takeRig(rig, seen);
      seen = rig;
    };
    look();
    return rigStore.subscribe(look);
  }, []);
}
