import { useCallback, useEffect, useMemo } from "react";
import type { Series } from "../../series/index.ts";
import { countText, degreesText, nextReasonLine } from "../../words/index.ts";
import { Button } from "../controls/button.tsx";
import { byDecimal } from "../controls/by-decimal.tsx";
import { FaultNote } from "../controls/fault-note.tsx";
import { significant } from "../controls/numbers.ts";
import { bookCopy, look } from "../days/book-copy.ts";
import { DrawsUnderWay } from "../holding/draws-under-way.tsx";
import { leftOutByHand } from "../holding/left-out.ts";
import { useBookPulls } from "../holding/use-book-pulls.ts";
import { useStore } from "../state/use-store.ts";
import { useNewest } from "../work/worker.ts";
import styles from "./place.module.css";
import { posterior } from "./posterior.ts";
import type { SeriesPower } from "./series-work.ts";

/** Kept on one line. */
const percent = (share: number) => `${Math.round(100 * share)}\u00a0%`;

/** How many pulls would tell what is asked, simulated; and what the next pull would bring. */
export function PowerPanel({ series, text }: { readonly series: Series; readonly text: string }) {
  const asked = useNewest<SeriesPower>(useCallback((work) => work.seriesPower(text), [text]));
  if (asked.fault !== null) return <FaultNote of={asked} what="how many pulls would tell" />;
  if (asked.answer === null) return <p>Simulating…</p>;
  return (
    <>
      <Told series={series} told={asked.answer} />
      <FromBook series={series} text={text} />
    </>
  );
}

const fromWords = {
  prior: "From the priors alone.",
  pulls: "From the priors and the pulls so far.",
  posterior: "From draws of the model on the pulls so far.",
} as const;

function Told({ series, told: { power, next } }: { readonly series: Series; readonly told: SeriesPower }) {
  if (power.kind === "massUnknown")
    return <p>Not known: no anchor has a mass and none was pulled, so nobody knows about which load they give way.</p>;
  const { rows } = power;
  const each = byDecimal(rows.map(({ repeats }) => String(repeats)));
  const pulls = byDecimal(rows.map((row) => String(row.pulls)));
  const share = byDecimal(rows.map((row) => percent(row.share)));
  const lows = byDecimal(rows.map(({ low }) => percent(low)));
  const highs = byDecimal(rows.map(({ high }) => percent(high)));
  const ended = byDecimal(rows.map((row) => percent(row.ended)));
  const hours = byDecimal(rows.map((row) => significant(row.hours, 2)));
  return (
    <>
      <p>
        {power.enough === null
          ? `Not even ${power.rows.at(-1)!.repeats} of each anchor at each angle would tell it in four series of five.`
          : `${power.enough} of each anchor at each angle would tell it in four series of five.`}{" "}
        {fromWords[power.from]} Asked:{" "}
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
          {rows.map((row) => (
            <tr key={row.repeats}>
              <th scope="row">{each(String(row.repeats))}</th>
              <td>{pulls(String(row.pulls))}</td>
              <td>{share(percent(row.share))}</td>
              <td>
                {lows(percent(row.low))} to {highs(percent(row.high))}
              </td>
              <td>{ended(percent(row.ended))}</td>
              <td>{hours(significant(row.hours, 2))}</td>
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

/** The same from draws of the model on the book's pulls of these anchors, once it is asked for. */
function FromBook({ series, text }: { readonly series: Series; readonly text: string }) {
  useEffect(() => void look().catch(() => undefined), []);
  const { answer: book } = useBookPulls();
  const { note } = useStore(bookCopy).records;
  const now = useStore(posterior.store);
  const held = useMemo(() => {
    const putAside = new Set(leftOutByHand(note).map(({ pull }) => pull));
    const names = new Set(series.anchors.map(({ name }) => name));
    return (book?.pulls ?? []).filter(({ anchor }, i) => names.has(anchor) && !putAside.has(book!.ids[i]!));
  }, [book, note, series]);
  const of = useMemo(() => JSON.stringify([text, held]), [text, held]);
  const answer = now.kind === "answered" && now.of === of ? now.answer : null;
  useEffect(() => posterior.stop, []);
  if (book === null) return null;
  if (held.length === 0)
    return <p>The book holds no pull of these anchors yet: once it does, they can tell more than the priors.</p>;
  return (
    <>
      {answer?.kind === "drawn" && (
        <>
          <h3>By the pulls of the book</h3>
          <Told series={series} told={answer} />
        </>
      )}
      {answer?.kind === "unsound" && (
        <p role="status">The draws are not sound: more pulls are wanted, or the answer from the priors above.</p>
      )}
      {now.kind === "failed" && <p role="alert">{now.line}</p>}
      <div className={styles.buttons}>
        {now.kind === "working" ? (
          <DrawsUnderWay share={now.share} onStop={posterior.stop} />
        ) : (
          <Button
            onClick={() => void posterior.start((work, oneChain) => work.seriesPosterior(text, held, oneChain), of)}
          >
            {answer === null ? "Work it out" : "Work it out again"} from the book's{" "}
            {countText(held.length, "pull", "pulls")}
          </Button>
        )}
      </div>
    </>
  );
}
