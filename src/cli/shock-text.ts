/** The text answer of `shock`. */
import { type Dimension, formatQuantity, type UnitSystem } from "../quantity/index.ts";
import {
  type Certain,
  type Give,
  REASONS,
  type Reason,
  reasonsOf,
  type Shock,
  type ShockQuestion,
  type SnubberMap,
} from "../sizing/index.ts";
import { CAUTION } from "./settled-text.ts";
import { textTable } from "./text-table.ts";

type Show = (value: number, dimension: Dimension, digits?: number, u?: number) => string;

export function shockText(question: ShockQuestion, answer: Shock, said: readonly string[], units: UnitSystem): string {
  const show: Show = (value, dimension, digits = 3, u) =>
    formatQuantity(value, dimension, { system: units, digits, ...(u !== undefined && u > 0 ? { u } : {}) });
  const { rig, steady } = question;
  const lines = [
    `${rig.name}, held by ${show(steady.newtons, "force", 4, question.u.load)} ${endText(steady.at)}`,
    "",
    `Give from there on: movement of the bow, and what makes it`,
    giveTable(question, answer, show).trimEnd(),
    ...fadeLines(question, answer, show),
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

function fadeLines(question: ShockQuestion, { fade }: Shock, show: Show): string[] {
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
          `${show(load, "force", 4, certain?.u)} ${endText(asked.at)}, ${show(found.settled.anchor.angle, "angle")} at the anchor`,
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
      return [...head, row("cannot be told", found.why)];
  }
}

function snatchLines({ surge, rig, u }: ShockQuestion, { snatch }: Shock, show: Show): string[] {
  if (snatch === undefined || surge === undefined) return [];
  const made =
    surge.kind === "speed"
      ? `surging at ${show(surge.speed, "speed", 3, u.speed)}, ${show(surge.mass, "mass", 3, u.mass)} moving`
      : `moved ${show(surge.distance, "length", 3, u.distance)} by the sea`;
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
      `${show(answer.peak.bow.tension, "force", 4, certain?.u)}, at the anchor ${show(answer.peak.anchor.tension, "force", 4)} at ${show(answer.peak.anchor.angle, "angle")}`,
    ),
    ...shareLine(certain),
    row("moved", `${show(answer.give.movement, "length")}, ${sourcesText(answer.give)}`),
    row(
      "energy",
      `${show(answer.surging, "energy")} of the surge, ${show(answer.pushed, "energy")} of the steady load`,
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

function snubberLines({ snubber }: ShockQuestion, answer: Shock, show: Show, units: UnitSystem): string[] {
  if (answer.snubber === undefined || snubber?.size === undefined) return [];
  const { answer: found, certain } = answer.snubber;
  const { size, kind } = snubber;
  const what = `${kind.bridle === undefined ? "Snubber" : "Bridle"} of ${show(size.length, "length")}, ${thick(size.diameter, units)} ${snubber.fibre} ${snubber.lay}`;
  if (found.kind === "notSnubbed") return ["", what, row("cannot be rigged", CANNOT[found.why])];
  if (found.kind === "notTaken") return ["", what, row("never taken", "rope or rode would part first")];
  const { loads, atPeak, snatch, heat, cutNew, snubbed, verdict } = found;
  const legs = atPeak.legs.map((leg) => show(leg, "force", 4)).join(" and ");
  return [
    "",
    `${what}${snubbed.rope.from === "scaled" ? " (between the catalogue's sizes)" : ""}`,
    row(
      "peak at the bow",
      `${show(loads.peak, "force", 4, certain?.u)}, ${show(loads.anchorAngle, "angle")} at the anchor`,
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
        ? "within the limits"
        : `past ${reasonsOf(verdict.mask)
            .map((reason) => WORDS[reason])
            .join(", ")}`,
    ),
  ];
}

const CANNOT = {
  noChain: "the rode has no line to hook on to",
  tooLong: "rope and loop take more of the rode than there is",
  legsTooShort: "the legs do not meet between the cleats",
} as const;

const WORDS: Record<Reason, string> = {
  within: "nothing",
  unriggable: "what can be rigged",
  notTaken: "what rope and rode can take",
  peak: "the limit at the bow",
  rope: "the share of the rope's strength",
  gear: "the working load limits of chain and fittings",
  hook: "the hook's working load limit",
  cleat: "the cleat's working load limit",
  anchorAngle: "the angle at the anchor",
  loop: "the loop's share: it has bottomed out",
};

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

function mapLines(map: SnubberMap, units: UnitSystem): string[] {
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
      (reason) => `  ${LETTERS[reason]}  ${reason === "within" ? "within the limits" : `past ${WORDS[reason]}`}`,
    ),
  ];
}

function assumedLines(question: ShockQuestion, answer: Shock, said: readonly string[], show: Show): string[] {
  const all = [...said];
  const { snubber, u, rig } = question;
  const ropes = rig.rode.some((part) => part.kind === "line" && part.material !== "chain" && part.material !== "wire");
  if (ropes && (u.stretch ?? 0) > 0 && answer.snatch !== undefined)
    all.push(`stretch of the rig's ropes to ${percent(u.stretch!)}`);
  if (answer.snatch !== undefined)
    all.push("the rode as a spring without mass or drag of its own, nothing lost on the way up");
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

function sourcesText({ shares, movement }: Give): string {
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

function shareLine(certain: Certain | null): string[] {
  if (certain === null) return [];
  const told = certain.shares.filter(({ share }) => share >= 0.005).sort((a, b) => b.share - a.share);
  return told.length === 0
    ? []
    : [row("± comes from", told.map(({ name, share }) => `${name} ${percent(share)}`).join(", "))];
}

function kelvin({ value, u }: { value: number; u: number }): string {
  return `${value < 0.01 ? "under 0.01" : `${value.toPrecision(2)} ± ${u.toPrecision(1)}`} K`;
}

/** A diameter in the unit ropes are sold by. */
function thick(diameter: number, units: UnitSystem): string {
  return formatQuantity(diameter, "length", { unit: units === "us" ? "in" : "mm", digits: 3 });
}

function percent(share: number): string {
  return `${Math.round(100 * share)} %`;
}

function endText(at: "anchor" | "bow" | "horizontal"): string {
  return at === "horizontal" ? "horizontal at the bow" : `at the ${at}`;
}

function shortEnd(at: "anchor" | "bow" | "horizontal"): string {
  return at === "horizontal" ? "horizontal" : `at ${at}`;
}

function row(label: string, text: string): string {
  return `  ${label.padEnd(20)} ${text}`;
}
