import { Panel } from "../controls/panel.tsx";
import { DrawnFigure } from "../figure/drawn-figure.tsx";
import { asSentence } from "./as-sentence.ts";
import styles from "./place.module.css";
import type { Figures } from "./work.ts";

/** Every pull, and the curves they make. */
export function FiguresPanel({ figures }: { readonly figures: Figures | null }) {
  if (figures === null) return null;
  return (
    <>
      <Panel title="Every pull">
        <DrawnFigure
          kind="pulls"
          ofBook
          figure={figures.pulls}
          titleUnseen
          caption={
            <p className={styles.quiet}>
              Filled diamond: gave way there. Arrow on: held that and was let go. Bar: gave way somewhere along it.
              Arrow back: never held.
            </p>
          }
        />
      </Panel>
      {figures.curves !== null && (
        <Panel title="By themselves">
          <DrawnFigure kind="held" ofBook figure={figures.curves} />
          <p className={styles.quiet}>
            {figures.logRank === null
              ? "Kaplan–Meier, or Turnbull where loads lie between two."
              : `Kaplan–Meier, or Turnbull where loads lie between two. That all anchors are alike: p ${figures.logRank.p < 0.001 ? "below 0.001" : figures.logRank.p.toPrecision(2)} (log-rank).`}
          </p>
          <p className={styles.quiet}>
            {figures.anchors
              .map(
                ({ anchor, pulls, gaveWay, heldOn, between, neverHeld }) =>
                  `${anchor}: ${pulls} pulls, ${gaveWay} gave way, ${heldOn} held on, ${between} between, ${neverHeld} never held`,
              )
              .join("; ")}
            .
          </p>
        </Panel>
      )}
      {figures.sentences.length > 0 && (
        <Panel title="To keep in mind">
          <ul className={styles.sentences}>
            {figures.sentences.slice(0, 12).map((sentence) => (
              <li key={sentence}>{asSentence(sentence)}</li>
            ))}
          </ul>
        </Panel>
      )}
    </>
  );
}
