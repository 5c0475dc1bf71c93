import { PRIOR_FIELDS, PRIOR_RANGE, USUAL_PRIORS } from "../../holding/index.ts";
import { sayPriors } from "../../words/index.ts";
import { Button } from "../controls/button.tsx";
import { withMinus } from "../controls/numbers.ts";
import { QuantityField } from "../controls/quantity-field.tsx";
import { useStore } from "../state/use-store.ts";
import { asSentence } from "./as-sentence.ts";
import styles from "./place.module.css";
import { holdingStore } from "./state.ts";

/** How each prior is asked for: deviations of logarithms as factors, changes a degree in per cent. */
const ASKED: Readonly<Record<string, { readonly label: string; readonly as: "factor" | "percent" | "number" }>> = {
  timesWeight: { label: "Holding, times an anchor's weight", as: "number" },
  m: { label: "That within a factor of", as: "factor" },
  anchors: { label: "Anchors apart by a factor of", as: "factor" },
  seabed: { label: "Seabeds apart by a factor of", as: "factor" },
  sites: { label: "Sites apart by a factor of", as: "factor" },
  days: { label: "Days apart by a factor of", as: "factor" },
  testers: { label: "Testers apart by a factor of", as: "factor" },
  scatter: { label: "Pulls of one anchor apart by a factor of", as: "factor" },
  angleMean: { label: "Change of holding a degree", as: "percent" },
  angle: { label: "That give or take", as: "percent" },
  massMean: { label: "Power of mass that holding grows with", as: "number" },
  mass: { label: "That power give or take", as: "number" },
};

/** What is believed before any pull, in plain words, and changed there. */
export function PriorsForm() {
  const { priors } = useStore(holdingStore);
  const isUsual = PRIOR_FIELDS.every(({ of }) => of(priors) === of(USUAL_PRIORS));
  return (
    <details>
      <summary>What is believed before any pull{isUsual ? "" : " (changed)"}</summary>
      <p className={styles.quiet}>
        {withMinus(asSentence(sayPriors(priors, { testers: true })))} An answer is shown with all of these half and
        twice as wide, too.
      </p>
      <div className={styles.fields}>
        {PRIOR_FIELDS.map(({ name, of, put, isMiddle }) => {
          const { label, as } = ASKED[name]!;
          const { least, most } = PRIOR_RANGE;
          const isFactor = as === "factor";
          return (
            <QuantityField
              key={name}
              field={`holding-prior-${name}`}
              label={label}
              dimension="ratio"
              {...(as === "percent" ? { usualUnit: "%" } : { plain: true })}
              value={isFactor ? Math.exp(of(priors)) : of(priors)}
              range={{
                least: isFactor ? Math.exp(least) : isMiddle ? -most : least,
                most: isFactor ? MOST_FACTOR : most,
                expected: isFactor
                  ? `a factor above 1, at most ${MOST_FACTOR}, is expected`
                  : `a number from ${isMiddle ? -most : least} to ${most} is expected`,
              }}
              onChange={(value) =>
                holdingStore.set(
                  (before) => ({ ...before, priors: put(before.priors, isFactor ? Math.log(value) : value) }),
                  { label: `what is believed: ${label.toLowerCase()}` },
                )
              }
            />
          );
        })}
      </div>
      <div className={styles.buttons}>
        <Button
          disabled={isUsual}
          onClick={() =>
            holdingStore.set((before) => ({ ...before, priors: USUAL_PRIORS }), { label: "usual beliefs" })
          }
        >
          The usual ones again
        </Button>
      </div>
    </details>
  );
}

const MOST_FACTOR = 1000;
