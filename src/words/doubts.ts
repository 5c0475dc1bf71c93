/** Doubts about a pull as sentences: what the answer rests on, and what would make it surer. */
import { formatQuantity, significant, type UnitSystem } from "../quantity/index.ts";
import type { Doubt, LeftOutCause, PaidOutAt } from "../study/index.ts";
import { offsetText, trackApartText } from "./clocks.ts";
import { noEquilibriumLine } from "./no-equilibrium.ts";

/** One line, without a full stop, beginning small. */
export function doubtLine(doubt: Doubt, units: UnitSystem): string {
  const length = (value: number, u?: number) =>
    formatQuantity(value, "length", { system: units, ...(u !== undefined && u > 0 ? { u } : { digits: 3 }) });
  const force = (value: number) => formatQuantity(value, "force", { system: units, digits: 3 });
  switch (doubt.kind) {
    case "noRig":
      return "the pull names no rig: what was read is not carried to the anchor";
    case "rigUnreadable":
      return `the rig of the pull cannot be read: ${doubt.line}`;
    case "deploymentUnreadable":
      return `the pull's own depth, scope or length makes no sense: ${doubt.line}`;
    case "depthUnknown":
      return `no depth was recorded: ${length(doubt.taken, doubt.u)} is taken, from the rig file`;
    case "depthFromLevel":
      return `no depth was recorded: ${length(doubt.taken, doubt.u)} is taken, from ${doubt.soundings === 1 ? "a sounding" : `${doubt.soundings} soundings`} of other pulls here and the level of the day`;
    case "depthDiffers":
      return `the depth recorded, ${length(doubt.recorded)}, is used, not the ${length(doubt.filed)} of the rig file`;
    case "depthOnLand":
      return `the rig hangs in air: the depth recorded, ${length(doubt.recorded)}, is not used`;
    case "lengthUnknown":
      return `neither scope nor length paid out was recorded: ${length(doubt.taken, doubt.u)} is taken, the whole rode of the rig file`;
    case "lengthAndScopeDiffer":
      return `${length(doubt.paidOut)} were recorded as paid out, which is a scope of ${significant(doubt.ofLength, 2)} : 1, and a scope of ${significant(doubt.scope, 3)} : 1: the length is used`;
    case "lengthDiffers":
      return `by what was recorded ${length(doubt.paidOut)} lay out, not the ${length(doubt.filed)} of the rig file: ${partWords(doubt.part)} is taken as shorter`;
    case "longerThanRode":
      return `by what was recorded ${length(doubt.paidOut)} lay out, more than the ${length(doubt.filed)} of the rig file: ${partWords(doubt.part)} is taken as longer`;
    case "veered":
      return `the rode was veered during the pull: carried with the ${length(doubt.paidOut)} out when the load was read, not the ${length(doubt.first)} it began with`;
    case "trackOverVeer":
      return "the rode was veered while the log ran: the boat went back by the rode let out as well, and its track is not looked at";
    case "lineUnknown":
      return `which line was paid out is not recorded: it may have been ${doubt.others.map(partWords).join(" or ")} instead, and the ± covers that`;
    case "trackClockOff":
      return `by load and track the track's clock is off: ${offsetText(doubt.offset)} would have to be added to its times, and it is taken as it stands`;
    case "trackApart":
      return trackApartText(doubt.seconds);
    case "endUnknown":
      return `at which end the load was read is not recorded: the ${doubt.taken} is taken`;
    case "noResult":
      return "neither the record nor a log says what was held";
    case "uncertaintyUnstated":
      return `the load has no uncertainty stated: ${force(doubt.u)} is assumed, 1 %`;
    case "endingContradicts":
      return `the pull ended by ${doubt.ending} and its result says ${resultWords(doubt.result)}`;
    case "resultDiffersFromLog":
      return `the record says ${resultWords(doubt.result.kind)} ${force(doubt.result.newtons)}, its log ${resultWords(doubt.log.kind)} ${force(doubt.log.newtons)}`;
    case "zeroNotFound":
      return "the log has no slack to read its zero from: loads stand as read";
    case "logCannotTell":
      return cannotTellWords[doubt.what];
    case "correctionsUnmatched":
      return `${doubt.count === 1 ? "a correction finds" : `${significant(doubt.count, 3)} corrections find`} no mark any more`;
    case "noEquilibrium":
      return `the rig as it lay does not carry ${force(doubt.newtons)}: ${noEquilibriumLine(doubt.none, units)}`;
    case "cannotMove":
      return `${doubt.input === "line paid out" || doubt.input === "end read" ? `with the other ${doubt.input}` : `a standard uncertainty of ${inputWords(doubt.input)} away`} the rig has no equilibrium${doubt.sides === 1 ? " on one side" : ""}: the ± is less sure`;
  }
}

/** Why a pull is left out of a comparison. */
export function leftOutWords(cause: LeftOutCause): string {
  return {
    noAnchor: "the pull names no anchor",
    noResult: "neither the record nor a log says what was held",
    noLoad: "it never set, and nobody wrote with what load it was pulled",
    noRig: "the load was read at the bow, and without a rig nothing carries it to the anchor",
    noEquilibrium: "the rig as it lay has no equilibrium at that load",
  }[cause];
}

const cannotTellWords: Readonly<Record<Extract<Doubt, { kind: "logCannotTell" }>["what"], string>> = {
  slowPlough:
    "the load alone does not tell whether the anchor ploughed slowly meanwhile: the boat's track beside it would, or a mark by hand",
  fall: "the load alone does not tell whether the anchor gave way or the throttle was cut: the boat's track beside it would, or a mark by hand",
  smallMovement:
    "the track does not tell whether the anchor moved: fixes that wander less, a longer track, the rig or the heading would, or a mark by hand",
};

function partWords(part: PaidOutAt): string {
  return part === "bow" ? "the rode, taken in from the bow," : `part ${part} of the rode`;
}

function resultWords(kind: string): string {
  return kind === "heldTo" ? "it held" : kind === "neverSet" ? "it never set" : "it gave way";
}

function inputWords(
  input: Exclude<Extract<Doubt, { kind: "cannotMove" }>["input"], "line paid out" | "end read">,
): string {
  return {
    load: "the load",
    "mass per length": "mass per length",
    rise: "the rise",
    "length paid out": "the length paid out",
  }[input];
}
