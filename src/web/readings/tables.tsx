import type { Dimension } from "../../quantity/index.ts";
import { Hint } from "../controls/hint.tsx";
import { formatQuantity } from "../controls/numbers.ts";
import { Panel } from "../controls/panel.tsx";
import { useHint, useUnits } from "../state/preferences.ts";
import { newStroke } from "../state/store.ts";
import { useStore } from "../state/use-store.ts";
import type { RowVerdict } from "./entry-row.tsx";
import { type EntryColumn, EntryTable } from "./entry-table.tsx";
import type { Outcome } from "./judge-run.ts";
import styles from "./place.module.css";
import { type ReadingRow, type ReleaseRow, readingsStore, wholeRows } from "./state.ts";

const LOAD: EntryColumn = {
  name: "load",
  field: "readings load",
  titles: /load|force|tension|pull|cell/i,
  dimension: "force",
  range: { above: 0, most: 1e9, expected: "a load above zero, below 1 GN, is expected" },
};
const UPRIGHT = Math.PI / 2;
const ANGLE: EntryColumn = {
  name: "angle",
  field: "readings angle",
  titles: /angle|gauge|inclin/i,
  dimension: "angle",
  range: { above: -UPRIGHT, most: UPRIGHT * (1 - 1e-9), expected: "an angle between -90 and 90 deg is expected" },
};
const MOVED: EntryColumn = {
  name: "moved",
  field: "readings movement",
  titles: /mov|travel|displace|shift|came back|tape/i,
  dimension: "length",
  range: { least: -1e5, most: 1e5, expected: "a movement of at most 100 km is expected" },
};

const REFUSED = {
  noEquilibrium: { theory: "–", residual: "", flag: "no equilibrium" },
  neverLiftsOff: { theory: "–", residual: "", flag: "no lift-off" },
} as const satisfies Record<string, RowVerdict>;

function verdictOf(
  row: { readonly residual: number; readonly outlier: boolean; readonly suspect: boolean },
  theory: string,
): RowVerdict {
  const size = Math.abs(row.residual).toFixed(1);
  const sign = size === "0.0" ? "" : row.residual < 0 ? "−" : "+";
  return { theory, residual: `${sign}${size}`, flag: row.outlier ? "outlier" : row.suspect ? "suspect" : null };
}

/** The two tables as they are entered, with what theory says of each row. */
export function Tables({ outcome }: { readonly outcome: Outcome | null }) {
  const state = useStore(readingsStore);
  const { system, unitOf } = useUnits();
  const hint = useHint("readings paste");
  const show = (value: number, field: string, dimension: Dimension) =>
    formatQuantity(value, dimension, { system, unit: unitOf(field, dimension), digits: 3 });
  const whole = wholeRows(state);
  const judged = outcome?.kind === "judged" ? outcome : null;
  const refused = outcome?.kind === "refused" ? outcome.row : null;
  // An answer may be of the rows a moment ago: it stands only beside the values it speaks of.
  const angleVerdicts = state.readings.map((row, i): RowVerdict | null => {
    const n = whole.readings.indexOf(i);
    if (refused?.list === "readings" && refused.row === n && refused.load === row.load) return REFUSED[refused.kind];
    const said = judged?.reduced.readings[n];
    return said === undefined || said.load !== row.load || said.angle !== row.angle
      ? null
      : verdictOf(said, show(said.theory, "readings angle", "angle"));
  });
  const from = state.release[whole.release[0] ?? -1]?.movement ?? 0;
  const releaseVerdicts = state.release.map((row, i): RowVerdict | null => {
    const n = whole.release.indexOf(i);
    if (refused?.list === "release" && refused.row === n && refused.load === row.load) return REFUSED[refused.kind];
    const said = judged?.reduced.release[n];
    if (said === undefined || said.load !== row.load || said.movement !== (row.movement ?? 0) - from) return null;
    return n === 0
      ? { theory: "start", residual: "", flag: null }
      : verdictOf(said, show(from + said.theory, "readings movement", "length"));
  });
  const setReadings = (change: (rows: ReadingRow[]) => void, label: string, stroke?: string) =>
    readingsStore.set(
      (before) => {
        const readings = [...before.readings];
        change(readings);
        return { ...before, readings };
      },
      { label, ...(stroke === undefined ? {} : { stroke }) },
    );
  const setRelease = (change: (rows: ReleaseRow[]) => void, label: string, stroke?: string) =>
    readingsStore.set(
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
        {hint.shown && state.readings.length === 0 && (
          <Hint>Type load and angle row by row, or paste a whole table into any cell.</Hint>
        )}
        <EntryTable
          caption="What the gauge said under each load. Tick lift-off where the anchor end was seen to come level; it may stand without an angle. Residuals are in standard uncertainties."
          columns={[LOAD, ANGLE]}
          rows={state.readings.map((row) => [row.load, row.angle] as const)}
          verdicts={angleVerdicts}
          besideHead="lift-off"
          beside={(i) => (
            <span className={styles.tickTarget}>
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
            </span>
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
          onPaste={(rows, liftoff, at) => {
            hint.used();
            setReadings(
              (list) =>
                void list.splice(
                  at,
                  rows.length,
                  ...rows.map((row, n) => ({
                    load: row[0] ?? null,
                    angle: row[1] ?? null,
                    liftoff: liftoff[n]!,
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
          caption="How far the loaded end had come back as the load was let off, counted from the first row, the heaviest load."
          columns={[LOAD, MOVED]}
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
          onPaste={(rows, _liftoff, at) =>
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
