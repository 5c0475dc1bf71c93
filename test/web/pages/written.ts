/** Numbers as the bench writes them beside a name. */
import { type Dimension, formatQuantity } from "../../../src/quantity/index.ts";

/** The unit by the value, the ± after it: "4.20°± 0.20°"; without ± so many digits. */
export function written(value: number, dimension: Dimension, u?: number, digits = 3, ofField?: string): string {
  const inUnit = ofField === undefined ? {} : { unit: ofField };
  if (u === undefined || !(u > 0)) return formatQuantity(value, dimension, { digits, ...inUnit });
  const [whole, spread] = formatQuantity(value, dimension, { u, ...inUnit }).split(" ± ");
  const unit = spread!.replace(/^\S+?(?=°|$| )/, "");
  return `${whole!.replace("°", "")}${unit}± ${spread}`;
}
