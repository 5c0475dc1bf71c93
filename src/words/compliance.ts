/** Compliance, movement per load, as people say it: metres per kilonewton, or feet per 100 pounds-force. */
import { fromUnit, significant, type UnitSystem } from "../quantity/index.ts";

/** m/N of one of the unit. */
const SIZE: Readonly<Record<UnitSystem, number>> = {
  metric: 1 / fromUnit(1, "kN", "force", "compliance"),
  us: fromUnit(1, "ft", "length", "compliance") / fromUnit(100, "lbf", "force", "compliance"),
};

/** The unit a give per load is shown in. */
export const complianceUnit: Readonly<Record<UnitSystem, string>> = { metric: "m per kN", us: "ft per 100 lbf" };
/** @param compliance m/N */
export const complianceShown = (compliance: number, system: UnitSystem): number => compliance / SIZE[system];
/** @returns m/N */
export const complianceOf = (shown: number, system: UnitSystem): number => shown * SIZE[system];
/** A give per load as text in the units asked for. */
export const complianceText = (compliance: number, system: UnitSystem, digits = 2): string =>
  `${significant(complianceShown(compliance, system), digits)} ${complianceUnit[system]}`;
