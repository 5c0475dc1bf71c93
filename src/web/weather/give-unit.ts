/** Give per load as people say it: metres per kilonewton, or feet per 100 pounds-force. */
import { fromUnit, significant, type UnitSystem } from "../../quantity/index.ts";

/** m/N of one of the unit. */
const SIZE: Readonly<Record<UnitSystem, number>> = {
  metric: 1 / fromUnit(1, "kN", "force", "give"),
  us: fromUnit(1, "ft", "length", "give") / fromUnit(100, "lbf", "force", "give"),
};

export const giveUnit: Readonly<Record<UnitSystem, string>> = { metric: "m per kN", us: "ft per 100 lbf" };
export const giveShown = (give: number, system: UnitSystem): number => give / SIZE[system];
export const giveOf = (shown: number, system: UnitSystem): number => shown * SIZE[system];
export const giveText = (give: number, system: UnitSystem, digits = 2): string =>
  `${significant(giveShown(give, system), digits)} ${giveUnit[system]}`;
