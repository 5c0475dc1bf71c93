/** What the place Rig is in: a rig, the load of the moment, the other medium laid over it. */
import type { Part, Pull, Rig, Setting } from "../../rode/index.ts";
import { riseOf } from "../../rode/index.ts";
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

const quietBay: Setting = {
  medium: "water",
  depth: 7,
  rollerHeight: 1.2,
  waterDensity: 1025,
  bottomSlope: 0,
  bottomFriction: 0.6,
  current: 0,
};

/** What the bench opens with when nothing is kept: nothing but chain, so that a depth, a length and a pull make it one's own. */
export const usualState: RigState = {
  rig: {
    name: "My rig",
    setting: quietBay,
    rode: [part("chain 10 mm grade 30 ISO 4565", 30)],
    uncertainty: { massPerLength: 0.03, rise: 0.2 },
  },
  load: { at: "bow", newtons: 2200 },
  over: null,
};

/** Chain, then rope, in a quiet bay: what is shown of more than one part. */
export const chainAndRope: Rig = {
  name: "Chain and rope",
  setting: quietBay,
  rode: [
    part("bow shackle 10 mm", 0),
    part("chain 10 mm grade 30 ISO 4565", 25),
    part("polyamide three-strand 16 mm", 15),
  ],
  uncertainty: { massPerLength: 0.03, rise: 0.2 },
};

/** What is shown to whoever asks for an example; its name says that it is one. */
export const exampleState: RigState = {
  rig: { ...chainAndRope, name: "Example" },
  load: { at: "bow", newtons: 2200 },
  over: null,
};

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
