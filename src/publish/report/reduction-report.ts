/** The reduction of a run as one page that stands by itself: drawing, figures, unknowns, readings, verdicts, method. */
import { angleOverLoad, curveLoads, drawRode, endName, escaped, movementOverLoad } from "../../figure/index.ts";
import { fittedCertainty, type Judgement, type Reduction, type Run, theoryCurve } from "../../pull/index.ts";
import type { UnitSystem } from "../../quantity/index.ts";
import { type Pull, type Rig, type SettledTrace, settleTraced } from "../../rode/index.ts";
import { judgementWords } from "../../words/index.ts";
import { method } from "./method.ts";
import { figure, list, page, paragraph, section } from "./page.ts";
import { PAGE_STYLE } from "./style.ts";
import { fittedTable, readingsTable, releaseTable } from "./tables.ts";
import { giveText, shown } from "./words.ts";

/** All that the page of a reduction is made of. */
export interface ReductionReport {
  readonly run: Run;
  /** The rig as it was stated. */
  readonly rig: Rig;
  readonly reduced: Reduction;
  readonly verdicts: readonly Judgement[];
  readonly units: UnitSystem;
  /** Names of the files it was made from. */
  readonly files: readonly string[];
  /** Of this program. */
  readonly version: string;
  /** Said once where loads are planned. */
  readonly caution: string;
  /** When it was made, in words; nothing is said without. */
  readonly made?: string;
}

/** @returns a whole HTML page without a request to anywhere */
export function reductionReport(report: ReductionReport): string {
  const { run, rig, reduced, units } = report;
  const end = endName(run.loadCellAt, rig.setting.medium);
  const body = `<main>
<header>
<h1>${escaped(run.name)}</h1>
<p class="under">${escaped(`${rig.name}, ${rig.setting.medium === "air" ? "hanging in air" : "afloat"}, load read at the ${end}`)}</p>
</header>
${paragraph(inShort(report))}${found(report)}${drawing(report)}${readings(report)}${movement(report)}${section(
  "Fitted unknowns",
  paragraph(
    "What the tester was unsure of, fitted together to all readings. What was known beforehand counts as one more reading of each.",
  ),
  fittedTable(reduced, units),
)}${verdicts(report)}${section("How this was computed", ...method(report).map(paragraph))}<p class="caution">${escaped(report.caution)}</p>
</main>
<footer>
${[`Made from ${report.files.join(" and ")} by rodebench ${report.version}.`, ...(report.made === undefined ? [] : [report.made])].map(paragraph).join("")}</footer>
`;
  return page(`${run.name}: readings against theory`, PAGE_STYLE, body);
}

function inShort({ verdicts, reduced, units }: ReductionReport): string {
  const first = verdicts.find((verdict) => verdict.about === "fit");
  const fit = first === undefined ? "" : judgementWords(first);
  const off = [...reduced.readings, ...reduced.release].filter((row) => row.outlier || row.suspect).length;
  const doubt =
    off === 0
      ? "No reading stands out."
      : `${off === 1 ? "One reading stands" : `${off} readings stand`} out and ${off === 1 ? "is" : "are"} given little weight: see Verdicts.`;
  const level =
    reduced.liftoff === null ? "" : ` By theory the anchor end lifts at ${shown(reduced.liftoff, "force", units)}.`;
  return `${fit.charAt(0).toUpperCase()}${fit.slice(1)}. ${doubt}${level}`;
}

/** The numbers a reader looks for first. */
function found({ reduced, units }: ReductionReport): string {
  const { fitted, beforehand } = reduced;
  const before = (text: string | null) => (text === null ? "" : `<small>${escaped(`beforehand ${text}`)}</small>`);
  const rows: [string, string | null, string | null][] = [
    [
      "mass per length",
      fitted.massPerLength && shown(fitted.massPerLength.value, "massPerLength", units, fitted.massPerLength.u),
      beforehand.massPerLength &&
        shown(beforehand.massPerLength.value, "massPerLength", units, beforehand.massPerLength.u),
    ],
    [
      "rise",
      fitted.rise && shown(fitted.rise.value, "length", units, fitted.rise.u),
      beforehand.rise && shown(beforehand.rise.value, "length", units, beforehand.rise.u),
    ],
    ["give of the rig itself", fitted.rigGive && giveText(fitted.rigGive, units), null],
  ];
  const cells = rows.flatMap(([name, value, prior]) =>
    value === null ? [] : [`<div><dt>${escaped(name)}</dt><dd>${bigFirst(value)}${before(prior)}</dd></div>`],
  );
  return cells.length === 0 ? "" : `<dl class="found">${cells.join("")}</dl>\n`;
}

/** The figure itself large, its ± and unit after it. */
function bigFirst(text: string): string {
  const [value, ...rest] = text.split(" ");
  return `${escaped(value!)}<span> ${escaped(rest.join(" "))}</span>`;
}

/** The rig at the highest load read, and behind it at the lowest. */
function drawing({ run, rig, reduced, units }: ReductionReport): string {
  const loads = [...run.readings, ...run.release].map((row) => row.load).sort((a, b) => a - b);
  const [low, high] = [loads[0]!, loads.at(-1)!];
  const at = (newtons: number): Pull => ({ at: run.loadCellAt, newtons });
  const traced = traceOf(reduced.rig, at(high));
  if (traced === null) return "";
  const behind = low < 0.8 * high ? traceOf(reduced.rig, at(low)) : null;
  const end = endName(run.loadCellAt, rig.setting.medium);
  const drawn = drawRode({
    rig: reduced.rig,
    traced,
    certainty: fittedCertainty(reduced, at(high)),
    riseU: reduced.fitted.rise?.u ?? null,
    loadCellAt: run.loadCellAt,
    units,
    ...(behind === null ? {} : { beside: { traced: behind, label: `at ${shown(low, "force", units)}` } }),
  });
  const dotted = behind === null ? "" : ` Dotted: at ${shown(low, "force", units)}, the lowest load read.`;
  return section(
    "The rig as it lies",
    figure(
      drawn.svg,
      `At ${shown(high, "force", units)} at the ${end}, the highest load read, with the fitted mass per length and rise; ± is what the fit leaves open, the load taken as read. The load cell is the filled box.${dotted}`,
    ),
  );
}

function traceOf(rig: Rig, pull: Pull): SettledTrace | null {
  const traced = settleTraced(rig, pull);
  return "settled" in traced ? traced : null;
}

const HOW =
  "Diamonds are readings, triangles lift-offs seen, bars one standard uncertainty to either side; hollow ones are outliers. Line and band are theory with the fitted unknowns and one standard uncertainty to either side. Below, the residual: reading less theory, in standard uncertainties.";

function readings(report: ReductionReport): string {
  const { run, rig, reduced, units } = report;
  if (run.readings.length === 0) return "";
  const curve = theoryCurve(run, reduced, curveLoads(run, reduced));
  return section(
    "Angle over load",
    figure(angleOverLoad({ run, reduced, curve, units, medium: rig.setting.medium }).svg, HOW),
    readingsTable(run, reduced, rig, units),
  );
}

function movement(report: ReductionReport): string {
  const { run, rig, reduced, units } = report;
  if (run.release.length < 2) return "";
  const curve = theoryCurve(run, reduced, curveLoads(run, reduced));
  return section(
    "Movement over load",
    figure(
      movementOverLoad({ run, reduced, curve, units, medium: rig.setting.medium }).svg,
      `Movement of the loaded end as the load is let off. ${HOW}`,
    ),
    releaseTable(reduced, units),
  );
}

function verdicts({ verdicts: all, units }: ReductionReport): string {
  const said = (about: readonly Judgement["about"][]) =>
    all
      .filter((verdict) => about.includes(verdict.about))
      .map((verdict) => {
        const at =
          verdict.load === null || verdict.about === "simplification"
            ? ""
            : `At ${shown(verdict.load, "force", units)} `;
        const says = judgementWords(verdict);
        return `${at === "" ? `${says.charAt(0).toUpperCase()}${says.slice(1)}` : `${at}${says}`}.`;
      });
  // The first is told in short at the head of the page.
  const overall = said(["fit"]).slice(1);
  const doubted = said(["reading", "release"]);
  const learned = said(["unknown"]);
  const cuts = said(["simplification"]);
  return section(
    "Verdicts",
    overall.length === 0 ? "" : list(overall),
    paragraph(doubted.length === 0 ? "No reading is called an outlier." : "Readings to doubt:"),
    doubted.length === 0 ? "" : list(doubted),
    learned.length === 0 ? "" : paragraph("What the readings say of the rig:") + list(learned),
    cuts.length === 0 ? "" : paragraph("Short cuts, and whether they may be taken at these loads:") + list(cuts),
  );
}
