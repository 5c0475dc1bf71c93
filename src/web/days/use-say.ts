import { useMemo } from "react";
import type { Dimension } from "../../quantity/index.ts";
import { formatQuantity } from "../controls/numbers.ts";
import { useUnits } from "../state/preferences.ts";
import type { Say } from "./record-text.ts";

/** Says quantities in the units this device has chosen. */
export function useSay(): Say {
  const units = useUnits();
  return useMemo(
    () => (value: number, field: string, dimension: Dimension, u?: number) =>
      formatQuantity(value, dimension, {
        system: units.system,
        unit: units.unitOf(field, dimension),
        ...(u !== undefined && u > 0 ? { u } : { digits: 3 }),
      }),
    [units],
  );
}
