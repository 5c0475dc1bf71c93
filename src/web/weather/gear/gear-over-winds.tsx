import { memo } from "react";
import { complianceShown, complianceText, complianceUnit } from "../../../words/index.ts";
import { formatQuantity, significant } from "../../controls/numbers.ts";
import { Scroll } from "../../controls/scroll.tsx";
import { useUnits } from "../../state/preferences.ts";
import styles from "./gear-table.module.css";
import type { GearAnswer } from "./gear-work.ts";
import { lostCatenary } from "./lost-catenary.ts";

/** The load of one wind of the table. */
export interface LoadInWind {
  readonly wind: number;
  readonly load: number;
}

/** What the weight of each rode gives at every wind: thinner chain of a stronger grade gives less, in numbers. */
export const GearOverWinds = memo(function GearOverWinds({
  answer,
  over,
}: {
  readonly answer: GearAnswer;
  readonly over: readonly LoadInWind[];
}) {
  const { system, unitOf } = useUnits();
  const windUnit = unitOf("wind", "speed", "kn");
  const wind = (value: number) => formatQuantity(value, "speed", { unit: windUnit, digits: 3 });
  const load = (value: number) => formatQuantity(value, "force", { system, unit: unitOf("load", "force"), digits: 2 });
  const lost = lostCatenary(answer.rows);
  return (
    <div className={styles.group}>
      <h3>Give of the rode's weight at every wind, {complianceUnit[system]}</h3>
      <Scroll name="Give at every wind">
        <table className={styles.table}>
          <thead>
            <tr>
              <th scope="col">rode</th>
              {over.map((one) => (
                <th key={one.wind} scope="col">
                  {wind(one.wind)}
                  <small>{load(one.load)}</small>
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {answer.rows.map((row) => (
              <tr key={row.name}>
                <th scope="row">{row.name}</th>
                {row.cells.map((cell, i) => (
                  <td key={over[i]?.wind ?? i}>
                    {cell === null ? (
                      "–"
                    ) : (
                      <>
                        {significant(complianceShown(Math.max(0, cell.weight), system), 2)}
                        <small>all {significant(complianceShown(cell.whole, system), 2)}</small>
                      </>
                    )}
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </Scroll>
      {lost !== null && (
        <p className={styles.said}>
          The stronger grade lets the chain be thinner, and loses catenary:{" "}
          {lost.cells
            .map(
              ({ at, thin, thick }) =>
                `in ${wind(over[at]!.wind)} ${lost.thin} gives ${complianceText(thin, system)} where ${lost.thick} gives ${complianceText(thick, system)}`,
            )
            .join("; ")}
          .
        </p>
      )}
    </div>
  );
});
