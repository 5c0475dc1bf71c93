import type { FittedValue } from "../../pull/index.ts";
import { Asked, type AskedNumber, AskedNumbers } from "../controls/asked.tsx";
import type { Share } from "../controls/shares.ts";
import type { JudgedRun } from "./judge-run.ts";

/** Asked of the values fitted to a run. */
export function WhatTheseAre({ judged }: { readonly judged: JudgedRun }) {
  return (
    <Asked>
      <Told judged={judged} />
    </Asked>
  );
}

function Told({ judged }: { readonly judged: JudgedRun }) {
  const { fitted, beforehand, liftoff, scatter } = judged.reduced;
  const unknown = (key: keyof typeof fitted, name: string, means: string): AskedNumber[] => {
    const value = fitted[key];
    return value === null ? [] : [{ name, means, shares: knownBy(value, beforehand[key], scatter) }];
  };
  return (
    <AskedNumbers
      intro="Moved together until theory comes as near to all readings as they are sharp. ± is one standard uncertainty: it holds what you stated of cell, gauge and tape, and what was stated beforehand. A part of the rig that states no ± stays as given and is in no ± here. The bars say of what each value is known."
      numbers={[
        ...unknown("massPerLength", "mass per length", "Of the longest line of the rode, as the readings have it."),
        ...unknown("rise", "rise", "Height of the bow's end above the anchor's, as the readings have it."),
        ...unknown(
          "gaugeZero",
          "gauge zero",
          "What the angle gauge shows at the level: taken off each of its readings.",
        ),
        ...unknown("rigGive", "give of the rig", "How far what holds the rode moves of itself, for each unit of load."),
        ...(liftoff === null
          ? []
          : [
              {
                name: "comes level at",
                means: "The load at which the rode's lower end is about to lift, by theory with the values above.",
                sure: "No ± is worked out for it.",
              },
            ]),
      ]}
    />
  );
}

/**
 * What a value is known by: information goes with one over the square of a ±, and what was stated beforehand is part of it.
 * @param widened factor the fit widened every ± by
 */
function knownBy({ u }: FittedValue, before: FittedValue | null, widened: number): Share[] {
  if (!(u > 0)) return [];
  const stated = before === null || !(before.u > 0) ? 0 : Math.min(1, (u / widened / before.u) ** 2);
  return [
    { name: "readings", share: 1 - stated },
    { name: "stated beforehand", share: stated },
  ];
}
