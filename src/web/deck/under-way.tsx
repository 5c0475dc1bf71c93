import { useEffect, useMemo, useState } from "react";
import { DEGREES, type Dimension, fromUnit, type UnitSystem } from "../../quantity/index.ts";
import { degreesText, durationText } from "../../words/index.ts";
import { Button } from "../controls/button.tsx";
import { formatQuantity, significant, withMinus } from "../controls/numbers.ts";
import { useUnits } from "../state/preferences.ts";
import { Ending } from "./ending.tsx";
import { Gauge } from "./gauge.tsx";
import { note } from "./keep.ts";
import { Keys } from "./keys.tsx";
import { Limit } from "./limit.tsx";
import { atTheAnchor, atTheBow, deploymentOfPull, weakestOf } from "./loads.ts";
import styles from "./place.module.css";
import { type DeckEvent, type DeckPull, heldSince, loadsOf, stepOf, undoable } from "./pull.ts";

/** The one screen of a pull under way. */
export function UnderWay({ pull }: { readonly pull: DeckPull }) {
  const [ending, setEnding] = useState(false);
  const [atBow, setAtBow] = useState(false);
  const { system, unitOf } = useUnits();
  // The pull's rig and water never change while it is under way.
  // biome-ignore lint/correctness/useExhaustiveDependencies: by the pull's id
  const deployment = useMemo(() => deploymentOfPull(pull), [pull.ids.pull]);
  const last = loadsOf(pull).at(-1);
  const carried = useMemo(
    () => (last === undefined ? null : atTheAnchor(deployment, last.newtons, pull.loadU)),
    [deployment, last, pull.loadU],
  );
  const weakest = useMemo(
    () => (last === undefined ? null : weakestOf(deployment.rig, last.newtons)),
    [deployment, last],
  );
  const at = stepOf(pull);
  const step = pull.steps[at];
  const asked = useMemo(
    () => (step === undefined || step.load === null ? null : atTheBow(deployment, step.load)),
    [deployment, step],
  );
  const show = (value: number, dimension: Dimension, u?: number) =>
    formatQuantity(value, dimension, { system, unit: unitOf("deck load", dimension), ...(u ? { u } : { digits: 3 }) });
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
        <Held pull={pull} asked={asked} hold={step?.hold ?? 0} />
      </dl>
      <Limit weakest={weakest} />
      <section className={styles.step} aria-label="Step under way">
        <p>
          <strong>
            {at + 1} of {pull.steps.length}:
          </strong>{" "}
          {step === undefined || step.load === null
            ? "set the anchor"
            : `raise to ${show(step.load, "force")} at the anchor${asked === null ? "" : `, ${show(asked, "force")} at the bow`}, hold ${durationText(step.hold)}`}
        </p>
        {at + 1 < pull.steps.length && (
          <Button look="strong" onClick={() => void note({ kind: "step", step: at + 1 })}>
            Next step
          </Button>
        )}
      </section>
      {ending ? (
        <Ending pull={pull} onBack={() => setEnding(false)} />
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
          <Keys
            unit={unitOf("deck load", "force")}
            beside={<Undo pull={pull} say={(one) => saying(one, show)} />}
            onKeep={(value) =>
              note({ kind: "load", newtons: fromUnit(value, unitOf("deck load", "force"), "force", "load") })
            }
          />
          <Gauge bowAngle={carried?.settled.bow.angle ?? null} />
          <Button className={styles.wide} onClick={() => setEnding(true)}>
            End the pull
          </Button>
        </>
      )}
    </>
  );
}

/** At most four digits, so that they can be large: from 10 kN on in kN. */
function largeText({ value, u }: { value: number; u: number }, system: UnitSystem, unit: string): string {
  if (unit !== "N" || value < 9950)
    return formatQuantity(value, "force", { system, unit, ...(u > 0 ? { u } : { digits: 3 }) });
  return `${(value / 1000).toFixed(1)} ± ${significant(Math.max(u, 50) / 1000, 1)} kN`;
}

/** To a tenth of a degree: nobody lays a rode closer. */
function angleText({ value, u }: { readonly value: number; readonly u: number }): string {
  return withMinus(`${(value * DEGREES).toFixed(1)}° ± ${Math.max(0.1, u * DEGREES).toFixed(1)}°`);
}

/** The load as large as the screen lets it be: a touch shows the other end. */
function Large({
  where,
  text,
  onTouch,
}: {
  readonly where: string;
  readonly text: string;
  readonly onTouch: () => void;
}) {
  const [, value = text, spread, unit = ""] = /^(\S+?)(?: ± (\S+))?( \S+)?$/.exec(text) ?? [];
  // A point is half as wide as a digit.
  const signs = value.replace(/\./, "").length + (value.includes(".") ? 0.5 : 0);
  return (
    <button type="button" className={styles.large} onClick={onTouch} aria-live="off">
      <span className={styles.where}>Load {where}</span>
      <span
        className={styles.number}
        style={{ fontSize: `min(8.6rem, ${92 / (0.7 * Math.max(2, signs))}vw)` }}
        data-number
      >
        {value}
      </span>
      <span className={styles.unit}>
        {unit}
        {spread === undefined ? "" : ` ± ${spread}`}
      </span>
    </button>
  );
}

function Held({
  pull,
  asked,
  hold,
}: {
  readonly pull: DeckPull;
  readonly asked: number | null;
  readonly hold: number;
}) {
  const [now, setNow] = useState(() => Date.now());
  useEffect(() => {
    const timer = setInterval(() => setNow(Date.now()), 500);
    return () => clearInterval(timer);
  }, []);
  const since = asked === null ? null : heldSince(pull, asked);
  const held = since === null ? null : Math.max(0, (now - since) / 1000);
  return (
    <div>
      <dt>Held</dt>
      <dd data-done={held !== null && held >= hold ? "" : undefined}>
        {held === null ? "–" : `${durationText(Math.floor(held))}${held >= hold ? " ✓" : ` of ${durationText(hold)}`}`}
      </dd>
    </div>
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
