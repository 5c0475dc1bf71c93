import type { Dimension } from "../../quantity/index.ts";
import { durationText } from "../../words/index.ts";
import type { DeckStep } from "./pull.ts";

/** What is to be done in a step. @param asked N at the bow */
export function stepText(
  step: DeckStep | undefined,
  asked: number | null,
  show: (value: number, dimension: Dimension) => string,
): string {
  if (step === undefined || step.kind === "set") return "set the anchor";
  if (step.kind === "veer")
    return `ease off, then veer${step.paidOut === undefined ? "" : ` to ${show(step.paidOut, "length")} out`}`;
  if (step.kind === "reset") return "ease off, break the anchor out and set it anew";
  const atBow = asked === null ? "" : `, ${show(asked, "force")} at the bow`;
  return `raise to ${show(step.load ?? 0, "force")} at the anchor${atBow}, hold ${durationText(step.hold)}`;
}
