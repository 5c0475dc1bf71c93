/** Answers as a page tells them: a value with its ±, in the units chosen. */
import type { ReactNode } from "react";
import type { LoadInWind } from "../../publish/index.ts";
import { type Dimension, formatQuantity, type UnitSystem } from "../../quantity/index.ts";

/** A value to its uncertainty, or to three digits where none is known. */
export function answerText(value: number, dimension: Dimension, units: UnitSystem, u?: number | null): string {
  const sure = u !== undefined && u !== null && u > 0 && Number.isFinite(u);
  return formatQuantity(value, dimension, {
    ...(dimension === "speed" ? { unit: "kn" } : { system: units }),
    ...(sure ? { u } : { digits: 3 }),
  });
}

/** A load with the wind that brings it. */
export function loadInWind({ load, u, wind }: LoadInWind, units: UnitSystem): string {
  const by =
    wind === null
      ? "no wind up to 117 kn brings it"
      : `a mean wind of ${answerText(wind.value, "speed", units, wind.u)}`;
  return `${answerText(load, "force", units, u)} at the bow: ${by}`;
}

export function Row({ name, children }: { readonly name: string; readonly children: ReactNode }) {
  return (
    <div className="row">
      <dt>{name}</dt>
      <dd>{children}</dd>
    </div>
  );
}
