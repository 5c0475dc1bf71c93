/** The rig on the bench: what the place Rig shows and other places may use. */
import type { Part, Pull, Rig, Setting } from "../../rode/index.ts";
import { riseOf } from "../../rode/index.ts";
import { createStore } from "../state/store.ts";
import { partRows } from "./part-rows.gen.ts";

export type End = "bow" | "anchor" | "horizontal";

export interface RigState {
  readonly rig: Rig;
  /** The load of the moment, and the end at which it is stated. */
  readonly load: { readonly at: End; readonly newtons: number };
  /** The same rode in the other medium laid over it: the height of its upper end, m; null: none. */
  readonly over: number | null;
}

/** A row of the catalogue as a part of so many metres; undefined where it has none of that name. A point has no length. */
export function partNamed(name: string, length: number): Part | undefined {
  const part = partRows.find((one) => one.name === name);
  return part?.kind === "line" ? { ...part, length } : part;
}

const part = (name: string, length: number): Part => partNamed(name, length)!;

/** What the bench opens with when nothing is kept: chain, then rope, in a quiet bay. */
export const usualState: RigState = {
  rig: {
    name: "Chain and rope",
    setting: {
      medium: "water",
      depth: 7,
      rollerHeight: 1.2,
      waterDensity: 1025,
      bottomSlope: 0,
      bottomFriction: 0.6,
      current: 0,
    },
    rode: [
      part("bow shackle 10 mm", 0),
      part("chain 10 mm grade 30 ISO 4565", 25),
      part("polyamide three-strand 16 mm", 15),
    ],
    uncertainty: { massPerLength: 0.03, rise: 0.2 },
  },
  load: { at: "bow", newtons: 2200 },
  over: null,
};

export const rigStore = createStore<RigState>(usualState);

export const pullOf = ({ load }: RigState): Pull => ({ at: load.at, newtons: load.newtons });

/** The setting that lays the same rode in the other medium, its upper end at the same or another height. */
export function otherMedium(setting: Setting, rise = riseOf(setting)): Setting {
  const { bottomSlope, bottomFriction } = setting;
  if (setting.medium === "water") return { medium: "air", rise, bottomSlope, bottomFriction };
  const rollerHeight = Math.min(1.2, rise / 4);
  return {
    medium: "water",
    depth: rise - rollerHeight,
    rollerHeight,
    waterDensity: 1025,
    bottomSlope,
    bottomFriction,
    current: 0,
  };
}
