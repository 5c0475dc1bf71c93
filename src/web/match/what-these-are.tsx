import { useMemo } from "react";
import { rigInputs, type SettledUncertainty } from "../../rode/index.ts";
import { Asked, AskedNumbers } from "../controls/asked.tsx";
import { type Share, sharesOf } from "../controls/shares.ts";
import type { BudgetRow } from "../rig/budget.ts";
import { INPUT_NAMES } from "../rig/input-names.ts";
import { type Question, useNewest } from "../work/worker.ts";
import { LETTER, type MatchState, type Side } from "./state.ts";

const SIDES: readonly Side[] = ["one", "other"];

interface Of {
  readonly state: MatchState;
  readonly u: Readonly<Record<Side, SettledUncertainty | null>>;
}

/** Asked of the difference and of the numbers of A and B. */
export function WhatTheseAre(of: Of) {
  return (
    <Asked>
      <Told {...of} />
    </Asked>
  );
}

function Told({ state, u }: Of) {
  const rows = { one: useRows(state, "one"), other: useRows(state, "other") };
  const ofSide = sharesOf(SIDES.map((side) => ({ name: side, u: u[side]?.firstOrder?.angleToBottom ?? 0 })));
  const shares = ofSide.flatMap(({ share }, i): Share[] =>
    rows[SIDES[i]!].map(({ input, shares }) => ({
      name: `${LETTER[SIDES[i]!]}: ${INPUT_NAMES[input]}`,
      share: share * shares.angleToBottom,
    })),
  );
  return (
    <AskedNumbers
      intro="Both rodes are worked out at rest, under the same load at the bow. ± is one standard uncertainty."
      numbers={[
        {
          name: "between the two",
          means: "How much steeper one rode pulls at its anchor than the other, above the bottom.",
          sure: SIDES.every((side) => rigInputs(state[side]).length === 0)
            ? "Neither rig states what is unsure of it: the difference follows as exact."
            : "± joins those of A and B as independent. Where both share a doubt, the same chain say, it is wider than it need be. The bars say what makes how much of it.",
          shares,
        },
        {
          name: "angle to the bottom at the anchor",
          means: "How steeply the rode pulls at its anchor, above the bottom. None while it lies on the bottom there.",
        },
        {
          name: "load at the anchor",
          means: "What the anchor feels of the load at the bow: less what hangs of the rode, and friction.",
        },
      ]}
    />
  );
}

function useRows(state: MatchState, side: Side): readonly BudgetRow[] {
  const rig = state[side];
  const { load } = state;
  const ask = useMemo(
    () => ((work) => work.budgetOf(rig, { at: "bow", newtons: load })) satisfies Question<readonly BudgetRow[]>,
    [rig, load],
  );
  return useNewest(ask).answer ?? [];
}
