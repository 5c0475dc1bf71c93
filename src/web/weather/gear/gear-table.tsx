import { memo } from "react";
import type { Dimension } from "../../../quantity/index.ts";
import type { Measured } from "../../../sea/index.ts";
import { complianceText, criterionWords, notWeighedLine, planLimitWords } from "../../../words/index.ts";
import { Button } from "../../controls/button.tsx";
import { formatQuantity } from "../../controls/numbers.ts";
import { QuantityField } from "../../controls/quantity-field.tsx";
import { Scroll } from "../../controls/scroll.tsx";
import { useUnits } from "../../state/preferences.ts";
import styles from "./gear-table.module.css";
import type { GearAnswer, GearRow } from "./gear-work.ts";

/** One row a candidate: what it carries, weighs and gives; marked where no other beats it. */
export const GearTable = memo(function GearTable({
  answer,
  onRemove,
  onPrice,
}: {
  readonly answer: GearAnswer;
  readonly onRemove: (i: number) => void;
  readonly onPrice: (i: number, price: number | null) => void;
}) {
  const { rows, criteria } = answer;
  const { system, unitOf } = useUnits();
  const text = (value: number | null, dimension: Dimension, field: string, digits = 2) =>
    value === null ? "–" : formatQuantity(value, dimension, { system, unit: unitOf(field, dimension), digits });
  const sure = (one: Measured | null, dimension: Dimension, field: string, usual?: string) =>
    one === null ? (
      "–"
    ) : (
      <Sure
        text={formatQuantity(one.value, dimension, {
          system,
          unit: unitOf(field, dimension, usual),
          ...(one.u > 0 ? { u: one.u } : { digits: 3 }),
        })}
      />
    );
  const snubbed = rows.some(({ ropeShare }) => ropeShare !== null);
  return (
    <>
      <Scroll name="Candidates side by side">
        <table className={styles.table}>
          <thead>
            <tr>
              <th scope="col">rode</th>
              <th scope="col">peak at the bow</th>
              <th scope="col">angle at the anchor</th>
              <th scope="col">of working load limit</th>
              <th scope="col">of strength in use</th>
              {snubbed && <th scope="col">of snubber's strength</th>}
              <th scope="col">gives: weight, all</th>
              <th scope="col">moves to the peak</th>
              <th scope="col">on the bottom</th>
              <th scope="col">weight</th>
              <th scope="col">in the locker</th>
              <th scope="col">price</th>
              <td />
            </tr>
          </thead>
          <tbody>
            {rows.map((row, i) => (
              <tr key={row.name} data-best={row.notBeaten || undefined}>
                <th scope="row">
                  {row.name}
                  <Standing row={row} />
                </th>
                <td>{sure(row.peak, "force", "load")}</td>
                <td>{sure(row.anchorAngle, "angle", "angle")}</td>
                <td>{text(row.workingLoad, "ratio", "share", 3)}</td>
                <td>{text(row.strength, "ratio", "share", 3)}</td>
                {snubbed && <td>{text(row.ropeShare, "ratio", "share", 3)}</td>}
                <td>
                  {row.weightGive === null || row.wholeGive === null ? (
                    "–"
                  ) : (
                    <>
                      {complianceText(Math.max(0, row.weightGive), system)}
                      <small>{complianceText(row.wholeGive, system)}</small>
                    </>
                  )}
                </td>
                <td>{text(row.movement, "length", "movement")}</td>
                <td>{text(row.grounded, "length", "length")}</td>
                <td>{text(row.weight, "mass", "displacement")}</td>
                <td>{sure(row.volume, "volume", "locker", system === "metric" ? "L" : "ft³")}</td>
                <td className={styles.price}>
                  <QuantityField
                    field="price"
                    plain
                    labelUnseen
                    label={`Price of ${row.name}`}
                    dimension="ratio"
                    value={row.price}
                    placeholder="–"
                    range={{ least: 0, most: 1e9, expected: "zero or more is expected, or nothing" }}
                    onChange={(price) => onPrice(i, price)}
                    onEmpty={() => onPrice(i, null)}
                  />
                </td>
                <td>
                  <Button look="bare" aria-label={`Remove ${row.name}`} onClick={() => onRemove(i)}>
                    ×
                  </Button>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </Scroll>
      <p className={styles.quiet}>
        ◆ none better: within every limit, and no other such is better in one and as good in all of{" "}
        {criteria.map((one) => criterionWords[one]).join(", ")}. The larger of snatch and brief peaks is the peak.
      </p>
    </>
  );
});

function Standing({ row }: { readonly row: GearRow }) {
  const { system } = useUnits();
  if (row.why !== null) return <small data-out="">cannot be weighed: {notWeighedLine(row.why, system)}</small>;
  if (row.passed.length > 0)
    return <small data-out="">✕ past: {row.passed.map((one) => planLimitWords[one]).join(", ")}</small>;
  return row.notBeaten ? <small data-best="">◆ none better</small> : <small>another is better</small>;
}

/** The ± below its value. */
function Sure({ text }: { readonly text: string }) {
  const [value, spread] = text.split(" ± ");
  if (spread === undefined) return text;
  const unit = /[\d.](\s?[^\d.\s].*)$/.exec(spread)?.[1] ?? "";
  return (
    <>
      {value}
      {value!.endsWith(unit) ? "" : unit}
      <small>± {spread}</small>
    </>
  );
}
