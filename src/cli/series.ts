import { Command } from "commander";
import { systemPorts } from "../book/index.ts";
import { fieldSheet } from "../publish/index.ts";
import { InputError, quoted } from "../quantity/index.ts";
import type { Ports } from "../record/index.ts";
import { drawTruths, nextPulls, planSeries, powerOf, pullOfCode, type Series, type Truth } from "../series/index.ts";
import { codeTroubleLine } from "../words/index.ts";
import { chainsOf } from "./chains.ts";
import { isPdf, pdfTools } from "./figure-tools.ts";
import type { Io } from "./io.ts";
import { answerJson, type Shown, shown } from "./options.ts";
import { holdFields, pullFields, seriesDocument } from "./series-document.ts";
import { seriesAt } from "./series-input.ts";
import { pullLines, seriesText } from "./series-text.ts";

interface Options extends Shown {
  readonly series?: string;
  readonly book?: string;
  readonly sheet?: string;
  readonly code?: string;
  readonly power: boolean;
  readonly posterior?: true;
}

export function seriesCommand(io: Io, ports: Ports = systemPorts): Command {
  return shown(
    new Command("series")
      .argument(
        "<series>",
        "series file (rodebench/series@1), or a book that keeps one; - for a file on standard input",
      )
      .option("--series <name>", "of a book, which series")
      .option("--book <book>", "what is held already: a book, or a table of pulls")
      .option("--sheet <file>", "writes the field sheet to print, with every pull, its steps and blanks: HTML, or .pdf")
      .option("--code <code>", "reads the code of a pull back, as it stands on the sheet")
      .option("--posterior", "how many pulls: by draws of the model of compare on the pulls so far (longer)")
      .option("--no-power", "leave out how many pulls would tell"),
  ).action(async (path: string, options: Options) => {
    const { units, sheet, code } = options;
    if (sheet === "-" || sheet === "")
      throw new InputError("--sheet", quoted(sheet), "the path of a file to write is expected");
    // Asked for first: nothing is computed for a file that cannot be written.
    const tools = sheet !== undefined && isPdf(sheet) ? await pdfTools() : null;
    const series = await seriesAt(path, io, ports, options);
    const plan = planSeries(series);
    if (code !== undefined) {
      const found = pullOfCode(plan, code);
      if (found.kind !== "pull")
        throw new InputError(
          "--code",
          `${quoted(code)}, ${codeTroubleLine(found)}`,
          "the code of a pull of this series is expected, five signs such as on its sheet",
        );
      const { pull } = found;
      if (options.json)
        answerJson(io, {
          format: "rodebench/planned-pull@1",
          ...pullFields(pull),
          ...holdFields(series),
        });
      else io.out(pullLines(plan, pull, units));
      return;
    }
    const truths = options.power && options.posterior ? await truthsFor(series, io) : null;
    const power = options.power ? powerOf(series, plan.table, undefined, truths) : null;
    const next = options.power ? nextPulls(series, plan.table) : [];
    if (sheet !== undefined) {
      const html = fieldSheet(plan, units);
      await io.write(sheet, tools === null ? html : await (await import("./page-pdf.ts")).pagePdf(html, "", tools));
    }
    if (options.json) answerJson(io, seriesDocument(plan, power, next));
    else {
      io.out(seriesText(plan, power, next, units));
      if (sheet !== undefined) io.out(`\nThe field sheet is written to ${sheet}\n`);
    }
  });
}

/** @throws InputError where nothing is held already, or its draws are not sound */
async function truthsFor(series: Series, io: Io): Promise<readonly Truth[]> {
  const drawn = await drawTruths(series, chainsOf(io));
  if (drawn.kind === "drawn") return drawn.truths;
  throw drawn.kind === "noPulls"
    ? new InputError(
        "--posterior",
        "no pull of these anchors",
        "pulls held already are expected, in the book or with --book",
      )
    : new InputError(
        "--posterior",
        "draws that are not sound",
        "more pulls, or how many pulls without --posterior, are expected",
      );
}
