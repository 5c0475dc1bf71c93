/** A surge in words, as a line says what was asked. */
import type { Dimension } from "../quantity/index.ts";
import type { InputsU, Surge } from "../sizing/index.ts";

type Show = (value: number, dimension: Dimension, u?: number) => string;

export function surgeText(surge: Surge, u: InputsU, show: Show): string {
  switch (surge.kind) {
    case "speed":
      return `surging at ${show(surge.speed, "speed", u.speed)}, ${show(surge.mass, "mass", u.mass)} moving`;
    case "distance":
      return `moved ${show(surge.distance, "length", u.distance)} to either side by the sea`;
    case "waves":
      return `in waves that would move her ${show(surge.largest, "length")} at most, ${show(surge.mass, "mass")} moving`;
  }
}
