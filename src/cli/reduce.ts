import { Command } from "commander";
import { giveText, reductionReport } from "../publish/index.ts";
import { fittedRig, type Judgement, type Reduction, type Run, reduceFields } from "../pull/index.ts";
import { type Dimension, formatQuantity, InputError, quoted, type UnitSystem } from "../quantity/index.ts";
import { rigToFile } from "../rode/index.ts";
import { CAUTION, judgementWords, wordedJudgement } from "../words/index.ts";
import { NoAnswer } from "./exit.ts";
import type { Io } from "./io.ts";
import { answerJson, type Shown, shown } from "./options.ts";
import { reducedRun } from "./reduced-run.ts";
import { textTable } from "./text-table.ts";
import { programVersion } from "./version.ts";

interface Options extends Shown {
  readonly report?: string;
  readonly rigTo?: string;
}

export function reduceCommand(io: Io): Command {
  return shown(
    new Command("reduce")
      .argument("<run>", "run file (rodebench/run@1); - for standard input")
      .option("--report <file>", "writes one self-contained page with the rig to scale, the figures and the verdicts")
      .option("--rig-to <file>", "writes the rig with the fitted mass per length and rise, and their ±, as a rig file"),
  ).action(async (path: string, options: Options) => {
    const { run, rig, files, reduced, verdicts } = await reducedRun(path, options.units, io);
    const { units, report } = options;
    if (report !== undefined) {
      if (report === "-" || report === "")
        throw new InputError("--report", report, "the path of a file to write is expected");
      const page = { run, rig, reduced, verdicts, units, files, version: programVersion(), caution: CAUTION };
      await io.write(report, reductionReport(page));
    }
    if (options.rigTo !== undefined) {
      if (options.rigTo === "-" || options.rigTo === "")
        throw new InputError("--rig-to", quoted(options.rigTo), "the path of a file to write is expected");
      if (reduced.outcome.kind !== "converged")
        throw new NoAnswer(`${files[0]}: the readings do not settle the unknowns: no rig is written`);
      await io.write(options.rigTo, rigToFile(fittedRig(reduced)));
    }
    if (options.json)
      answerJson(io, { format: "rodebench/reduced@1", ...reduceFields(reduced, verdicts.map(wordedJudgement)) });
    else {
      io.out(reducedText(run, reduced, verdicts, units));
      if (report !== undefined) io.out(`\nThe report is written to ${report}\n`);
      if (options.rigTo !== undefined) io.out(`\nThe fitted rig is written to ${options.rigTo}\n`);
    }
  });
}

function reducedText(run: Run, reduced: Reduction, verdicts: readonly Judgement[], units: UnitSystem): string {
  const show = (value: number, dimension: Dimension, u?: number) =>
    formatQuantity(value, dimension, { system: units, ...(u === undefined || !(u > 0) ? {} : { u }) });
  const short = (value: number, dimension: Dimension) =>
    formatQuantity(value, dimension, {
      system: units,
      digits: 3,
      ...(dimension === "length" ? { unit: units === "us" ? "in" : "mm" } : {}),
    });
  const mark = (row: { outlier: boolean; suspect: boolean }) =>
    row.outlier ? "outlier" : row.suspect ? "suspect" : "";
  const readings =
    reduced.readings.length === 0
      ? ""
      : `Angle at the ${run.angleAt} over load at the ${run.loadCellAt}\n${textTable(
          ["load", "read", "theory", "residual", ""],
          reduced.readings.map((row) => [
            show(row.load, "force"),
            row.angle === null ? "lift-off" : short(row.angle, "angle"),
            short(row.theory, "angle"),
            residual(row.residual),
            mark(row),
          ]),
        )}`;
  const release =
    reduced.release.length === 0
      ? ""
      : `\nMovement of the loaded end over load\n${textTable(
          ["load", "read", "theory", "residual", ""],
          reduced.release.map((row) => [
            show(row.load, "force"),
            short(row.movement, "length"),
            short(row.theory, "length"),
            residual(row.residual),
            mark(row),
          ]),
        )}`;
  const { massPerLength, rise, gaugeZero, rigGive, tapeZero } = reduced.fitted;
  const fitted = [
    massPerLength === null ? "" : `mass per length   ${show(massPerLength.value, "massPerLength", massPerLength.u)}\n`,
    rise === null ? "" : `rise              ${show(rise.value, "length", rise.u)}\n`,
    gaugeZero === null ? "" : `gauge zero        ${show(gaugeZero.value, "angle", gaugeZero.u)}\n`,
    rigGive === null ? "" : `give of the rig   ${giveText(rigGive, units)}\n`,
    tapeZero === null
      ? ""
      : `tape zero         ${formatQuantity(tapeZero.value, "length", { unit: units === "us" ? "in" : "mm", u: tapeZero.u })}\n`,
    reduced.liftoff === null ? "" : `level at          ${show(reduced.liftoff, "force")}\n`,
  ].join("");
  const said = verdicts
    .map(
      (verdict) =>
        `- ${verdict.load === null || verdict.about === "simplification" ? "" : `${show(verdict.load, "force")}: `}${judgementWords(verdict)}\n`,
    )
    .join("");
  return `${run.name}\n\n${readings}${release}\nResiduals are in standard uncertainties.\n\nFitted, with what was stated beforehand\n${fitted}\n${said}`;
}

/** To a tenth; what rounds to nothing bears no sign. */
function residual(value: number): string {
  const text = value.toFixed(1);
  return text === "-0.0" ? "0.0" : text;
}
