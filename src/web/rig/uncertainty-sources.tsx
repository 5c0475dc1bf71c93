import { useMemo, useState } from "react";
import type { Pull, Rig } from "../../rode/index.ts";
import { type Question, useNewest } from "../work/worker.ts";
import type { Budgeted, BudgetRow } from "./budget.ts";
import styles from "./uncertainty-sources.module.css";

const NAMES: Readonly<Record<Budgeted, string>> = {
  anchorAngle: "angle at the anchor",
  anchorTension: "load at the anchor",
  span: "span",
};

const MEANS: Readonly<Record<Budgeted, string>> = {
  anchorAngle: "How steeply the rode pulls at the anchor, above the level.",
  anchorTension: "What the anchor feels of the pull: the pull at the bow less what hangs of the rode, and friction.",
  span: "From the anchor to the bow, along the level.",
};

const INPUTS: Readonly<Record<keyof Rig["uncertainty"], string>> = {
  massPerLength: "mass per length",
  length: "length",
  stretch: "stretch",
  rise: "depth or rise",
  depth: "depth",
  friction: "friction",
  bottomSlope: "slope",
  waterDensity: "density of the water",
  current: "current",
};

/** Asked of the main numbers: what each is, what it is worked out from, and where its ± comes from. */
export function UncertaintySources({ rig, pull }: { readonly rig: Rig; readonly pull: Pull }) {
  const [open, setOpen] = useState(false);
  const ask = useMemo(
    () => (open ? (((work) => work.budgetOf(rig, pull)) satisfies Question<readonly BudgetRow[]>) : null),
    [open, rig, pull],
  );
  const rows = useNewest(ask).answer ?? [];
  return (
    <details className={styles.asked} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>What these are, and how sure</summary>
      {open && (
        <>
          <p>
            Worked out from the parts of the rode, the setting and the pull, at rest. ± is one standard uncertainty; the
            bars say which of what you are unsure of makes how much of it.
          </p>
          <dl className={styles.each}>
            {(Object.keys(NAMES) as Budgeted[]).map((of) => (
              <div key={of}>
                <dt>{NAMES[of]}</dt>
                <dd>
                  {MEANS[of]}
                  {rows.length === 0 ? (
                    <p className={styles.quiet}>Nothing is stated as unsure: it follows as exact.</p>
                  ) : (
                    <ul className={styles.bars}>
                      {rows.map(({ input, shares }) => (
                        <li key={input}>
                          <span>{INPUTS[input]}</span>
                          <svg viewBox="0 0 100 8" preserveAspectRatio="none" aria-hidden="true">
                            <rect className={styles.whole} width="100" height="8" />
                            <rect className={styles.share} width={100 * shares[of]} height="8" />
                          </svg>
                          <span>{Math.round(100 * shares[of])} %</span>
                        </li>
                      ))}
                    </ul>
                  )}
                </dd>
              </div>
            ))}
          </dl>
        </>
      )}
    </details>
  );
}
