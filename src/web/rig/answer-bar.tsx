import type { Certainty, NoEquilibrium } from "../../rode/index.ts";
import { noEquilibriumWords } from "../../words/index.ts";
import { formatQuantity } from "../controls/numbers.ts";
import stuck from "../controls/stuck-bar.module.css";
import { useUnits } from "../state/preferences.ts";
import styles from "./answer-bar.module.css";
import { Overloaded } from "./overloaded.tsx";
import type { Drawn } from "./scene.ts";

/** The answer of the moment, in view wherever one is in the place: angle, loads, and what stands against them. */
export function AnswerBar({
  drawn,
  none,
  sure,
}: {
  readonly drawn: Drawn | null;
  readonly none: NoEquilibrium | null;
  readonly sure: Certainty | null;
}) {
  const { system, unitOf } = useUnits();
  if (none !== null) {
    const { why, nearest } = noEquilibriumWords(none, system);
    return (
      <section className={`${stuck.bar} ${styles.bar}`} aria-label="The answer">
        <p className={styles.none}>
          <strong>No equilibrium:</strong> {why}; {nearest}.
        </p>
      </section>
    );
  }
  if (drawn === null) return null;
  const { anchor, bow } = drawn.settled;
  const text = (value: number, dimension: "angle" | "force", u: number | undefined) =>
    formatQuantity(value, dimension, {
      system,
      unit: unitOf(dimension === "angle" ? "angle" : "load", dimension),
      ...(u !== undefined && u > 0 ? { u } : { digits: 3 }),
    });
  return (
    <section className={`${stuck.bar} ${styles.bar}`} aria-label="The answer">
      <p className={`${stuck.numbers} ${styles.answer}`}>
        <strong>{text(anchor.angle, "angle", sure?.anchorAngle)}</strong> <span>angle at the anchor</span>{" "}
        <span>{text(anchor.tension, "force", sure?.anchorTension)} at the anchor</span>{" "}
        <span>{text(bow.tension, "force", sure?.bowTension)} at the bow</span>
      </p>
      <Overloaded drawn={drawn} />
    </section>
  );
}
