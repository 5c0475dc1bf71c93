import { type ReactNode, useMemo, useState } from "react";
import { DEGREES, type Dimension, fromUnit } from "../../quantity/index.ts";
import { degreesText } from "../../words/index.ts";
import { Button } from "../controls/button.tsx";
import { formatQuantity, withMinus } from "../controls/numbers.ts";
import { FoldingPanel } from "../controls/panel.tsx";
import { useUnits } from "../state/preferences.ts";
import { useStore } from "../state/use-store.ts";
import { Ending } from "./ending.tsx";
import { Gauge } from "./gauge.tsx";
import { Held, HoldTold, useHold } from "./held.tsx";
import { note } from "./keep.ts";
import { Keys } from "./keys.tsx";
import { Large, largeText } from "./large.tsx";
import { Limit } from "./limit.tsx";
import { Drift } from "./live/drift.tsx";
import { useLive } from "./live/follow.ts";
import { liveRows, liveStore } from "./live/live-store.ts";
import { Sources, Stands } from "./live/sources.tsx";
import { withLive } from "./live/with-live.ts";
import { atTheAnchor, atTheBow, deploymentOfPull, weakestOf } from "./loads.ts";
import styles from "./place.module.css";
import { type DeckEvent, type DeckPull, loadsOf, stepOf, undoable } from "./pull.ts";
import { stepText } from "./step-text.ts";
import { WhatTheseAre } from "./what-these-are.tsx";

/** The one screen of a pull under way. */
export function UnderWay({ pull }: { readonly pull: DeckPull }) {
  const [ending, setEnding] = useState(false);
  const [atBow, setAtBow] = useState(false);
  const { system, unitOf } = useUnits();
  const at = stepOf(pull);
  // The pull's rig and water never change while it is under way, and its length by a veer only.
  // biome-ignore lint/correctness/useExhaustiveDependencies: by the pull's id
  const deployment = useMemo(() => deploymentOfPull(pull, at), [pull.ids.pull, at]);
  useLive(pull);
  const live = useStore(liveStore);
  const followed = (pull.live ?? []).length > 0;
  // Touches and readings of every instrument in one order.
  const rows = useMemo(() => liveRows(live, pull.ids.pull), [live, pull.ids.pull]);
  const all = useMemo(() => withLive(pull, rows), [pull, rows]);
  const gauge = rows.findLast(({ values }) => values.angle !== undefined)?.values.angle;
  const last = loadsOf(all).at(-1);
  const carried = useMemo(
    () => (last === undefined ? null : atTheAnchor(deployment, last.newtons, pull.loadU)),
    [deployment, last, pull.loadU],
  );
  const weakest = useMemo(
    () => (last === undefined ? null : weakestOf(deployment.rig, last.newtons)),
    [deployment, last],
  );
  const step = pull.steps[at];
  const asked = useMemo(
    () => (step === undefined || step.load === null ? null : atTheBow(deployment, step.load)),
    [deployment, step],
  );
  const hold = useHold(pull, all, rows, deployment, asked);
  const show = (value: number, dimension: Dimension) =>
    formatQuantity(value, dimension, { system, unit: unitOf("deck load", dimension), digits: 3 });
  const shown =
    last === undefined ? null : atBow || carried === null ? { value: last.newtons, u: pull.loadU } : carried.anchor;
  return (
    <>
      <Large
        where={atBow || carried === null ? "at the bow" : "at the anchor"}
        text={shown === null ? "–" : largeText(shown, system, unitOf("deck load", "force"))}
        onTouch={() => setAtBow(!atBow)}
      />
      <dl className={styles.beside}>
        <div>
          <dt>Angle at the anchor</dt>
          <dd>{carried === null ? "–" : angleText(carried.angleToBottom)}</dd>
        </div>
        {gauge !== undefined && (
          <div>
            <dt>Angle by the gauge</dt>
            <dd>{degreesText(gauge)}</dd>
          </div>
        )}
        <Held here={hold} hold={step?.hold ?? 0} />
      </dl>
      {hold !== null && <HoldTold here={hold} />}
      <Stands pull={pull} />
      <Drift rows={rows} direction={pull.direction ?? null} />
      <Limit weakest={weakest} />
      {pull.helps ? (
        <p className={styles.quiet}>
          Helping with a pull of {pull.anchor || "an anchor"}: what is read and marked here joins it.
        </p>
      ) : (
        <section className={styles.step} aria-label="Step under way">
          <p>
            <strong>
              {at + 1} of {pull.steps.length}:
            </strong>{" "}
            {stepText(step, asked, show)}
          </p>
          {at + 1 < pull.steps.length && (
            <Button look="strong" onClick={() => void note({ kind: "step", step: at + 1 })}>
              Next step
            </Button>
          )}
        </section>
      )}
      {ending ? (
        <Ending pull={{ ...pull, ...all }} onBack={() => setEnding(false)} />
      ) : (
        <>
          <div className={styles.touches}>
            <Button onClick={() => void note({ kind: "gaveWay" })}>Gave way</Button>
            <Button onClick={() => void note({ kind: "moved" })}>Moved</Button>
            <Button
              onClick={() => {
                void note({ kind: "stop" });
                setEnding(true);
              }}
            >
              Stop
            </Button>
          </div>
          {followed && <Undo pull={pull} say={(one) => saying(one, show)} />}
          <Typing folded={followed}>
            <Keys
              unit={unitOf("deck load", "force")}
              beside={followed ? null : <Undo pull={pull} say={(one) => saying(one, show)} />}
              onKeep={(value) =>
                note({ kind: "load", newtons: fromUnit(value, unitOf("deck load", "force"), "force", "load") })
              }
            />
          </Typing>
          <Sources pull={pull} />
          <Gauge bowAngle={carried?.settled.bow.angle ?? null} />
          <Button className={styles.wide} onClick={() => setEnding(true)}>
            {pull.helps ? "Stop helping" : "End the pull"}
          </Button>
          <WhatTheseAre carried={carried} />
        </>
      )}
    </>
  );
}

/** To a tenth of a degree: nobody lays a rode closer. */
function angleText({ value, u }: { readonly value: number; readonly u: number }): string {
  return withMinus(`${(value * DEGREES).toFixed(1)}° ± ${Math.max(0.1, u * DEGREES).toFixed(1)}°`);
}

/** The keys stand open until an instrument is followed. */
function Typing({ folded, children }: { readonly folded: boolean; readonly children: ReactNode }) {
  if (!folded) return children;
  return (
    <FoldingPanel name="deck keys" title="Type a load" open={false}>
      {children}
    </FoldingPanel>
  );
}

function Undo({ pull, say }: { readonly pull: DeckPull; readonly say: (one: DeckEvent) => string }) {
  const last = undoable(pull);
  return (
    <Button
      disabled={last === null}
      onClick={() => {
        if (last !== null) void note({ kind: "takenBack", of: last.n });
      }}
    >
      {last === null ? "Nothing to take back" : `Take back: ${say(last)}`}
    </Button>
  );
}

function saying(one: DeckEvent, show: (value: number, dimension: Dimension) => string): string {
  switch (one.kind) {
    case "load":
      return show(one.newtons, "force");
    case "angle":
      return `angle ${degreesText(one.angle)}`;
    case "step":
      return `step ${one.step + 1}`;
    case "gaveWay":
      return "gave way";
    case "moved":
      return "moved";
    case "stop":
      return "stop";
    case "takenBack":
      return "";
  }
}
