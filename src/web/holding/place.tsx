import { useEffect, useMemo } from "react";
import { FaultNote } from "../controls/fault-note.tsx";
import { useSize } from "../controls/use-size.ts";
import { bookCopy, look } from "../days/book-copy.ts";
import { DemoNote } from "../days/books/demo-note.tsx";
import { useAddress } from "../state/address.ts";
import { useUnits } from "../state/preferences.ts";
import { useUndoable } from "../state/undoable.ts";
import { useStore } from "../state/use-store.ts";
import { type Question, useNewest } from "../work/worker.ts";
import { holdingCodec } from "./address.ts";
import { besideStore, withBeside } from "./beside.ts";
import { chosenPulls } from "./book-pulls.ts";
import { Choose } from "./choose.tsx";
import { Concluded } from "./concluded.tsx";
import { FiguresPanel } from "./figures-panel.tsx";
import { readKept } from "./kept.ts";
import { Kept } from "./kept-panel.tsx";
import { leftOutByHand } from "./left-out.ts";
import styles from "./place.module.css";
import { PullList } from "./pull-list.tsx";
import { holdingStore } from "./state.ts";
import { useBookPulls } from "./use-book-pulls.ts";
import type { Figures } from "./work.ts";

/** Which anchor holds more, from the pulls of the book. */
export function Place() {
  useAddress(holdingStore, holdingCodec);
  useUndoable(holdingStore);
  useEffect(() => {
    void look();
    void readKept();
  }, []);
  const copy = useStore(bookCopy);
  const state = useStore(holdingStore);
  const { system } = useUnits();
  const [ref, { width }] = useSize<HTMLDivElement>();
  const drawnAt = Math.round(width / 20) * 20;

  const { note } = copy.records;
  const pulls = useBookPulls();
  const beside = useStore(besideStore);
  const book = useMemo(() => (pulls.answer === null ? null : withBeside(pulls.answer, beside)), [pulls.answer, beside]);
  const byHand = useMemo(() => leftOutByHand(note), [note]);
  const chosen = useMemo(
    () => (book === null ? [] : chosenPulls(book, state, new Set(byHand.map((one) => one.pull)))),
    [book, state, byHand],
  );
  const those = useMemo(() => (book === null ? [] : chosen.map((i) => book.pulls[i]!)), [book, chosen]);
  const askFigures = useMemo(
    () =>
      those.length === 0 || drawnAt === 0
        ? null
        : (((work) => work.holdingFigures(those, system, drawnAt)) satisfies Question<Figures>),
    [those, system, drawnAt],
  );
  const figures = useNewest(askFigures);

  return (
    <div className={styles.place} ref={ref}>
      <h1>Holding</h1>
      <DemoNote />
      <FaultNote of={pulls} what="the pulls" />
      {book === null ? (
        <p className={styles.quiet}>
          {copy.state === "none" ? "This device has not seen the book yet." : "Reading the pulls…"}
        </p>
      ) : (
        <>
          <Concluded book={book} chosen={chosen} those={those} />
          <Choose book={book} chosen={chosen.length} />
          <FaultNote of={figures} what="the figures" />
          <FiguresPanel figures={figures.answer} />
          <PullList book={book} chosen={chosen} byHand={byHand} />
          <Kept book={book} />
        </>
      )}
      <p className={styles.quiet}>
        Estimates, never a promise that anything holds. Loaded gear hurts people: keep below the working load limits,
        and put makers' limits, local rules and licensed practice first.
      </p>
    </div>
  );
}
