import { useEffect, useState } from "react";
import { codeTyped } from "../../series/index.ts";
import { codeTroubleLine, degreesText } from "../../words/index.ts";
import { Button } from "../controls/button.tsx";
import type { CodeFound } from "../series/series-work.ts";
import { seriesStore } from "../series/store.ts";
import { askWorker } from "../work/worker.ts";
import styles from "./place.module.css";
import { setupPlanned } from "./planned-setup.ts";
import type { Setup } from "./setup-state.ts";

/**
 * The pull that a code on the sheet stands for, in the series this device keeps: a touch lays it out. Why a code stands for
 * none is told, and where it can be one other code, a touch takes that.
 */
export function Planned({
  code,
  onTake,
  onCode,
}: {
  readonly code: string;
  readonly onTake: (setup: Setup) => void;
  readonly onCode: (code: string) => void;
}) {
  const [found, setFound] = useState<CodeFound | "noSeries" | null>(null);
  useEffect(() => {
    setFound(null);
    // What is not yet five signs is still being typed.
    if (codeTyped(code).length < 5) return;
    let asked = true;
    const tell = (answer: CodeFound | "noSeries") => {
      if (asked) setFound(answer);
    };
    askWorker((work): Promise<CodeFound> => work.codeFound(seriesStore.get().text, code))
      .then(tell)
      .catch(() => tell("noSeries"));
    return () => {
      asked = false;
    };
  }, [code]);
  if (found === null) return null;
  if (found === "noSeries")
    return (
      <p className={styles.quiet} role="status">
        The series this device keeps cannot be read: see Series.
      </p>
    );
  if (found.kind !== "pull") {
    const meant = found.kind === "noSign" ? found.meant : null;
    return (
      <div className={styles.lastLine}>
        <p role="status">
          {codeTyped(code)} is no code of the series this device keeps: {codeTroubleLine(found)}.
        </p>
        {meant !== null && <Button onClick={() => onCode(meant)}>Take {meant}</Button>}
      </div>
    );
  }
  const setup = setupPlanned(found.pull, found.series);
  return (
    <div className={styles.lastLine}>
      <p role="status">
        {found.pull.code}: {found.pull.anchor} at {degreesText(found.pull.angle)}
        {setup === null ? ", which cannot be had" : ""}
      </p>
      {setup !== null && <Button onClick={() => onTake(setup)}>Lay out as planned</Button>}
    </div>
  );
}
