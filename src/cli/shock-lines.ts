/** Lines that more than one part of `shock`'s text is made of. */
import type { Dimension } from "../quantity/index.ts";
import type { Certain, Give } from "../sizing/index.ts";
import { wrapped } from "./text-table.ts";

/** A value in the system shown, to so many digits, or to its uncertainty. */
export type Show = (value: number, dimension: Dimension, digits?: number, u?: number) => string;

/** What the movement came from. */
export function sourcesText({ shares, movement }: Give): string {
  const told: [string, number][] = [
    ["weight", shares.lifting.movement],
    ["kellet", shares.kellet.movement],
    ["stretch of rope", shares.stretchingRope.movement],
    ["stretch of chain", shares.stretchingChain.movement],
    ["friction and current", shares.rest.movement],
  ];
  return told
    .filter(([, part]) => Math.abs(part) >= 0.005 * Math.abs(movement))
    .map(([name, part]) => `${percent(part / movement)} ${name}`)
    .join(", ");
}

/** Where the ± comes from. */
export function shareLine(certain: Certain | null): string[] {
  if (certain === null) return [];
  if (certain.u === null)
    return [row("±", `not known: beside the estimate of ${certain.cannotMove ?? "the rig"} there is no answer`)];
  const told = certain.shares.filter(({ share }) => share >= 0.005).sort((a, b) => b.share - a.share);
  return told.length === 0
    ? []
    : [row("± comes from", told.map(({ name, share }) => `${name} ${percent(share)}`).join(", "))];
}

export function percent(share: number): string {
  return `${Math.round(100 * share)} %`;
}

export function row(label: string, text: string): string {
  return wrapped(`${label.padEnd(20)} ${text}`, 2, 23);
}
