import { useMemo } from "react";
import { type Pull, type Rig, rigInputs } from "../../rode/index.ts";
import { Asked, AskedNumbers } from "../controls/asked.tsx";
import { type Question, useNewest } from "../work/worker.ts";
import type { Budgeted, BudgetRow } from "./budget.ts";
import { INPUT_NAMES } from "./input-names.ts";

const NUMBERS: readonly { readonly of: Budgeted; readonly name: string; readonly means: string }[] = [
  {
    of: "anchorAngle",
    name: "angle at the anchor",
    means: "How steeply the rode pulls at the anchor, above the level.",
  },
  {
    of: "anchorTension",
    name: "load at the anchor",
    means: "What the anchor feels of the pull: the pull at the bow less what hangs of the rode, and friction.",
  },
  { of: "span", name: "span", means: "From the anchor to the bow, along the level." },
];

/** Asked of the main numbers: what each is, what it is worked out from, and where its ± comes from. */
export function WhatTheseAre({ rig, pull }: { readonly rig: Rig; readonly pull: Pull }) {
  return (
    <Asked>
      <Told rig={rig} pull={pull} />
    </Asked>
  );
}

function Told({ rig, pull }: { readonly rig: Rig; readonly pull: Pull }) {
  const rows =
    useNewest(useMemo(() => ((work) => work.budgetOf(rig, pull)) satisfies Question<readonly BudgetRow[]>, [rig, pull]))
      .answer ?? [];
  return (
    <AskedNumbers
      intro="Worked out from the parts of the rode, the setting and the pull, at rest. ± is one standard uncertainty; the bars say which of what you are unsure of makes how much of it."
      numbers={NUMBERS.map(({ of, name, means }) => ({
        name,
        means,
        sure: rigInputs(rig).length === 0 ? "Nothing is stated as unsure: it follows as exact." : undefined,
        shares: rows.map(({ input, shares }) => ({ name: INPUT_NAMES[input], share: shares[of] })),
      }))}
    />
  );
}
