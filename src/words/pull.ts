/** What a pull's log came to. */
import type { HoldRuleOfPulls } from "../holding/index.ts";
import type { TraceReduction, TraceWords, Zero } from "../pull/index.ts";
import { formatQuantity, significant, type UnitSystem } from "../quantity/index.ts";
import type { HoldRule } from "../study/index.ts";
import { durationText } from "./counts.ts";

/** A load as the reader has it, with its ±. */
export type Force = (newtons: number, u?: number) => string;

/** The zero of a cell and its drift, as text. */
export function zeroText(zero: Zero, force: Force, words: TraceWords): string {
  if (zero.kind === "notFound") return `not found (${words.noZero(zero.why)}); loads stand as read`;
  if (zero.kind === "fixed")
    return `${force(zero.slack.mean, zero.slack.u)} in the slack ${zero.side} the pull; its drift is not known`;
  return `${force(zero.before.mean, zero.before.u)} before the pull, ${force(zero.after.mean, zero.after.u)} after: drifting ${force(60 * zero.rate.value, 60 * zero.rate.u)} a minute`;
}

/** What was held, as a sentence, and what the log leaves open. */
export function heldText(held: TraceReduction["held"], force: Force, words: TraceWords): string {
  const open = held.untold === null ? "" : `. ${untoldWords[held.untold]}`;
  const why = words.held(held.why);
  if (held.kind === "notKnown") return `Held load: not known; ${why}${open}`;
  const found = held.kind === "gaveWay" ? "It gave way at" : "It held at least";
  return `${found} ${force(held.newtons, held.u)}, read at the ${held.at}: ${why}${open}`;
}

/**
 * The rule by which a load counted as held, as a sentence without its full stop.
 * @param rule s and m; whether a track told the anchor's movement
 */
export function holdRuleText(
  { heldFor, heldWithin, tracked }: HoldRule & { readonly tracked: boolean },
  system: UnitSystem,
): string {
  const moved = tracked ? `, ${stillText(heldWithin, system)} (95 %)` : "; no track told its movement";
  return `Judged by the hold rule: ${keptText(heldFor, system)}${moved}`;
}

/** The hold rule of a plan, as a sentence without its full stop. */
export function holdRuleLine({ heldFor, heldWithin }: HoldRule, system: UnitSystem): string {
  return `A load counts as held when ${keptText(heldFor, system)}, ${stillText(heldWithin, system)}`;
}

/**
 * The same, and what is to be said where each load is held for less than the rule asks: whole sentences.
 * @param plan how long each load is held, s, and the rule
 */
export function planHoldLines(
  { hold, holdRule }: { readonly hold: number; readonly holdRule: HoldRule },
  system: UnitSystem,
): string[] {
  const rule = `${holdRuleLine(holdRule, system)}.`;
  if (hold >= holdRule.heldFor) return [rule];
  const asked = durationText(holdRule.heldFor);
  return [
    rule,
    `Each load is to be held for ${durationText(hold)}, and the hold rule asks for ${asked}: none would count as held.`,
  ];
}

/** That pulls were judged by different hold rules, as a sentence without its full stop; null where by one, or none is told. */
export function holdRulesLine(rules: readonly HoldRuleOfPulls[], system: UnitSystem): string | null {
  if (rules.length < 2) return null;
  const each = rules.map(
    ({ pulls, heldFor, heldWithin }) => `${pulls} ${keptText(heldFor, system)}, ${stillText(heldWithin, system)}`,
  );
  return `The pulls were judged by different hold rules: ${each.join("; ")}. The longer a load is to be held, or the less the anchor is to move, the less it holds`;
}

const keptText = (heldFor: number, system: UnitSystem): string =>
  `kept for ${formatQuantity(heldFor, "time", { system, digits: 3 })} or longer`;
const stillText = (heldWithin: number, system: UnitSystem): string =>
  `the anchor moving by less than ${formatQuantity(heldWithin, "length", { system, digits: 2 })} meanwhile`;

/**
 * When the anchor first moved, as a sentence without its full stop.
 * @param at a time of the log as its reader has it, such as `151.0 s`
 */
export function firstMovementText(
  first: TraceReduction["first"],
  at: (seconds: number) => string,
  system: UnitSystem,
): string {
  const missed = (unseen: number): string =>
    `one of less than ${formatQuantity(unseen, "length", { system, digits: 2 })} in half a minute may have been missed`;
  switch (first.kind) {
    case "moved":
      return first.by === "hand"
        ? `First movement: at ${at(first.at.value)}, as marked by hand`
        : `First movement: at ${at(first.at.value)} ± ${significant(first.at.u, 2)} s, by load and track together${first.unseen === null ? "" : `; an earlier ${missed(first.unseen)}`}`;
    case "none":
      return `First movement: none seen; ${missed(first.unseen)}`;
    case "notKnown": {
      const why = {
        noTrack: "without the boat's track",
        noLine: "where the boat's movement does not show the line of the pull",
      }[first.why];
      const fell =
        first.fell === null ? "" : `; the load first fell as it does when an anchor goes at ${at(first.fell)}`;
      return `First movement: cannot be told ${why}${fell}`;
    }
  }
}

/** What a log cannot tell, and what would tell it. */
export const untoldWords: Readonly<Record<NonNullable<TraceReduction["held"]["untold"]>, string>> = {
  slowPlough:
    "Cannot be told from the load alone: whether the anchor ploughed slowly meanwhile; the boat's track beside it would tell, or a mark by hand",
  fall: "Cannot be told from the load alone: whether the anchor gave way or the throttle was cut; the boat's track beside it would tell, or a mark by hand",
  smallMovement:
    "Fixes that wander less, a longer track, the rig of the pull or the boat's heading beside it would tell, or a mark by hand",
};
