import { useState } from "react";
import { type FittedValue, fittedRig } from "../../pull/index.ts";
import type { Dimension } from "../../quantity/index.ts";
import { judgementWords } from "../../words/index.ts";
import { Button } from "../controls/button.tsx";
import { formatQuantity } from "../controls/numbers.ts";
import { Panel } from "../controls/panel.tsx";
import { PlaceLink } from "../controls/place-link.tsx";
import { Reading } from "../controls/reading.tsx";
import { Ways } from "../controls/ways.tsx";
import { DrawnFigure } from "../figure/drawn-figure.tsx";
import { rigCodec } from "../rig/address.ts";
import { rigStore } from "../rig/store.ts";
import { stringifySearch } from "../state/address.ts";
import { useUnits } from "../state/preferences.ts";
import type { JudgedRun, Outcome } from "./judge-run.ts";
import styles from "./place.module.css";
import { WhatTheseAre } from "./what-these-are.tsx";

/** What theory makes of the readings: the unknowns, the figures, the verdicts; or why it has nothing to say. */
export function Answers({ outcome, refusal }: { readonly outcome: Outcome | null; readonly refusal: string | null }) {
  if (outcome === null) {
    return (
      <Panel title="Against theory">
        <ol className={styles.steps}>
          <li>Take the rig that was pulled from Rig, with what is not sure of it.</li>
          <li>Say at which ends the load cell and the gauge sat, and how sharp they are.</li>
          <li>Enter each load with its angle, or paste a table; the movement on release as well, where it was read.</li>
        </ol>
        <p className={styles.quiet}>
          From the first whole row, theory stands beside it here: residuals, what the rig's own give and the gauge's
          zero seem to be, and what to doubt.
        </p>
      </Panel>
    );
  }
  if (outcome.kind === "refused") {
    return (
      <Panel title="Against theory">
        <p className={styles.refused} role="alert">
          {refusal}
        </p>
      </Panel>
    );
  }
  return (
    <>
      <Fitted judged={outcome} />
      <Figures judged={outcome} />
      <Verdicts judged={outcome} />
    </>
  );
}

function Fitted({ judged }: { readonly judged: JudgedRun }) {
  const { system, unitOf } = useUnits();
  const { fitted, beforehand, liftoff } = judged.reduced;
  const stated = (before: FittedValue | null, name: string, dimension: Dimension) =>
    before === null
      ? undefined
      : `stated ${formatQuantity(before.value, dimension, { system, unit: unitOf(name, dimension), u: before.u })}`;
  const unknown = (key: "massPerLength" | "rise" | "gaugeZero", name: string, dimension: Dimension) => {
    const value = fitted[key];
    return (
      value !== null && (
        <Reading
          name={name}
          dimension={dimension}
          value={value.value}
          u={value.u}
          note={stated(beforehand[key], name, dimension)}
        />
      )
    );
  };
  return (
    <Panel title="Fitted, with what was stated beforehand">
      <dl className={styles.fitted}>
        {unknown("massPerLength", "mass per length", "massPerLength")}
        {unknown("rise", "rise", "length")}
        {unknown("gaugeZero", "gauge zero", "angle")}
        {fitted.rigGive !== null && <Give value={fitted.rigGive.value} u={fitted.rigGive.u} />}
        {liftoff !== null && <Reading name="comes level at" dimension="force" value={liftoff} />}
      </dl>
      <WhatTheseAre judged={judged} />
      {judged.reduced.outcome.kind === "converged" && (
        <Ways label="On with the fitted rig">
          <PlaceLink
            to="/rig"
            search={stringifySearch(rigCodec.write({ ...rigStore.get(), rig: fittedRig(judged.reduced) }))}
          >
            The rig as fitted, in Rig
          </PlaceLink>
        </Ways>
      )}
    </Panel>
  );
}

/** The rig's own give for a load that people have in mind: a kilonewton, or a hundred pounds. */
function Give({ value, u }: { readonly value: number; readonly u: number }) {
  const { system } = useUnits();
  const per = system === "us" ? 100 * 4.4482216152605 : 1000;
  return (
    <Reading
      name={`give of the rig per ${system === "us" ? "100 lbf" : "kN"}`}
      field="rig give"
      dimension="length"
      value={value * per}
      u={u * per}
    />
  );
}

function Figures({ judged: { angle, movement } }: { readonly judged: JudgedRun }) {
  return (
    <>
      {angle !== null && (
        <div className={styles.figure}>
          <DrawnFigure kind="angle" figure={angle} />
        </div>
      )}
      {movement !== null && (
        <div className={styles.figure}>
          <DrawnFigure kind="movement" figure={movement} />
        </div>
      )}
    </>
  );
}

function Verdicts({ judged }: { readonly judged: JudgedRun }) {
  const { system, unitOf } = useUnits();
  const [all, setAll] = useState(false);
  const shown = all ? judged.judgements : judged.judgements.slice(0, 8);
  return (
    <Panel title="In words">
      <ul className={styles.verdicts}>
        {shown.map((verdict) => (
          <li key={judgementWords(verdict)} data-about={verdict.about}>
            {verdict.load !== null && verdict.about !== "simplification" && (
              <strong>
                {formatQuantity(verdict.load, "force", { system, unit: unitOf("readings load", "force"), digits: 3 })}:{" "}
              </strong>
            )}
            {judgementWords(verdict)}
          </li>
        ))}
      </ul>
      {judged.judgements.length > 8 && (
        <Button onClick={() => setAll(!all)}>{all ? "Fewer" : `All ${judged.judgements.length}`}</Button>
      )}
    </Panel>
  );
}
