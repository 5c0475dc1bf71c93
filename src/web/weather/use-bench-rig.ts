/** The rig of the bench is the place's rig: when it was changed in Rig since this place last looked, it is taken over. */
import { useEffect } from "react";
import type { Rig } from "../../rode/index.ts";
import { rigDesk } from "../rig/desk.ts";
import { weatherDesk } from "./desk.ts";

let seen: Rig = rigDesk.get().rig;

export function useBenchRig(): void {
  useEffect(() => {
    const look = () => {
      const { rig } = rigDesk.get();
      if (rig === seen) return;
      seen = rig;
      if (weatherDesk.get().rig !== rig)
        weatherDesk.set((before) => ({ ...before, rig }), { label: `rig ${rig.name}` });
    };
    look();
    return rigDesk.subscribe(look);
  }, []);
}
