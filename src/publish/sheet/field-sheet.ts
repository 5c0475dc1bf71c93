/** The field sheet: a page to print and take along, a block a pull, with its steps, what to check and blanks to fill in. */
import { escaped } from "../../figure/index.ts";
import { formatQuantity, significant, type UnitSystem } from "../../quantity/index.ts";
import { settle } from "../../rode/index.ts";
import type { PlannedPull, SeriesPlan } from "../../series/index.ts";
import {
  againstLine,
  CAUTION,
  clockText,
  degreesText,
  durationText,
  engineText,
  holdRuleLine,
  planHoldLines,
  pullWarningLine,
  questionWords,
} from "../../words/index.ts";
import { page, paragraph, table } from "../report/page.ts";
import { PAGE_STYLE } from "../report/style.ts";

const SHEET_STYLE = `${PAGE_STYLE}
.pull{border-top:2px solid currentColor;margin-top:1.6rem;padding-top:.4rem;break-inside:avoid}
.pull h2{margin:.2rem 0 .3rem}
.code{font:650 1.5rem ui-monospace,Menlo,Consolas,monospace;letter-spacing:.12em;float:right}
.blank td:nth-last-child(-n+4),.blank th:nth-last-child(-n+4){border-left:1px solid var(--figure-soft);min-width:4.5rem}
.blank td{height:2.1rem}
.blank td,.blank th{padding-left:.4rem}
.check{list-style:none;padding:0;margin-top:.8rem}
.ending{margin-top:.7rem}
.check li,.pull p{max-width:none}`;

/** A page that stands alone and asks nothing of the network. */
export function fieldSheet(plan: SeriesPlan, units: UnitSystem): string {
  const { series } = plan;
  return page(
    `Field sheet: ${series.name}`,
    SHEET_STYLE,
    [
      `<main>\n<h1>${escaped(series.name)}</h1>\n`,
      `<p class="under">${escaped(`${questionWords[series.question]}; seed ${series.seed}; ${series.boat.name}`)}</p>\n`,
      ...planHoldLines(series, units).map((line) => paragraph(line)),
      gearCheck(plan, units),
      ...plan.pulls.map((pull) => pullBlock(plan, pull, units)),
      "</main>\n",
    ].join(""),
  );
}

const sentence = (line: string) => `${line[0]!.toUpperCase()}${line.slice(1)}.`;
const force = (newtons: number, system: UnitSystem) => formatQuantity(newtons, "force", { system, digits: 3 });
const length = (metres: number, system: UnitSystem) => formatQuantity(metres, "length", { system, digits: 3 });

/** For each rode the heaviest planned pull: its weakest part, and the energy that would come back if something parted. */
function gearCheck(plan: SeriesPlan, units: UnitSystem): string {
  const rows = plan.series.rodes.flatMap((rode) => {
    const worst = plan.pulls
      .flatMap(({ how }) => (how.kind === "had" && how.at.rode === rode.name ? [how] : []))
      .sort((a, b) => b.at.bow - a.at.bow)[0];
    if (worst === undefined) return [];
    const { at, loads } = worst;
    const settled = settle(at.rig, { at: "anchor", newtons: loads.at(-1)!.load });
    const energy = settled.kind === "settled" ? settled.energy.lift + settled.energy.stretch : null;
    return [
      {
        cells: [
          { says: rode.name },
          { says: force(at.bow, units), number: true },
          { says: at.weakest === null ? "not known: look it up" : at.weakest.part },
          { says: at.weakest === null ? "?" : force(at.weakest.limit, units), number: true },
          {
            says: at.weakest === null ? "?" : `${Math.round((100 * at.weakest.load) / at.weakest.limit)} %`,
            number: true,
          },
          {
            says: energy === null ? "?" : formatQuantity(energy, "energy", { system: units, digits: 2 }),
            number: true,
          },
        ],
      },
    ];
  });
  const head = ["Rode", "Most at the bow", "Weakest part known", "Working load limit", "Used", "Energy in the rode"];
  return [
    `<p class="caution">${escaped(CAUTION)}</p>\n`,
    table(
      "Before the first load",
      head.map((says, i) => ({ says, number: i === 1 || i > 2 })),
      rows,
    ),
    '<ul class="check">\n',
    ...[
      "Shackles, swivel, hook and cleat have limits of their own: write the lowest here ______________",
      "Nobody stands in line with the rode, before the bow or beside the winch, while it is loaded.",
      "At the engine: ______________   At the gauge, clear of the rode: ______________   Writes: ______________",
      "Who says stop, and by which sign: ______________",
    ].map((line) => `<li>☐ ${escaped(line)}</li>\n`),
    "</ul>\n",
  ].join("");
}

function pullBlock({ series }: SeriesPlan, pull: PlannedPull, units: UnitSystem): string {
  const { how } = pull;
  const when = `${pull.day.date} ${clockText(pull.at + pull.day.offset)}, ${pull.day.site}`;
  const head = `<h2><span class="code">${pull.code}</span> ${escaped(`${pull.number}. ${pull.anchor} at ${degreesText(pull.angle)}`)}</h2>\n`;
  const inside =
    how.kind === "levelNotTold"
      ? paragraph(`${when}: the tide is not told at that hour.`)
      : how.kind === "notHad"
        ? paragraph(`${when}: cannot be had. ${how.against.map((one) => againstLine(one, units)).join("; ")}.`)
        : [
            paragraph(
              `${when}. Round ${pull.round}. ${how.at.rode}: ${length(how.at.length, units)} out in ${length(how.at.depth, units)} of water (charted ${length(how.charted, units)}, tide ${length(pull.level!, units)}), scope ${significant(how.at.scope, 2)} : 1. The depth moves the angle by ${degreesText(how.at.angleByDepth)} a metre.`,
            ),
            ...how.warnings.map((one) => paragraph(sentence(pullWarningLine(one, units)))),
            `<div class="blank">${table(
              `Set; then raise to each load and hold it ${durationText(series.hold)}. ${holdRuleLine(series.holdRule, units)}`,
              ["Load", "At the bow", "Engine", "Bow read", "Angle read", "Depth read", "Moved"].map((says, i) => ({
                says,
                number: i < 3,
              })),
              how.loads.map(({ load, bow, speed }) => ({
                cells: [
                  { says: force(load, units), number: true },
                  { says: force(bow, units), number: true },
                  { says: speed === null ? "?" : engineText(speed), number: true },
                  ...["", "", "", ""].map((says) => ({ says })),
                ],
              })),
              `Loads of pull ${pull.number}, ${pull.code}`,
            )}</div>`,
            `<p class="ending">${escaped("☐ gave way at ________   ☐ held to ________   ☐ never set   ☐ stopped: ______________   Time ________")}</p>\n`,
          ].join("");
  return `<section class="pull">\n${head}${inside}</section>\n`;
}
