/** Why a mark was made, what was held and what the anchor did, as clauses: no full stop, beginning small. */
import type { HeldLoad, MarkCause, OpenStretch, Reversal, TraceWords } from "../pull/index.ts";
import { DEGREES, formatQuantity, significant, type UnitSystem } from "../quantity/index.ts";

/**
 * Everything a reduced trace says, in one system of units.
 * @param at a time of the log as its reader has it, such as `151.0 s`
 */
export function traceWords(system: UnitSystem, at: (seconds: number) => string = secondsText): TraceWords {
  const mark = (why: MarkCause): string => markCauseWords(why, system);
  return {
    mark,
    held: (why) => heldWords(why, system, at),
    noZero(why) {
      switch (why.kind) {
        case "unchanging":
          return "the load does not change";
        case "neverSlack":
          return `the lowest load is ${percent(why.share)} of the highest: not taken for slack`;
        case "tooShort":
          return `no slack stretch of ${why.shortest} s before or after the pull`;
      }
    },
    noSet: (why) =>
      ({
        noTrack: "no track was logged",
        nothingHeld: "no load was held",
        noLine: "the boat's movement does not show the line of the pull",
      })[why],
    reversal: ({ why, outcome }) => `${mark(why)}${outcomeWords(outcome)}`,
  };
}

const secondsText = (seconds: number): string => `${seconds.toFixed(1)} s`;

/** Why a mark was made. */
export function markCauseWords(why: MarkCause, system: UnitSystem): string {
  switch (why.kind) {
    case "slack":
      return "the load is all but gone";
    case "flat":
      return `flat for ${why.seconds.toFixed(1)} s, changing by ${significant(100 * why.perMinute, 2)} % a minute`;
    case "peak":
      return "rises and falls clear of both sides";
    case "standsAlone":
      return `stands alone, ${Math.round(why.times)} times the noise from its neighbours${why.slowLog ? "; at this rate of the log a glitch and a short peak look alike" : ""}`;
    case "fellAndWent":
      return `${fell(why)}${clear(why.clear)}, and the anchor went`;
    case "fellUntracked":
      return `${fell(why)}${clear(why.clear)}; no track to tell it from an easing`;
    case "fellAndStayed":
      return `${fell(why)}, and nothing shows that the anchor went`;
    case "fellInPart":
      return `${fell(why)}, as part of a slower fall`;
    case "fellToSlack":
      return `${fell(why)} to slack and stayed there`;
    case "fellSlowly":
      return `${fell(why)}: slower than ${why.longest} s`;
    case "ploughed":
      return `the anchor ploughed for ${Math.round(why.seconds)} s at ${formatQuantity(why.speed, "speed", { system, digits: 2 })}, by load and track together`;
    case "went":
      return `the anchor went, by load and track together, ${significant(why.times, 2)} times the ± of its place`;
    case "turned":
      return `the pull turned by ${Math.round(why.angle * DEGREES)} degrees`;
    case "byHand":
      return "marked by hand";
    case "byHandMeanBefore":
      return `marked by hand as a drag; the mean load of the ${why.seconds} s before`;
    case "written":
      return why.text;
  }
}

const fell = ({ share, seconds }: { readonly share: number; readonly seconds: number }): string =>
  `load fell ${percent(share)} in ${seconds.toFixed(1)} s`;

const clear = (times: number | null): string => (times === null ? "" : `, ${significant(times, 2)} times the scatter`);

function heldWords(why: HeldLoad["why"], system: UnitSystem, at: (seconds: number) => string): string {
  const length = (metres: number, u?: number): string =>
    formatQuantity(metres, "length", { system, ...(u === undefined || !(u > 0) ? { digits: 2 } : { u }) });
  const whether = ({ from, seconds, way }: OpenStretch, held: string): string =>
    `whether it held ${held}for ${Math.round(seconds)} s from ${at(from)} on${held === "" ? "" : ","} cannot be told: by the track the anchor went ${length(way.value, way.u)}`;
  const beyond = (open: OpenStretch | null): string => (open === null ? "" : `; ${whether(open, "longer at more, ")}`);
  switch (why.kind) {
    case "held": {
      const moving = why.most === null ? "" : `, the anchor moving less than ${length(why.most)} (95 %)`;
      const rule = why.rule === null ? "" : `: more than the ${length(why.rule)} of the hold rule`;
      return `held for ${Math.round(why.seconds)} s${moving}${rule}${why.gaveWayAtLess ? "; it had given way at less" : ""}${beyond(why.open)}`;
    }
    case "heldThenGaveWay":
      return `held for ${Math.round(why.seconds)} s; then ${markCauseWords(why.drag, system)}`;
    case "gaveWay":
      return `${markCauseWords(why.drag, system)}${beyond(why.open)}`;
    case "open":
      return whether(why.open, "");
    case "nothingHeld":
      return `no load was held for ${why.heldFor} s, and nothing shows that the anchor gave way`;
  }
}

function outcomeWords(outcome: Reversal["outcome"]): string {
  if (outcome.kind === "notTried") return "";
  if (outcome.kind === "reset") return `; then held ${percent(outcome.share)} of what it held before`;
  const held = outcome.share > 0 ? `no more than ${percent(outcome.share)} of what it held before` : "nothing";
  return `; then held ${held}${outcome.gaveWay ? " and gave way" : ""}`;
}

function percent(share: number): string {
  const p = 100 * share;
  return `${Math.abs(p) >= 10 ? Math.round(p) : Number(p.toPrecision(2))} %`;
}
