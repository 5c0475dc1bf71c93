import { memo, useMemo } from "react";
import {
  type Boat,
  beaufort,
  type Conditions,
  type Estimate,
  engineThrustOf,
  type WindsForLoad,
  windsForLoad,
} from "../../../sea/index.ts";
import { formatQuantity } from "../../controls/numbers.ts";
import { FoldingPanel } from "../../controls/panel.tsx";
import { QuantityField } from "../../controls/quantity-field.tsx";
import { Scroll } from "../../controls/scroll.tsx";
import { useUnits } from "../../state/preferences.ts";
import styles from "../place.module.css";
import { change } from "../store.ts";

interface Row {
  readonly key: string;
  readonly what: string;
  readonly kind: "measured" | "computed";
  readonly cells: readonly (Estimate | string)[];
}

/** Backwards: what mean wind a pull, and the engine's full thrust, are worth. */
export const WindOfLoad = memo(function WindOfLoad({
  boat,
  load,
  loadU,
  conditions,
}: {
  readonly boat: Boat;
  /** N, with its standard uncertainty. */
  readonly load: number;
  readonly loadU: number;
  readonly conditions: Conditions;
}) {
  const { system, unitOf } = useUnits();
  const unit = unitOf("wind", "speed", "kn");
  const loadUnit = unitOf("load", "force");
  const answers = useMemo(() => {
    const thrust = engineThrustOf(boat);
    const asked = windsForLoad(boat, { value: load, u: loadU }, conditions);
    return { asked, thrust, engine: thrust === undefined ? null : windsForLoad(boat, thrust, conditions) };
  }, [boat, conditions, load, loadU]);
  const columns = [answers.asked, ...(answers.engine === null ? [] : [answers.engine])];
  const rows = rowsOf(columns);
  return (
    <FoldingPanel name="wind of a load" title="What wind a pull is worth">
      <div className={styles.fields}>
        <QuantityField
          field="load"
          label="Pull"
          dimension="force"
          value={load}
          range={{ above: 0, most: 1e9, expected: "a load above zero is expected" }}
          onChange={(value) => change({ load: value }, "pull", "pull")}
        />
        <QuantityField
          field="load"
          label="± of the pull"
          dimension="force"
          value={loadU}
          range={{ least: 0, most: 1e9, expected: "zero or more is expected" }}
          onChange={(value) => change({ loadU: value }, "± of the pull", "± of the pull")}
        />
      </div>
      <Scroll name="Wind a pull is worth">
        <table className={styles.table}>
          <caption className="unseen">Mean wind at 10 m that a load is worth</caption>
          <thead>
            <tr>
              <th scope="col">mean wind, {unit}</th>
              <th scope="col">
                this pull
                <small>
                  {formatQuantity(load, "force", { system, unit: loadUnit, ...(loadU > 0 ? { u: loadU } : {}) })}
                </small>
              </th>
              {answers.thrust !== undefined && (
                <th scope="col">
                  full thrust
                  <small>
                    {formatQuantity(answers.thrust.value, "force", { system, unit: loadUnit, u: answers.thrust.u })}
                  </small>
                </th>
              )}
            </tr>
          </thead>
          <tbody>
            {rows.map(({ key, what, kind, cells }) => (
              <tr key={key}>
                <th scope="row" data-kind={kind}>
                  {what}
                </th>
                {cells.map((cell, i) => (
                  // biome-ignore lint/suspicious/noArrayIndexKey: a cell is its column
                  <td key={i}>
                    {typeof cell === "string" ? (
                      <small>{cell}</small>
                    ) : (
                      <>
                        {formatQuantity(cell.value, "speed", { unit, u: cell.u })}
                        <small>{beaufort(cell.value).name}</small>
                      </>
                    )}
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </Scroll>
      <p className={styles.quiet}>
        The wind whose mean load is that pull is stronger than the wind whose brief peaks reach it: an anchor set with
        it has felt for a moment what the weaker wind does, not what the stronger does all night.
      </p>
    </FoldingPanel>
  );
});

function rowsOf(columns: readonly WindsForLoad[]): readonly Row[] {
  const first = columns[0]!;
  const rows: Row[] = first.measured.flatMap(({ at, peak }, i): Row[] => [
    {
      key: `${at} mean`,
      what: `own points (${at}), mean load`,
      kind: "measured",
      cells: columns.map(({ measured }) => measured[i]!.mean),
    },
    ...(peak === undefined
      ? []
      : [
          {
            key: `${at} peak`,
            what: `own points (${at}), brief peaks`,
            kind: "measured" as const,
            cells: columns.map(({ measured }) => measured[i]!.peak!),
          },
        ]),
  ]);
  const cell = (worth: WindsForLoad["windage"]): Estimate | string => {
    if (worth?.kind === "wind") return worth.wind;
    return worth?.kind === "currentAlone" ? "the current alone pulls more" : "no windage from this angle";
  };
  if (first.windage !== undefined)
    rows.push({
      key: "windage",
      what: "windage, steady",
      kind: "computed",
      cells: columns.map((one) => cell(one.windage)),
    });
  if (first.windageInGust !== undefined)
    rows.push({
      key: "gust",
      what: "windage, in the gust",
      kind: "computed",
      cells: columns.map((one) => cell(one.windageInGust)),
    });
  return rows;
}
