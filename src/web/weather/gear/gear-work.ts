/** In the worker: candidates side by side under one load, and what each gives at others. */

import { catalogue } from "../../../gear/index.ts";
import { InputError } from "../../../quantity/index.ts";
import type { Rig } from "../../../rode/index.ts";
import type { Measured } from "../../../sea/index.ts";
import {
  type ChoiceCell,
  type Criterion,
  choose,
  type LoadEnd,
  type NotWeighedCause,
  type PlanLimits,
  ropeOf,
  type Snubber,
  type Surge,
} from "../../../sizing/index.ts";
import type { Refused } from "../snubber/snubber-work.ts";
import type { GearLimits, OwnSnubber } from "./gear.ts";

export interface GearQuestion {
  readonly candidates: readonly {
    readonly name: string;
    readonly rig: Rig;
    readonly price: number | null;
    readonly snubber: OwnSnubber | null;
  }[];
  readonly at: LoadEnd;
  readonly mean: Measured;
  readonly peak: Measured | null;
  readonly surge: Surge | null;
  readonly limits: GearLimits;
  /** N at the same end, for the table over winds. */
  readonly loads: readonly number[];
}

/** What the table shows of one candidate. */
export interface GearRow {
  readonly name: string;
  /** Why it cannot be weighed, else null. */
  readonly why: NotWeighedCause | null;
  readonly notBeaten: boolean;
  readonly passed: readonly (keyof PlanLimits)[];
  readonly weight: number;
  readonly volume: Measured;
  readonly price: number | null;
  readonly peak: Measured | null;
  readonly anchorAngle: Measured | null;
  readonly grounded: number | null;
  readonly workingLoad: number | null;
  readonly breakingLoad: number | null;
  readonly strength: number | null;
  readonly ropeShare: number | null;
  /** From the mean to the peak: m and J; null where they are one. */
  readonly movement: number | null;
  readonly energy: number | null;
  /** m/N at the mean. */
  readonly weightGive: number | null;
  readonly wholeGive: number | null;
  /** At each of the loads asked for. */
  readonly cells: readonly (ChoiceCell | null)[];
}

export interface GearAnswer {
  readonly kind: "gear";
  readonly rows: readonly GearRow[];
  readonly criteria: readonly Criterion[];
}

export function gearSideBySide(question: GearQuestion): GearAnswer | Refused {
  const { at, mean, peak, surge, limits, loads } = question;
  try {
    const candidates = question.candidates.map(({ name, rig, price, snubber }) => ({
      name,
      rig,
      ends: snubber?.ends ?? ("spliced" as const),
      ...(price === null ? {} : { price }),
      ...(snubber === null ? {} : { snubber: rigged(snubber) }),
    }));
    const choice = choose({
      name: "side by side",
      load: { kind: "stated", at, mean, ...(peak === null ? {} : { peak }) },
      ...(surge === null ? {} : { surge }),
      limits,
      winds: [],
      loads,
      candidates,
    });
    return {
      kind: "gear",
      criteria: choice.criteria,
      rows: choice.candidates.map((one, i): GearRow => {
        const shared = {
          name: one.name,
          notBeaten: choice.notBeaten.includes(i),
          weight: one.stowed.weight,
          volume: one.stowed.volume,
          price: candidates[i]!.price ?? null,
          cells: choice.table.map(({ cells }) => cells[i] ?? null),
        };
        if (one.kind === "notWeighed") return { ...unknown, ...shared, why: one.why };
        return {
          ...shared,
          why: null,
          passed: one.passed,
          peak: { value: one.peak.bow.tension, u: one.u?.peak ?? Number.NaN },
          anchorAngle: { value: one.peak.anchor.angleToBottom, u: one.u?.anchorAngle ?? Number.NaN },
          grounded: one.mean.grounded,
          workingLoad: one.workingLoad,
          breakingLoad: one.breakingLoad,
          strength: one.inUse?.share ?? null,
          ropeShare: one.ropeShare,
          movement: one.give?.movement ?? null,
          energy: one.give?.work ?? null,
          weightGive: one.perLoad?.weight ?? null,
          wholeGive: one.perLoad?.whole ?? null,
        };
      }),
    };
  } catch (error) {
    if (error instanceof InputError) return { kind: "refused", line: error.message };
    throw error;
  }
}

const unknown = {
  passed: [],
  peak: null,
  anchorAngle: null,
  grounded: null,
  workingLoad: null,
  breakingLoad: null,
  strength: null,
  ropeShare: null,
  movement: null,
  energy: null,
  weightGive: null,
  wholeGive: null,
} as const;

/** A snubber as it was put in, as sizing takes it. @throws InputError for a rope no catalogue has */
export function rigged({ fibre, lay, diameter, length, slack, bridle, within }: OwnSnubber): Snubber {
  return {
    rope: ropeOf({ fibre, lay, diameter }, catalogue, "rope"),
    length,
    ...(slack > 0 ? { slack } : {}),
    ...(bridle === null ? {} : { bridle }),
    hooked: within ? "within" : "veered",
  };
}
