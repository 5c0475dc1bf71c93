import { useCallback } from "react";
import type { Series } from "../../series/index.ts";
import { degreesText, nextReasonLine } from "../../words/index.ts";
import { FaultNote } from "../controls/fault-note.tsx";
import { significant } from "../controls/numbers.ts";
import { useNewest } from "../work/worker.ts";
import styles from "./place.module.css";
import type { SeriesPower } from "./series-work.ts";

const percent = (share: number) => `${Math.round(100 * share)} %`;

/** How many pulls would tell what is asked, simulated; and what the next pull would bring. */
export function PowerPanel({ series, text }: { readonly series: Series; readonly text: string }) {
  const asked = useNewest<SeriesPower>(useCallback((work) => work.seriesPower(text), [text]));
  const { answer } = asked;
  if (asked.fault !== null) return <FaultNote of={asked} what="how many pulls would tell" />;
  if (answer === null) return <p>Simulating…</p>;
  const { power, next } = answer;
  if (power.kind === "massUnknown")
    return <p>Not known: no anchor has a mass and none was pulled, so nobody knows about which load they give way.</p>;
  return (
    <>
      <p>
        {power.enough === null
          ? `Not even ${power.rows.at(-1)!.repeats} of each anchor at each angle would tell it in four series of five.`
          : `${power.enough} of each anchor at each angle would tell it in four series of five.`}{" "}
        {power.from === "prior" ? "From the priors alone." : "From the priors and the pulls so far."} Asked:{" "}
        {series.question === "letsGo"
          ? `a fall of ${percent(series.tell)} a degree`
          : `a ratio of ${significant(series.tell, 3)}`}
        , with 95 % chance.
      </p>
      <table className={styles.table}>
        <thead>
          <tr>
            {["each", "pulls", "tell it", "95 % limits", "end while it holds", "hours"].map((head) => (
              <th key={head} scope="col">
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {power.rows.map((row) => (
            <tr key={row.repeats}>
              <th scope="row">{row.repeats}</th>
              <td>{row.pulls}</td>
              <td>{percent(row.share)}</td>
              <td>
                {percent(row.low)} to {percent(row.high)}
              </td>
              <td>{percent(row.ended)}</td>
              <td>{significant(row.hours, 2)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {next.length > 0 && (
        <>
          <h3>What the next pull would bring, the best first</h3>
          <ol className={styles.next}>
            {next.slice(0, 6).map(({ anchor, angle, gain, reason }) => (
              <li key={`${anchor} ${angle}`}>
                <strong>
                  {anchor} at {degreesText(angle)}
                </strong>
                : the ± of the question shrinks by {significant(100 * gain, 2)} %; {nextReasonLine(reason)}
              </li>
            ))}
          </ol>
        </>
      )}
    </>
  );
}
