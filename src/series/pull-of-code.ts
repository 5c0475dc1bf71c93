import type { PlannedPull, SeriesPlan } from "./plan.ts";
import { type CodeTrouble, readPullCode } from "./pull-code.ts";
import { signOf } from "./series.ts";

/** The pull of a plan that a code stands for, or why it stands for none. */
export function pullOfCode(
  { series, pulls }: SeriesPlan,
  text: string,
): { readonly kind: "pull"; readonly pull: PlannedPull } | CodeTrouble {
  const read = readPullCode(signOf(series), text);
  if (read.kind !== "read") return read;
  const pull = pulls.find(({ number }) => number === read.number);
  return pull === undefined ? { kind: "noSuchPull", number: read.number, pulls: pulls.length } : { kind: "pull", pull };
}
