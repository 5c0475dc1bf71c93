/** The text answer of `shock`. */
import { formatQuantity, type UnitSystem } from "../quantity/index.ts";
import type { Shock, ShockQuestion } from "../sizing/index.ts";
import { CAUTION, noEquilibriumLine } from "../words/index.ts";
import { percent, row, type Show, shareLine, sourcesText } from "./shock-lines.ts";
import { mapLines, snubberLines } from "./snubber-text.ts";
import { surgeText } from "./surge-text.ts";
import { textTable } from "./text-table.ts";

export function shockText(question: ShockQuestion, answer: Shock, said: readonly string[], units: UnitSystem): string {
  const show: Show = (value, dimension, digits = 3, u) =>
    formatQuantity(value, dimension, { system: units, digits, ...(u !== undefined && u > 0 ? { u } : {}) });
  const { rig, steady } = question;
  const lines = [
    `${rig.name}, held by ${show(steady.newtons, "force", 4, question.u.load)} ${endText(steady.at)}`,
    "",
    `Give from there on: movement of the bow, and what makes it`,
    giveTable(question, answer, show).trimEnd(),
    ...fadeLines(question, answer, show, units),
    ...snatchLines(question, answer, show),
    ...snubberLines(question, answer, show, units),
    ...(answer.map === undefined ? [] : mapLines(answer.map, units)),
    ...assumedLines(question, answer, said, show),
    "",
    CAUTION,
  ];
  return `${lines.join("\n")}\n`;
}

function giveTable({ steady }: ShockQuestion, { rows }: Shock, show: Show): string {
  const share = (part: number, whole: number) =>
    Math.abs(whole) < 1e-12 ? "" : `${Math.round((100 * part) / whole)} %`;
  return textTable(
    [
      `load ${shortEnd(steady.at)}`,
      "anchor",
      "moved",
      "weight",
      "kellet",
      "rope",
      "chain",
      "other",
      "energy",
      "gives",
      "of weight",
      "stiffness",
    ],
    rows.map(({ settled, give, perLoad, stiffness }) => {
      const { movement, shares } = give;
      const load = steady.at === "horizontal" ? settled.horizontal : settled[steady.at].tension;
      return [
        show(load, "force", 4),
        show(settled.anchor.angle, "angle", 3),
        show(movement, "length"),
        share(shares.lifting.movement, movement),
        share(shares.kellet.movement, movement),
        share(shares.stretchingRope.movement, movement),
        share(shares.stretchingChain.movement, movement),
        share(shares.rest.movement, movement),
        show(give.work, "energy"),
        perLoadText(perLoad.whole, show),
        perLoadText(perLoad.weight, show),
        show(stiffness, "stiffness"),
      ];
    }),
  );
}

/** Give per load as the trade says it: to a kilonewton, or to a hundred pounds. */
function perLoadText(give: number, show: Show): string {
  const pounds = show(1, "force", 1).endsWith("lbf");
  return pounds ? `${show(give * 444.82216152605, "length")}/100 lbf` : `${show(give * 1000, "length")}/kN`;
}

function fadeLines(question: ShockQuestion, { fade }: Shock, show: Show, units: UnitSystem): string[] {
  const asked = question.fade;
  if (fade === undefined || asked === undefined) return [];
  const what =
    asked.ask === "perLoad"
      ? perLoadText(asked.give, show)
      : `${Math.round(100 * asked.share)} % of ${show(asked.need, "length")} up to ${show(asked.upTo, "force")}`;
  const head = ["", `Catenary, asked for ${what}`];
  const { fade: found, certain } = fade;
  switch (found.kind) {
    case "fades": {
      const load = asked.at === "horizontal" ? found.settled.horizontal : found.settled[asked.at].tension;
      return [
        ...head,
        row(
          "gives less past",
          `${show(load, "force", 4, certain?.u ?? undefined)} ${endText(asked.at)}, ${show(found.settled.anchor.angle, "angle")} at the anchor`,
        ),
        ...shareLine(certain),
      ];
    }
    case "neverEnough":
      return [
        ...head,
        row("gives less", `at every load from ${show(found.from, "force")} to ${show(found.to, "force")}, horizontal`),
      ];
    case "alwaysEnough":
      return [
        ...head,
        row("gives that", `at every load from ${show(found.from, "force")} to ${show(found.to, "force")}, horizontal`),
      ];
    case "noEquilibrium":
      return [...head, row("cannot be told", noEquilibriumLine(found, units))];
  }
}

function snatchLines({ surge, rig, u }: ShockQuestion, { snatch }: Shock, show: Show): string[] {
  if (snatch === undefined || surge === undefined) return [];
  const made = surgeText(surge, u, (value, dimension, own) => show(value, dimension, 3, own));
  const head = ["", `Snatch, ${made}`];
  const { answer, certain } = snatch;
  if (answer.kind === "notTaken") return [...head, row("never taken", "the rode would part first")];
  const worst = answer.loads.reduce(
    (most, load, i) => {
      const limit = rig.rode[i]!.workingLoad;
      return limit !== undefined && load / limit > most.share ? { share: load / limit, i } : most;
    },
    { share: 0, i: -1 },
  );
  return [
    ...head,
    row(
      "peak at the bow",
      `${show(answer.ridden.bow, "force", 4, certain?.u ?? undefined)}, at the anchor ${show(answer.ridden.anchor, "force", 3)} at ${show(answer.ridden.anchorAngle, "angle")}`,
    ),
    ...shareLine(certain),
    row("moved", show(answer.ridden.moved, "length")),
    row("at rest, that load", sourcesText(answer.give)),
    row(
      "by energy alone",
      `${answer.byEnergy === null ? "never taken" : show(answer.byEnergy, "force", 3)}: the rode a spring without drag or mass of its own`,
    ),
    ...(worst.i < 0
      ? []
      : [
          row(
            "most of a limit",
            `${percent(worst.share)} of the working load limit of part ${worst.i + 1}, ${rig.rode[worst.i]!.name}`,
          ),
        ]),
  ];
}

function assumedLines(question: ShockQuestion, answer: Shock, said: readonly string[], show: Show): string[] {
  const all = [...said];
  const { snubber, u, rig } = question;
  const ropes = rig.rode.some((part) => part.kind === "line" && part.material !== "chain" && part.material !== "wire");
  if (ropes && (u.stretch ?? 0) > 0 && answer.snatch !== undefined)
    all.push(`stretch of the rig's ropes to ${percent(u.stretch!)}`);
  if (answer.snatch !== undefined)
    all.push("a short run in time, the boat without drag of her own, the rode with its own");
  if (snubber !== undefined) {
    const { limits } = snubber;
    all.push(
      `limits: ${percent(limits.ropeShare!)} of the rope's strength in use, ${percent(limits.workingLoadShare!)} of working load limits, ${percent(limits.loopShare!)} of the peak in the loop`,
    );
    all.push("rope wet and worked in");
    if (snubber.period !== undefined) all.push(`a cycle each ${show(snubber.period, "time")}`);
  }
  return all.length === 0 ? [] : ["", `Assumed: ${all.join("; ")}`];
}

function endText(at: "anchor" | "bow" | "horizontal"): string {
  return at === "horizontal" ? "horizontal at the bow" : `at the ${at}`;
}

function shortEnd(at: "anchor" | "bow" | "horizontal"): string {
  return at === "horizontal" ? "horizontal" : `at ${at}`;
}
