import { Fragment, useMemo, useState, useSyncExternalStore } from "react";
import { byDecimal } from "../../controls/by-decimal.tsx";
import { significant } from "../../controls/numbers.ts";
import { Panel } from "../../controls/panel.tsx";
import type { Store } from "../../state/store.ts";
import { clockText } from "./clock.ts";
import styles from "./log.module.css";
import type { Stretches } from "./stretches.ts";
import type { Lane } from "./trace.tsx";
import { drawnOf } from "./view-bytes.ts";
import type { Window } from "./window.ts";

const ROWS = 20;

/** What is in view as a table: least and greatest of each channel in twenty equal stretches of time. */
export function ReadingsTable(props: {
  readonly lanes: readonly { readonly lane: Lane }[];
  readonly stretches: Stretches;
  readonly view: Store<Window>;
  readonly drawn: number;
}) {
  const [open, setOpen] = useState(false);
  return (
    <Panel title="In view, as a table">
      <details className={styles.details} onToggle={(event) => setOpen(event.currentTarget.open)}>
        <summary>Least and greatest of each channel in twenty stretches</summary>
        {open && <Rows {...props} />}
      </details>
    </Panel>
  );
}

function Rows({ lanes, stretches, view, drawn }: Parameters<typeof ReadingsTable>[0]) {
  // Counted while the window moves would be drawn and thrown away: the table follows when it stands still.
  const window = useSettled(view);
  // biome-ignore lint/correctness/useExhaustiveDependencies: drawn counts what has come
  const rows = useMemo(() => {
    const width = (window.to - window.from) / ROWS;
    const each = lanes.map(({ lane }) => {
      const data = drawnOf(stretches.coarse, stretches.fine, lane.channel, lane.factor);
      const low = new Float64Array(ROWS).fill(Number.POSITIVE_INFINITY);
      const high = new Float64Array(ROWS).fill(Number.NEGATIVE_INFINITY);
      data.x.forEach((t, i) => {
        const row = Math.floor((t - window.from) / width);
        if (row < 0 || row >= ROWS) return;
        const [min, max] = [data.min[i], data.max[i]];
        if (min !== null && min !== undefined && min < low[row]!) low[row] = min;
        if (max !== null && max !== undefined && max > high[row]!) high[row] = max;
      });
      return { low, high };
    });
    return Array.from({ length: ROWS }, (_, row) => ({
      from: window.from + row * width,
      cells: each.map(({ low, high }) =>
        high[row]! >= low[row]! ? ([significant(low[row]!, 3), significant(high[row]!, 3)] as const) : null,
      ),
    }));
  }, [lanes, stretches, window, drawn]);
  const step = (window.to - window.from) / ROWS;
  const aligned = lanes.map((_, i) => ({
    least: byDecimal(rows.map(({ cells }) => cells[i]?.[0])),
    greatest: byDecimal(rows.map(({ cells }) => cells[i]?.[1])),
  }));
  return (
    <div className={styles.scroll}>
      <table className={styles.table}>
        <thead>
          <tr>
            <th scope="col">from</th>
            {lanes.map(({ lane }) => (
              <Fragment key={lane.channel}>
                <th scope="col">{lane.label}, least</th>
                <th scope="col">greatest</th>
              </Fragment>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={row.from}>
              <th scope="row">{clockText(row.from, Math.min(1, step))}</th>
              {row.cells.map((cell, i) => (
                <Fragment key={lanes[i]!.lane.channel}>
                  <td>{cell === null ? "–" : aligned[i]!.least(cell[0])}</td>
                  <td>{cell === null ? "–" : aligned[i]!.greatest(cell[1])}</td>
                </Fragment>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

function useSettled(view: Store<Window>): Window {
  const settled = useMemo(() => {
    let value = view.get();
    return {
      subscribe(listener: () => void) {
        let timer: ReturnType<typeof setTimeout> | undefined;
        const leave = view.subscribe(() => {
          clearTimeout(timer);
          timer = setTimeout(() => {
            value = view.get();
            listener();
          }, 300);
        });
        return () => {
          clearTimeout(timer);
          leave();
        };
      },
      get: () => value,
    };
  }, [view]);
  return useSyncExternalStore(settled.subscribe, settled.get);
}
