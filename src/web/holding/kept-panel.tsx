import { useState } from "react";
import { Button } from "../controls/button.tsx";
import { Panel } from "../controls/panel.tsx";
import { useStore } from "../state/use-store.ts";
import { Answer } from "./answer.tsx";
import type { BookPulls } from "./book-pulls.ts";
import { changedSince, forget, keptConclusions } from "./kept.ts";
import styles from "./place.module.css";

/** Conclusions kept in the book; an old one says whether its pulls have changed since. */
export function Kept({ book }: { readonly book: BookPulls }) {
  const kept = useStore(keptConclusions);
  const [open, setOpen] = useState<string | null>(null);
  const [wrong, setWrong] = useState<string | null>(null);
  if (kept.length === 0) return null;
  return (
    <Panel title="Kept in the book">
      {wrong !== null && (
        <p className={styles.wrong} role="alert">
          {wrong}
        </p>
      )}
      <ul className={styles.pulls}>
        {kept.map((one) => {
          const changed = changedSince(one, book);
          return (
            <li key={one.id}>
              <span>
                {one.at.slice(0, 16).replace("T", " ")}, {one.pulls.length} pulls, seed {one.seed}, program{" "}
                {one.program}: {one.answer.sentences[0] ?? "nothing was concluded"}
                {changed === 0 ? ". Its pulls are as they were." : `. ${changed} of its pulls have changed since.`}
              </span>
              <Button
                aria-expanded={open === one.id}
                aria-label={`${open === one.id ? "Close" : "Open"} the conclusion of ${one.at.slice(0, 16).replace("T", " ")}`}
                onClick={() => setOpen(open === one.id ? null : one.id)}
              >
                {open === one.id ? "Close" : "Open"}
              </Button>
              <Button
                aria-label={`Put aside the conclusion of ${one.at.slice(0, 16).replace("T", " ")}`}
                onClick={() => void forget(one).then(setWrong)}
              >
                Put aside
              </Button>
              {open === one.id && (
                <div className={styles.opened}>
                  <Answer answer={one.answer} of={`, ${one.at}`} />
                </div>
              )}
            </li>
          );
        })}
      </ul>
    </Panel>
  );
}
