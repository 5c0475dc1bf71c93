import { type RefObject, useEffect, useMemo, useState } from "react";
import { type Dimension, formatQuantity } from "../../quantity/index.ts";
import { announce } from "../show/announce.ts";
import { Button } from "../show/button.tsx";
import { Choice } from "../show/choice.tsx";
import { Panel } from "../show/panel.tsx";
import { QuantityField } from "../show/quantity-field.tsx";
import { Reading } from "../show/reading.tsx";
import { useSize } from "../show/use-size.ts";
import { useAddress } from "../state/address.ts";
import { useHint, useUnits } from "../state/preferences.ts";
import { newStroke } from "../state/store.ts";
import { useUndoable } from "../state/undoable.ts";
import { useStore } from "../state/use-store.ts";
import { inWorker, useNewest } from "../work/worker.ts";
import { readingsCodec } from "./address.ts";
import { type ReadingRow, type ReleaseRow, readingsDesk, runOf } from "./desk.ts";
import { EntryTable, type RowVerdict } from "./entry-table.tsx";
import { FilesBar } from "./files-bar.tsx";
import type { JudgedRun } from "./judge-run.ts";
import styles from "./place.module.css";
import { RigSummary } from "./rig-summary.tsx";

const ENDS = [
  { value: "anchor", label: "anchor end" },
  { value: "bow", label: "upper end" },
] as const;

/** Readings of a rig: entered or pasted, against theory as they grow. */
export function Place() {
  useAddress(readingsDesk, readingsCodec);
  useUndoable(readingsDesk);
  const state = useStore(readingsDesk);
  const { system } = useUnits();
  const [figures, { width }] = useSize<HTMLDivElement>();
  const run = useMemo(() => runOf(state), [state]);
  const drawnAt = Math.max(320, Math.round(width / 40) * 40);
  const ask = useMemo(
    () => (run === null ? null : () => inWorker().judged(run, state.rig, system, drawnAt)),
    [run, state.rig, system, drawnAt],
  );
  const judged = useNewest(ask);

  useEffect(() => {
    if (judged === null) return;
    const outliers = [...judged.reduced.readings, ...judged.reduced.release].filter((row) => row.outlier).length;
    announce(
      `${judged.judgements[0]?.says ?? ""}; ${outliers === 0 ? "no outlier" : outliers === 1 ? "1 outlier" : `${outliers} outliers`}`,
    );
  }, [judged]);

  return (
    <div className={styles.place}>
      <header className={styles.top}>
        <h1>Readings</h1>
        <FilesBar state={state} />
      </header>
      <div className={styles.columns}>
        <div className={styles.entry}>
          <RigSummary
            rig={state.rig}
            onRig={(rig) => readingsDesk.set((before) => ({ ...before, rig }), { label: "rig" })}
          />
          <HowRead />
          <Tables judged={judged} />
        </div>
        <div className={styles.answers} ref={figures as RefObject<HTMLDivElement>}>
          <Fitted judged={judged} />
          <Figures judged={judged} />
          <Verdicts judged={judged} />
        </div>
      </div>
    </div>
  );
}

function HowRead() {
  const state = useStore(readingsDesk);
  const uncertain = (key: "load" | "angle" | "movement", label: string, dimension: Dimension) => (
    <QuantityField
      field={`± ${key}`}
      label={label}
      dimension={dimension}
      value={state.u[key]}
      range={{ above: 0, expected: "a standard uncertainty above zero is expected" }}
      onChange={(value) =>
        readingsDesk.set((before) => ({ ...before, u: { ...before.u, [key]: value } }), {
          label: `± of ${key}`,
          stroke: `u ${key}`,
        })
      }
    />
  );
  return (
    <Panel title="How it was read">
      <div className={styles.how}>
        <Choice
          label="Load cell at the"
          value={state.loadCellAt}
          options={ENDS}
          onChange={(loadCellAt) =>
            readingsDesk.set((before) => ({ ...before, loadCellAt }), { label: "end of the load cell" })
          }
        />
        <Choice
          label="Angle gauge at the"
          value={state.angleAt}
          options={ENDS}
          onChange={(angleAt) => readingsDesk.set((before) => ({ ...before, angleAt }), { label: "end of the gauge" })}
        />
      </div>
      <p className={styles.quiet}>Standard uncertainty of one reading</p>
      <div className={styles.three}>
        {uncertain("load", "load ±", "force")}
        {uncertain("angle", "angle ±", "angle")}
        {uncertain("movement", "movement ±", "length")}
      </div>
    </Panel>
  );
}

function Tables({ judged }: { readonly judged: JudgedRun | null }) {
  const state = useStore(readingsDesk);
  const { system, unitOf } = useUnits();
  const hint = useHint("readings paste");
  const show = (value: number, field: string, dimension: Dimension) =>
    formatQuantity(value, dimension, { system, unit: unitOf(field, dimension), digits: 3 });
  const whole = (rows: readonly { load: number | null }[], has: (i: number) => boolean) => {
    let n = 0;
    return rows.map((row, i) => (row.load !== null && row.load > 0 && has(i) ? n++ : -1));
  };
  const readingAt = whole(state.readings, (i) => state.readings[i]!.angle !== null || state.readings[i]!.liftoff);
  const releaseAt = whole(state.release, (i) => state.release[i]!.movement !== null);
  const angleVerdicts = readingAt.map((n): RowVerdict | null => {
    const row = judged?.reduced.readings[n];
    return row === undefined
      ? null
      : {
          theory: show(row.theory, "readings angle", "angle"),
          residual: row.residual.toFixed(1),
          outlier: row.outlier,
        };
  });
  const releaseVerdicts = releaseAt.map((n): RowVerdict | null => {
    const row = judged?.reduced.release[n];
    return row === undefined || n === 0
      ? null
      : {
          theory: show(row.theory, "readings movement", "length"),
          residual: row.residual.toFixed(1),
          outlier: row.outlier,
        };
  });
  const setReadings = (change: (rows: ReadingRow[]) => void, label: string, stroke?: string) =>
    readingsDesk.set(
      (before) => {
        const readings = [...before.readings];
        change(readings);
        return { ...before, readings };
      },
      { label, ...(stroke === undefined ? {} : { stroke }) },
    );
  const setRelease = (change: (rows: ReleaseRow[]) => void, label: string, stroke?: string) =>
    readingsDesk.set(
      (before) => {
        const release = [...before.release];
        change(release);
        return { ...before, release };
      },
      { label, ...(stroke === undefined ? {} : { stroke }) },
    );
  const empty: ReadingRow = { load: null, angle: null, liftoff: false };
  return (
    <>
      <Panel title="Angle over load">
        {hint.shown && (
          <p className={styles.hint}>Type load and angle row by row, or paste a whole table into any cell.</p>
        )}
        <EntryTable
          caption="What the gauge said under each load; the anchor end seen to come level is marked as lift-off."
          columns={[
            { name: "load", field: "readings load", dimension: "force" },
            { name: "angle", field: "readings angle", dimension: "angle" },
          ]}
          rows={state.readings.map((row) => [row.load, row.angle] as const)}
          verdicts={angleVerdicts}
          besideHead="lift-off"
          beside={(i) => (
            <input
              type="checkbox"
              className={styles.tick}
              aria-label={`lift-off, row ${i + 1}`}
              checked={state.readings[i]!.liftoff}
              onChange={(event) =>
                setReadings(
                  (rows) => void rows.splice(i, 1, { ...rows[i]!, liftoff: event.target.checked }),
                  "lift-off",
                )
              }
            />
          )}
          onCell={(i, column, value) => {
            hint.used();
            setReadings(
              (rows) => void rows.splice(i, 1, { ...(rows[i] ?? empty), [column === 0 ? "load" : "angle"]: value }),
              "reading",
              `reading ${i} ${column}`,
            );
          }}
          onRemove={(i) => setReadings((rows) => void rows.splice(i, 1), "row removed")}
          onPaste={(rows, words, at) => {
            hint.used();
            setReadings(
              (list) =>
                void list.splice(
                  at,
                  rows.length,
                  ...rows.map((row, n) => ({
                    load: row[0] ?? null,
                    angle: row[1] ?? null,
                    liftoff: /lift/i.test(words[n] ?? ""),
                  })),
                ),
              "pasted table",
              newStroke(),
            );
          }}
        />
      </Panel>
      <Panel title="Movement on release">
        <EntryTable
          caption="How far the loaded end had come back as the load was let off, counted from the first row."
          columns={[
            { name: "load", field: "readings load", dimension: "force" },
            { name: "moved", field: "readings movement", dimension: "length" },
          ]}
          rows={state.release.map((row) => [row.load, row.movement] as const)}
          verdicts={releaseVerdicts}
          onCell={(i, column, value) =>
            setRelease(
              (rows) =>
                void rows.splice(i, 1, {
                  ...(rows[i] ?? { load: null, movement: null }),
                  [column === 0 ? "load" : "movement"]: value,
                }),
              "release",
              `release ${i} ${column}`,
            )
          }
          onRemove={(i) => setRelease((rows) => void rows.splice(i, 1), "row removed")}
          onPaste={(rows, _words, at) =>
            setRelease(
              (list) =>
                void list.splice(
                  at,
                  rows.length,
                  ...rows.map((row) => ({ load: row[0] ?? null, movement: row[1] ?? null })),
                ),
              "pasted table",
              newStroke(),
            )
          }
        />
      </Panel>
    </>
  );
}

function Fitted({ judged }: { readonly judged: JudgedRun | null }) {
  if (judged === null) {
    return (
      <Panel title="Against theory">
        <p className={styles.quiet}>
          Enter a load with its angle, and theory stands beside it: residuals, what the rig's own give and the gauge's
          zero seem to be, and what to doubt.
        </p>
      </Panel>
    );
  }
  const { massPerLength, rise, gaugeZero, rigGive } = judged.reduced.fitted;
  return (
    <Panel title="Fitted, with what was stated beforehand">
      <dl className={styles.fitted}>
        {massPerLength !== null && (
          <Reading name="mass per length" dimension="massPerLength" value={massPerLength.value} u={massPerLength.u} />
        )}
        {rise !== null && <Reading name="rise" dimension="length" value={rise.value} u={rise.u} />}
        {gaugeZero !== null && <Reading name="gauge zero" dimension="angle" value={gaugeZero.value} u={gaugeZero.u} />}
        {rigGive !== null && <Give value={rigGive.value} u={rigGive.u} />}
        {judged.reduced.liftoff !== null && (
          <Reading name="comes level at" dimension="force" value={judged.reduced.liftoff} />
        )}
      </dl>
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

function Figures({ judged }: { readonly judged: JudgedRun | null }) {
  const svgs = judged === null ? [] : [judged.angle, judged.movement].filter((svg) => svg !== null);
  return svgs.map((svg, i) => (
    // biome-ignore lint/suspicious/noArrayIndexKey: the angle stands first, the movement second
    <figure key={i} className={styles.figure}>
      {/* biome-ignore lint/security/noDangerouslySetInnerHtml: drawn by src/figure, which escapes every text */}
      <div dangerouslySetInnerHTML={{ __html: svg }} />
    </figure>
  ));
}

function Verdicts({ judged }: { readonly judged: JudgedRun | null }) {
  const { system, unitOf } = useUnits();
  const [all, setAll] = useState(false);
  if (judged === null) return null;
  const shown = all ? judged.judgements : judged.judgements.slice(0, 8);
  return (
    <Panel title="In words">
      <ul className={styles.verdicts}>
        {shown.map((verdict) => (
          <li key={verdict.says} data-about={verdict.about}>
            {verdict.load !== null && verdict.about !== "simplification" && (
              <strong>
                {formatQuantity(verdict.load, "force", { system, unit: unitOf("readings load", "force"), digits: 3 })}:{" "}
              </strong>
            )}
            {verdict.says}
          </li>
        ))}
      </ul>
      {judged.judgements.length > 8 && (
        <Button onClick={() => setAll(!all)}>{all ? "Fewer" : `All ${judged.judgements.length}`}</Button>
      )}
    </Panel>
  );
}
