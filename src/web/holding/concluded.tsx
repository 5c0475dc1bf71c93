import { useMemo, useState } from "react";
import type { Pull, WindAsked } from "../../holding/index.ts";
import { KNOT } from "../../quantity/index.ts";
import { Button } from "../controls/button.tsx";
import { Panel } from "../controls/panel.tsx";
import { rigStore } from "../rig/store.ts";
import { useUnits } from "../state/preferences.ts";
import { useStore } from "../state/use-store.ts";
import { weatherStore } from "../weather/store.ts";
import { Answer } from "./answer.tsx";
import { asSentence } from "./as-sentence.ts";
import { BESIDE, type BookPulls } from "./book-pulls.ts";
import { DrawsUnderWay } from "./draws-under-way.tsx";
import { keep } from "./kept.ts";
import styles from "./place.module.css";
import { sampling } from "./sampling.ts";
import { holdingStore } from "./state.ts";
import { WhatTheseAre } from "./what-these-are.tsx";

/** What may be concluded: one sentence on top, how it is reached, and the numbers. */
export function Concluded({
  book,
  chosen,
  those,
}: {
  readonly book: BookPulls;
  readonly chosen: readonly number[];
  readonly those: readonly Pull[];
}) {
  const state = useStore(holdingStore);
  const now = useStore(sampling.store);
  const [notKept, setNotKept] = useState<string | null>(null);
  const { system } = useUnits();
  const of = useMemo(
    () =>
      JSON.stringify([
        state.chance,
        state.angle,
        state.mass,
        state.load,
        state.priors,
        state.seed,
        chosen.map((i) => book.ids[i] + book.versions[i]!),
      ]),
    [state, chosen, book],
  );
  const answer = now.kind === "answered" && now.of === of ? now.answer : null;
  const top =
    those.length === 0
      ? "No pull is looked at: choose some below."
      : asSentence(
          answer?.sentences[0] ??
            "nothing is concluded yet: the pulls below speak for themselves, and draws tell what may be said beyond",
        );

  const work = async (): Promise<void> => {
    const asked = {
      pulls: those,
      names: chosen.map((i) => pullName(book, i)),
      chance: state.chance,
      angle: state.angle,
      mass: state.mass,
      load: state.load,
      priors: state.priors,
      seed: state.seed,
      units: system,
      wind: windOfBench(),
    };
    const pulls = chosen.map((i) => [book.ids[i]!, book.versions[i]!] as const);
    const answered = await sampling.start((work, oneChain) => work.holdingInquiry(asked, oneChain), of);
    // The book keeps answers about its own pulls.
    const ownAlone = chosen.every((i) => book.series[i] !== BESIDE);
    if (answered !== null && ownAlone) setNotKept(await keep(state, pulls, answered, new Date().toISOString()));
  };

  return (
    <Panel title="What may be concluded">
      <p className={styles.said} aria-live="polite">
        {top}
      </p>
      <div className={styles.buttons}>
        {now.kind === "working" ? (
          <DrawsUnderWay share={now.share} onStop={sampling.stop} />
        ) : (
          <Button look="strong" disabled={those.length < 2} onClick={() => void work()}>
            {answer === null ? "Work out what the pulls allow" : "Work it out again"}
          </Button>
        )}
      </div>
      {notKept !== null && (
        <p className={styles.wrong} role="alert">
          Not kept in the book: {notKept}
        </p>
      )}
      {now.kind === "failed" && (
        <p className={styles.wrong} role="alert">
          {now.line}
        </p>
      )}
      {now.kind === "answered" && now.of !== of && (
        <p className={styles.quiet}>The pulls or the question have changed since the last answer: work it out again.</p>
      )}
      {answer !== null && <Answer answer={answer} />}
      <WhatTheseAre chance={state.chance} />
    </Panel>
  );
}

/** How a pull is called: its anchor and day. */
export function pullName(book: BookPulls, i: number): string {
  const { anchor, day } = book.pulls[i]!;
  return day === undefined ? `a pull of ${anchor}` : `a pull of ${anchor} on ${day}`;
}

/** Step of the winds a chance is asked in. */
const WIND_STEP = 2.5 * KNOT;

/** The boat of Weather on the rode of Rig, in winds up to where Weather's axis ends. */
function windOfBench(): WindAsked {
  const { boat, most } = weatherStore.get();
  const count = Math.max(2, Math.min(40, Math.floor(most / WIND_STEP + 1e-9) - 1));
  return {
    boat,
    rig: rigStore.get().rig,
    winds: Array.from({ length: count }, (_, k) => (k + 2) * WIND_STEP),
  };
}
