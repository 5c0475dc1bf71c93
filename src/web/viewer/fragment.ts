/** A viewer's numbers behind the # of the page's address, which no browser sends to a server. */
import { type ChoiceName, QUANTITIES, type QuantityName, type Typed } from "./fields.ts";

const CHOICES: readonly ChoiceName[] = ["setup", "chain", "rope", "boat", "anchor", "seabed"];
const NAMES: readonly (QuantityName | ChoiceName | "units")[] = [
  "units",
  ...(Object.keys(QUANTITIES) as QuantityName[]),
  ...CHOICES,
];
/** Nothing that anybody types is longer. */
const LONGEST = 200;

export function typedOf(fragment: string): Typed {
  const given = new URLSearchParams(fragment.replace(/^#/, ""));
  return Object.fromEntries(
    NAMES.flatMap((name) => {
      const text = given.get(name);
      return text === null || text.length > LONGEST ? [] : [[name, text]];
    }),
  );
}

export function fragmentOf(typed: Typed): string {
  const fields = new URLSearchParams();
  for (const name of NAMES) {
    const text = typed[name];
    if (text !== undefined) fields.set(name, text);
  }
  return fields.size === 0 ? "" : `#${fields}`;
}
