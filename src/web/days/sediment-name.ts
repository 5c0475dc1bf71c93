/** A grain class in words, with the bounds of its grains: "fine sand, 0.063 to 0.2 mm (ISO 14688-1)". */

import { sedimentClasses } from "../../record/index.ts";
import { significant } from "../controls/numbers.ts";

const STANDARDS: Readonly<Record<string, string>> = { "iso-14688": "ISO 14688-1", wentworth: "Wentworth" };

export function sedimentName(code: string): string {
  const one = sedimentClasses.find((each) => each.code === code);
  const [standard = "", name = code] = code.split(":");
  if (one === undefined) return code;
  const bounds = Number.isFinite(one.below_mm)
    ? one.from_mm === 0
      ? `below ${significant(one.below_mm, 2)} mm`
      : `${significant(one.from_mm, 2)} to ${significant(one.below_mm, 2)} mm`
    : `from ${significant(one.from_mm, 2)} mm`;
  return `${name.replaceAll("-", " ")}, ${bounds} (${STANDARDS[standard] ?? standard})`;
}
