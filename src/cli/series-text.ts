/** A planned series as a terminal shows it. */
import { formatQuantity, significant, type UnitSystem } from "../quantity/index.ts";
import { mostThrust, type NextPull, type PlannedPull, type PowerAnswer, type SeriesPlan } from "../series/index.ts";
import {
  againstLine,
  CAUTION,
  clockText,
  countText,
  degreesText,
  durationText,
  engineText,
  nextReasonLine,
  planHoldLines,
  pullWarningLine,
  questionWords,
} from "../words/index.ts";
import { textTable } from "./text-table.ts";

export function seriesText(
  plan: SeriesPlan,
  power: PowerAnswer | null,
  next: readonly NextPull[],
  units: UnitSystem,
): string {
  const { series } = plan;
  return [
    `${series.name}: ${questionWords[series.question]}`,
    `${series.boat.name} pulls ${force(mostThrust(series.boat), units)} at most by her own points. Angles are those at the anchor above the bottom, loads those at the anchor.`,
    ...planHoldLines(series, units),
    ...tableLines(plan, units),
    ...orderLines(plan, units),
    ...(power === null ? [] : powerLines(plan, power)),
    ...nextLines(next),
    "",
    CAUTION,
    "",
  ].join("\n");
}

const force = (newtons: number, system: UnitSystem) => formatQuantity(newtons, "force", { system, digits: 3 });
const length = (metres: number, system: UnitSystem) => formatQuantity(metres, "length", { system, digits: 3 });

function tableLines({ series, table }: SeriesPlan, units: UnitSystem): string[] {
  return series.sites.flatMap((site) => {
    const own = table.filter((cell) => cell.site === site.name);
    const rows = own.map(({ angle, load, had, depths }) => [
      degreesText(angle),
      force(load, units),
      ...(had === null || depths === null
        ? ["none"]
        : [
            had.rode,
            length(had.depth, units),
            length(had.length, units),
            `${significant(had.scope, 2)} : 1`,
            force(had.bow, units),
            `${length(depths.least, units)} to ${length(depths.most, units)}`,
          ]),
    ]);
    const not = own
      .filter(({ had }) => had === null)
      .flatMap(({ angle, load, against }) =>
        against.map(
          (one) =>
            `  ${degreesText(angle)} at ${force(load, units)}, ${one.rode}: ${one.against.map((why) => againstLine(why, units)).join("; ")}`,
        ),
      );
    return [
      "",
      `${site.name}: what can be had, where the depth moves the angle least`,
      textTable(["angle", "load", "rode", "water", "out", "scope", "at the bow", "in water of"], rows).trimEnd(),
      ...(not.length === 0 ? [] : ["cannot be had:", ...not]),
    ];
  });
}

function orderLines(plan: SeriesPlan, units: UnitSystem): string[] {
  const { series, pulls, withoutHour, time } = plan;
  if (series.days.length === 0) return ["", "No days are given, so no pull has its hour."];
  const rows = pulls.map((pull) => {
    const { how, level } = pull;
    const place = [
      pull.code,
      pull.day.date.slice(5),
      clockText(pull.at + pull.day.offset),
      pull.anchor,
      degreesText(pull.angle),
      level === null ? "?" : length(level, units),
    ];
    if (how.kind !== "had") return [...place, "cannot be had"];
    const last = how.loads.at(-1)!;
    return [
      ...place,
      how.at.rode,
      length(how.charted, units),
      length(how.at.length, units),
      force(last.load, units),
      last.speed === null ? "?" : engineText(last.speed),
    ];
  });
  const warned = byText(
    pulls.flatMap(({ code, how }): [string, string][] => {
      if (how.kind === "had") return how.warnings.map((one) => [code, pullWarningLine(one, units)]);
      if (how.kind === "levelNotTold") return [[code, "the tide is not told at that hour"]];
      const why = how.against.map((one) => againstLine(one, units)).join("; ");
      return [[code, `${why}${how.byTide ? "; at another level of the water it can be had" : ""}`]];
    }),
  );
  return [
    "",
    `Order of pulls (seed ${series.seed}), ${countText(pulls.length, "pull", "pulls")} in ${durationText(time)}`,
    textTable(
      ["code", "day", "at", "anchor", "angle", "level", "rode", "charted", "out", "to", "engine"],
      rows,
    ).trimEnd(),
    ...(withoutHour === 0 ? [] : [`${countText(withoutHour, "pull has", "pulls have")} no hour left on these days.`]),
    ...(warned.length === 0 ? [] : ["to be known:", ...warned]),
  ];
}

/** What is said of several pulls stands once, behind their codes. */
function byText(said: readonly [code: string, text: string][]): string[] {
  const codes = new Map<string, string[]>();
  for (const [code, text] of said) codes.set(text, [...(codes.get(text) ?? []), code]);
  return [...codes].map(([text, own]) => `  ${own.join(", ")}: ${text}`);
}

const percent = (share: number) => `${Math.round(share * 100)} %`;

const fromWords = {
  prior: "from the priors alone",
  pulls: "from the priors and the pulls so far",
  posterior: "from draws of the model on the pulls so far",
} as const;

function powerLines({ series }: SeriesPlan, power: PowerAnswer): string[] {
  if (power.kind === "massUnknown")
    return ["", "How many pulls would tell is not known: no anchor has a mass and none was pulled."];
  const asked =
    series.question === "letsGo"
      ? `a fall of ${percent(series.tell)} a degree`
      : `a ratio of ${significant(series.tell, 3)}${series.question === "compare" ? ` between ${series.anchors[1]!.name} and ${series.anchors[0]!.name}` : ""}`;
  const from = fromWords[power.from];
  return [
    "",
    `How many pulls would tell ${asked} with 95 % chance, ${from} (simulated):`,
    textTable(
      ["each", "pulls", "tell it", "95 % limits", "tell the contrary", "end while it holds", "hours"],
      power.rows.map((row) => [
        String(row.repeats),
        String(row.pulls),
        percent(row.share),
        `${percent(row.low)} to ${percent(row.high)}`,
        percent(row.wrong),
        percent(row.ended),
        significant(row.hours, 2),
      ]),
    ).trimEnd(),
    power.enough === null
      ? "Not even the most of these tell it in four series of five."
      : `${power.enough} of each tell it in four series of five.`,
  ];
}

function nextLines(next: readonly NextPull[]): string[] {
  if (next.length === 0) return [];
  return [
    "",
    "What the next pull would bring, the best first:",
    ...next
      .slice(0, 6)
      .map(
        ({ anchor, angle, gain, reason }) =>
          `  ${anchor} at ${degreesText(angle)}: the ± of the question shrinks by ${significant(100 * gain, 2)} %; ${nextReasonLine(reason)}`,
      ),
  ];
}

/** One pull as its code tells it. */
export function pullLines(plan: SeriesPlan, pull: PlannedPull, units: UnitSystem): string {
  const { how } = pull;
  const head = `${pull.code}: pull ${pull.number} of ${plan.series.name}, ${pull.anchor} at ${degreesText(pull.angle)}, ${pull.day.site}, ${pull.day.date} ${clockText(pull.at + pull.day.offset)}\n`;
  if (how.kind === "levelNotTold") return `${head}The tide is not told at that hour.\n`;
  if (how.kind === "notHad") return `${head}${how.against.map((one) => againstLine(one, units)).join("; ")}\n`;
  const steps = textTable(
    ["load", "at the bow", "engine"],
    how.loads.map(({ load, bow, speed }) => [
      force(load, units),
      force(bow, units),
      speed === null ? "?" : engineText(speed),
    ]),
  );
  return `${head}${how.at.rode}, ${length(how.at.length, units)} out in ${length(how.at.depth, units)} of water (charted ${length(how.charted, units)}), each load held ${durationText(plan.series.hold)}\n${steps}${planHoldLines(plan.series, units).join("\n")}\n${how.warnings.map((one) => `${pullWarningLine(one, units)}\n`).join("")}\n${CAUTION}\n`;
}
