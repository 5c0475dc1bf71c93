import type { Dimension } from "../../quantity/index.ts";
import { useUnits } from "../state/preferences.ts";
import { formatQuantity, readableUnit } from "./numbers.ts";
import styles from "./reading.module.css";

export interface ReadingProps {
  /** What it is: "angle at the anchor". */
  readonly name: string;
  /** The field whose unit is used; default the name. */
  readonly field?: string;
  readonly dimension: Dimension;
  /** SI; null shows a dash: not known. */
  readonly value: number | null;
  /** Standard uncertainty, SI; 0 or absent: none is stated. */
  readonly u?: number | undefined;
  readonly digits?: number;
  /** Computed by the bench, or measured by an instrument: colour and the mark before it tell. */
  readonly kind?: "computed" | "measured";
  readonly big?: boolean;
  /** One short line below: "lifts at 2.1 kN". */
  readonly note?: string | undefined;
}

/** A number with its unit and its ±, never sharper than it. */
export function Reading(props: ReadingProps) {
  const { name, dimension, value, u, kind = "computed" } = props;
  const { system, unitOf } = useUnits();
  const unit = readableUnit(unitOf(props.field ?? name, dimension), value);
  const sure = u !== undefined && u > 0;
  const text =
    value === null
      ? "–"
      : formatQuantity(value, dimension, { system, unit, ...(sure ? { u } : { digits: props.digits ?? 3 }) });
  const [main, spread] = partsOf(text);
  return (
    <div className={styles.reading} data-kind={kind} data-big={props.big || undefined}>
      <dt className={styles.name}>{name}</dt>
      <dd className={styles.value}>
        <span className={styles.main}>{main}</span>
        {spread !== undefined && <span className={styles.spread}>± {spread}</span>}
        {props.note !== undefined && <span className={styles.note}>{props.note}</span>}
      </dd>
    </div>
  );
}

/** `12.34 ± 0.40 m` as `12.34 m` and `0.40 m`: the unit stands by the number that is read first. */
function partsOf(text: string): readonly [string, string | undefined] {
  const match = /^(\S+)°? ± (\S+?)(°|\s.*)?$/.exec(text);
  if (match === null) return [text, undefined];
  const [, value = "", spread = "", unit = ""] = match;
  return [`${value.replace(/°$/, "")}${unit}`, `${spread}${unit}`];
}
