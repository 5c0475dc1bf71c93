/** A ride in words and columns. */
import type { Extreme, Extremes, Ride, RideAnswer } from "../motion/index.ts";
import { type Dimension, formatQuantity, type UnitSystem } from "../quantity/index.ts";
import { rideHeat } from "../sizing/index.ts";
import { brokeOffWords, CAUTION } from "../words/index.ts";
import { wrapped } from "./text-table.ts";

export function rideText(
  ride: Ride,
  answer: RideAnswer,
  windageU: number,
  stopped: boolean,
  units: UnitSystem,
  speeds?: string,
): string {
  const { question } = ride;
  const show = (value: number, dimension: Dimension, u?: number): string =>
    formatQuantity(value, dimension, { system: units, ...(u === undefined || !(u > 0) ? {} : { u }) });
  /** Three figures: one drawing of gusts and waves says no more. */
  const rough = (value: number, dimension: Dimension): string =>
    formatQuantity(value, dimension, { system: units, digits: 3 });
  const angle = (value: number): string => formatQuantity(value, "angle", { system: units, digits: 2 });
  const percent = (share: number): string => `${(100 * share).toFixed(share < 0.1 ? 1 : 0)} %`;
  const first = question.wind[0]!;
  const minutes = Math.round(answer.seconds / 60);
  const lines = [
    `${question.rig.name}, ${question.boat.name}: mean wind ${formatQuantity(first.speed, "speed", { system: units, ...(speeds === undefined ? {} : { unit: speeds }) })}, ${question.measuredWind ? "as it was measured" : question.gusts === null ? "no gusts" : `gusts by ${question.gusts.kind}`}, ${question.sea === null ? "no sea" : `a sea of ${show(question.sea.significantHeight, "length")}, ${question.sea.peakPeriod} s`}; ${minutes} min ridden, seed ${question.seed}`,
  ];
  if (stopped) lines.push(`stopped by hand: asked for ${Math.round(question.duration / 60)} min`);
  if (answer.brokeOffAt !== null) lines.push(`broke off: ${brokeOffWords(answer.brokeOffAt)}`);
  const row = (name: string, text: string): void => {
    lines.push(wrapped(`${name.padEnd(22)}${text}`, 0, 22));
  };
  lines.push("");
  for (const [name, s, e] of [
    ["at the bow", answer.bow, answer.bowExtremes],
    ["at the anchor", answer.anchor, answer.anchorExtremes],
  ] as const) {
    row(
      name,
      `mean ${show(s.mean, "force", s.u)}, scatter ${rough(s.deviation, "force")}, largest ${rough(s.largest, "force")}`,
    );
    row("", stormText(e, show, rough));
  }
  row(
    "angle at the anchor",
    `largest ${angle(answer.angle.largest)}; at the largest load ${angle(answer.angleAtLargest)}`,
  );
  row("anchor's end lifted", `${percent(answer.liftedShare)} of the time`);
  row(
    "sheering",
    `${angle(answer.sheer)} either side at most, ${rough(answer.sideways, "length")} sideways; ${rough(answer.circle, "length")} from the anchor at most`,
  );
  for (const { name, heat, power } of rideHeat(ride))
    row("heat in the rope", `${show(heat.value, "energy", heat.u)}, ${power.toPrecision(2)} W on average: ${name}`);
  row("snatches", `${answer.snatches}: slack, then taut beyond the mean`);
  if (answer.atRest !== null && answer.overStill !== null) {
    row(
      "at rest, same mean",
      `${rough(answer.atRest.bow.tension, "force")} at the bow, ${angle(answer.atRest.anchor.angleToBottom)} at the anchor`,
    );
    row("", `the largest load at the bow is ${answer.overStill.bow.toPrecision(2)} times that`);
  }
  const over = question.rig.rode.flatMap((part, i) =>
    part.workingLoad !== undefined && ride.highest[i]! > part.workingLoad
      ? [
          `part ${i + 1}, ${part.name}: ${rough(ride.highest[i]!, "force")} is past its working load limit of ${show(part.workingLoad, "force")}`,
        ]
      : [],
  );
  for (const text of over) row("overloaded", text);
  lines.push(
    "",
    `± is that of one drawing of gusts and waves this long. The boat's windage is known to ${percent(windageU)}: all mean loads rise and fall with it.`,
    CAUTION,
  );
  return `${lines.join("\n")}\n`;
}

function stormText(
  e: Extremes | null,
  show: (value: number, dimension: Dimension, u?: number) => string,
  rough: (value: number, dimension: Dimension) => string,
): string {
  if (e === null) return "too few peaks for a largest load of a storm; ride longer";
  const value = ({ value, u }: Extreme): string => show(value, "force", u);
  return `in ${e.storm / 3600} h most likely ${value(e.mostProbable)}, nine times in ten below ${value(e.ninety)} (${e.fit.peaks} peaks above ${rough(e.fit.threshold, "force")})`;
}
