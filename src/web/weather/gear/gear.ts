/** Rodes to be set side by side: the one of the bench, the same with the snubber chosen above, and whatever is put beside them. */
import type { Rig, Setting } from "../../../rode/index.ts";
import type { PlanLimits } from "../../../sizing/index.ts";
import { partNamed } from "../../rig/state.ts";
import type { SnubberAsked } from "../snubber/asked.ts";

/** A snubber that belongs to a candidate, whatever is chosen on the map. */
export interface OwnSnubber extends Omit<SnubberAsked, "limits"> {
  readonly within: boolean;
}

export interface GearCandidate {
  /** Empty: named for its rig. */
  readonly name: string;
  /** Null: the rig of the bench, as it is at any time. */
  readonly rig: Rig | null;
  /** It lies in a setting of its own, not in that of the bench's rig. */
  readonly ownSetting: boolean;
  readonly price: number | null;
  readonly snubber: "chosen" | OwnSnubber | null;
}

/** The limits of a plan that the place looks at. */
export type GearLimits = Pick<PlanLimits, "workingLoad" | "strength" | "ropeShare" | "anchorAngle" | "peak" | "weight">;

export interface GearAsked {
  readonly candidates: readonly GearCandidate[];
  readonly limits: GearLimits;
}

export const MOST_CANDIDATES = 12;

/** What stands for the setting of a rode that lies where the bench's rig lies. */
export const ANYWHERE: Setting = { medium: "air", rise: 1, bottomSlope: 0, bottomFriction: 0 };

const plain = { ownSetting: false, price: null, snubber: null } as const;

/** A rode all of one chain of the catalogue. */
export function allChain(row: string, length: number): GearCandidate {
  return {
    ...plain,
    name: "",
    rig: {
      name: row,
      setting: ANYWHERE,
      rode: [partNamed(row, length)!],
      uncertainty: {},
    },
  };
}

/** Three chains of one strength, each the lightest of its grade, beside the rode of the bench. */
export const usualGear: GearAsked = {
  candidates: [
    { ...plain, name: "", rig: null },
    { ...plain, name: "", rig: null, snubber: "chosen" },
    allChain("chain 3/8 in grade 30", 40),
    allChain("chain 5/16 in grade 43", 40),
    allChain("chain 1/4 in grade 70", 40),
  ],
  limits: { workingLoad: 1 },
};

/** The rig of a candidate as it lies now: in the setting of the bench's rig unless it has its own. */
export function rigOf({ rig, ownSetting }: GearCandidate, bench: Rig): Rig {
  if (rig === null) return bench;
  return ownSetting ? rig : { ...rig, setting: bench.setting, uncertainty: bench.uncertainty };
}

/** Names as they are shown, each its own. */
export function namesOf(candidates: readonly GearCandidate[], bench: Rig): readonly string[] {
  const seen = new Map<string, number>();
  return candidates.map((one) => {
    const own = one.name !== "" ? one.name : `${(one.rig ?? bench).name}${one.snubber === null ? "" : ", snubbed"}`;
    const times = (seen.get(own) ?? 0) + 1;
    seen.set(own, times);
    return times === 1 ? own : `${own} (${times})`;
  });
}
