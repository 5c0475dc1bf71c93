/** Snubbers in the text of `shock`: one tried, and the map of many. */
import { formatQuantity, roundToUncertainty, type UnitSystem } from "../quantity/index.ts";
import { REASONS, type Reason, reasonsOf, type Shock, type ShockQuestion, type SnubberMap } from "../sizing/index.ts";
import { cannotBeRigged, snubberReasonWords } from "../words/index.ts";
import { percent, row, type Show, shareLine, sourcesText } from "./shock-lines.ts";

export function snubberLines({ snubber }: ShockQuestion, answer: Shock, show: Show, units: UnitSystem): string[] {
  if (answer.snubber === undefined || snubber?.size === undefined) return [];
  const { answer: found, certain } = answer.snubber;
  const { size, kind } = snubber;
  const what = `${kind.bridle === undefined ? "Snubber" : "Bridle"} of ${show(size.length, "length")}, ${thick(size.diameter, units)} ${snubber.fibre} ${snubber.lay}`;
  if (found.kind === "notSnubbed") return ["", what, row("cannot be rigged", cannotBeRigged[found.why])];
  if (found.kind === "notTaken") return ["", what, row("never taken", snubberReasonWords.notTaken.long)];
  const { loads, atPeak, snatch, heat, cutNew, snubbed, verdict } = found;
  const legs = atPeak.legs.map((leg) => show(leg, "force", 4)).join(" and ");
  return [
    "",
    `${what}${snubbed.rope.from === "scaled" ? " (between the catalogue's sizes)" : ""}`,
    row(
      "peak at the bow",
      `${show(loads.peak, "force", 4, certain?.u ?? undefined)}, ${show(loads.anchorAngle, "angle")} at the anchor`,
    ),
    ...shareLine(certain),
    row("moved", `${show(snatch.give.movement, "length")}, ${sourcesText(snatch.give)}`),
    row(
      snubbed.bridle === undefined ? "rope" : "legs",
      `${legs}, ${percent(loads.ropeShare)} of its strength in use (wet, ${snubber.ends})`,
    ),
    ...(snubbed.loop === undefined
      ? []
      : [row("chain loop", `${show(snubbed.loop.length, "length")}, takes ${percent(loads.loopShare)} of the peak`)]),
    ...(loads.workingLoadShare > 0
      ? [row("chain and fittings", `${percent(loads.workingLoadShare)} of a working load limit at most`)]
      : []),
    row(
      "heat",
      `${show(heat.perCycle.value, "energy", 3, heat.perCycle.u)} a cycle, ${kelvin(heat.risePerCycle)} if it stayed${heat.steadyCore === undefined ? "" : `; worked for long, ${kelvin(heat.steadyCore)} in the middle`}`,
    ),
    row(
      "cut from new rope",
      `${show(cutNew.value, "length", 3, cutNew.u)}${snubbed.bridle === undefined ? "" : " a leg"}, which works in to ${show(size.length, "length")}`,
    ),
    row(
      "verdict",
      verdict.reason === "within"
        ? snubberReasonWords.within.long
        : reasonsOf(verdict.mask)
            .map((reason) => snubberReasonWords[reason].long)
            .join("; "),
    ),
  ];
}

const LETTERS: Record<Reason, string> = {
  within: "·",
  unriggable: "-",
  notTaken: "!",
  peak: "p",
  rope: "r",
  gear: "g",
  hook: "h",
  cleat: "c",
  anchorAngle: "a",
  loop: "b",
};

export function mapLines(map: SnubberMap, units: UnitSystem): string[] {
  const long = units === "us" ? "ft" : "m";
  const at = (value: number, unit: string) => formatQuantity(value, "length", { unit, digits: 3 });
  const seen = new Set<Reason>();
  const rows = Array.from(map.diameters, (diameter, j) => {
    const letters = Array.from(map.lengths, (_, i) => {
      const reason = REASONS[map.reason[j * map.lengths.length + i]!]!;
      seen.add(reason);
      return LETTERS[reason];
    });
    return `${thick(diameter, units).padStart(10)}  ${letters.join(" ")}`;
  });
  const [first, last] = [map.lengths[0]!, map.lengths.at(-1)!];
  const step = map.lengths.length > 1 ? `, by ${at(map.lengths[1]! - first, long)}` : "";
  return [
    "",
    `Snubbers, diameter down, length across from ${at(first, long)} to ${at(last, long)}${step}`,
    ...rows,
    ...REASONS.filter((reason) => seen.has(reason)).map(
      (reason) => `  ${LETTERS[reason]}  ${snubberReasonWords[reason].long}`,
    ),
  ];
}

/** A rise of temperature, rounded to its ±; one too small to feel is told as such. */
function kelvin({ value, u }: { value: number; u: number }): string {
  if (value < 0.01) return "under 0.01 K";
  const rounded = roundToUncertainty(value, u);
  return `${rounded.value} ± ${rounded.u} K`;
}

/** A diameter in the unit ropes are sold by. */
function thick(diameter: number, units: UnitSystem): string {
  return formatQuantity(diameter, "length", { unit: units === "us" ? "in" : "mm", digits: 3 });
}
