import { significant } from "../../../quantity/index.ts";
import type { Bounds } from "../kinds.ts";
import type { Of } from "./framed.tsx";
import { Typed } from "./typed.tsx";

/** A number that has one unit everywhere: degrees, a count. @returns the number, null for nothing, or what is wrong */
function numberTyped(text: string, label: string, bounds: Bounds, whole: boolean): number | null | string {
  const plain = text
    .trim()
    .replace(/[°\s]*$/, "")
    .replace(/\s*:\s*1$/, "");
  if (plain === "") return null;
  const value = /^[+-]?(\d+\.?\d*|\.\d+)$/.test(plain) ? Number(plain) : Number.NaN;
  const fits =
    (bounds.least === undefined || value >= bounds.least) &&
    (bounds.most === undefined || value <= bounds.most) &&
    (!whole || Number.isInteger(value));
  return fits ? value : `${label}: "${text.trim()}"; ${bounds.expected}`;
}

/** A count, a direction, a scope. */
export function NumberField(props: Of<"number">) {
  const { field, value } = props;
  return (
    <Typed
      {...props}
      shown={typeof value === "number" ? significant(value, 6) : ""}
      unit={field.unit}
      read={(text) => numberTyped(text, field.label, field.bounds, field.whole === true)}
    />
  );
}
