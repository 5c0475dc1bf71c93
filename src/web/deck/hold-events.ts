/** What a hold of a pull under way is judged from: its own rule, and all that happened by one clock. */
import { type HoldEvent, type HoldRule, usualHoldRule } from "../../study/index.ts";
import { fixesOf, type LiveReading } from "./live/reading.ts";
import { type DeckPull, standing } from "./pull.ts";

/** The hold rule of a pull: its own, where it states one. */
export const ruleOf = ({ heldFor, heldWithin }: Pick<DeckPull, "heldFor" | "heldWithin">): HoldRule => ({
  heldFor: heldFor ?? usualHoldRule.heldFor,
  heldWithin: heldWithin ?? usualHoldRule.heldWithin,
});

/** What happened, with the places of the boat, by this device's clock, s. */
export function holdEvents(pull: Pick<DeckPull, "events">, rows: readonly LiveReading[]): HoldEvent[] {
  const places = rows.flatMap((row): HoldEvent[] => {
    const at = row.at / 1000;
    return fixesOf([row]).map((fix) => ({ kind: "place", at, fix: { ...fix, time: at } }));
  });
  const happened = standing(pull).flatMap((one): HoldEvent[] => {
    const at = one.at / 1000;
    if (one.kind === "load") return [{ kind: "load", at, newtons: one.newtons }];
    return one.kind === "step" || one.kind === "gaveWay" || one.kind === "moved" ? [{ kind: one.kind, at }] : [];
  });
  return [...happened, ...places].sort((a, b) => a.at - b.at);
}
