import { Command } from "commander";
import Papa from "papaparse";
import { boundsOf, type Pull } from "../holding/index.ts";
import { seriesReport, usualInquiry } from "../publish/index.ts";
import { cellText, DEGREES, InputError, quoted } from "../quantity/index.ts";
import type { Ports } from "../record/index.ts";
import { withBook } from "./book-with.ts";
import { chainsOf } from "./chains.ts";
import { remarksText } from "./compare-text.ts";
import { isPdf, pdfTools } from "./figure-tools.ts";
import type { Io } from "./io.ts";
import { answerJson, placeOf, seedFrom, shown } from "./options.ts";
import type { ReportMade, ReportOptions } from "./report-made.ts";
import { programVersion } from "./version.ts";

/** `rodebench publish report`: a series, a run or a table of pulls as one page that stands by itself. */
export function publishReportCommand(io: Io, ports: Ports): Command {
  return shown(
    new Command("report")
      .description(
        "a series, a run or a table of pulls as one page that stands by itself, to read and to print, or as a PDF",
      )
      .argument("<of>", "book, run file, table of pulls (CSV) or data package")
      .requiredOption("--to <file>", "the page to write (HTML); a PDF where its name ends in .pdf")
      .option("--series <name>", "of a book, the pulls of one series")
      .option("--words <file>", "your own words, Markdown; of a book the series' notes come first")
      .option("--title <text>", "what the report is called (default: the series' name)")
      .option("--by <text>", "who tested, as they want to be named")
      .option("--seed <number>", "seed of the draws", "1"),
  ).action(async (path: string, options: ReportOptions) => {
    const { to, json, units } = options;
    if (to === "-" || to === "") throw new InputError("--to", quoted(to), "the path of a file to write is expected");
    const seed = seedFrom(options.seed);
    // Asked for first: nothing is computed for a file that cannot be written.
    const tools = isPdf(to) ? await pdfTools() : undefined;
    const { html, title, pulls, remarks } = (await isRun(path, io))
      ? await (await import("./publish-run-report.ts")).reportOfRun(path, options, io)
      : await ofPulls(path, options, seed, io, ports);
    const content =
      tools === undefined
        ? Buffer.from(html)
        : await (await import("./page-pdf.ts")).pagePdf(html, options.by ?? "", tools);
    await io.write(to, content);
    const bytes = content.length;
    if (json)
      answerJson(io, {
        ...{ format: "rodebench/report-published@1", file: to, title, pulls, units, bytes },
        ...(remarks === undefined ? {} : { remarks }),
      });
    else
      io.out(
        `${to}: ${title}, ${Math.round(bytes / 1000)} kB${tools === undefined ? "; a browser prints it" : ""}\n${remarksText({ remarks: remarks ?? [] })}`,
      );
  });
}

/** A run file tells its format; tables, books and packages are told from it by not doing so. */
async function isRun(path: string, io: Io): Promise<boolean> {
  if (!/\.(ya?ml|json)$/i.test(path)) return false;
  return /rodebench\/run@/.test((await io.read(path)).slice(0, 10_000));
}

async function ofPulls(path: string, options: ReportOptions, seed: number, io: Io, ports: Ports): Promise<ReportMade> {
  const { units, series: asked } = options;
  const { pullsAt } = await import("./compare-input.ts");
  const read = await pullsAt(path, io, ports, options);
  const { cases = [], evidence = [] } = read;
  const inquiry = await usualInquiry(read.pulls, seed, chainsOf(io));
  const [series, notes] =
    read.cases === undefined
      ? [undefined, []]
      : await withBook(io, ports, path, options, (book) => {
          const all = book.list("series");
          const one =
            all.find(({ id, name }) => id === asked || name === asked) ?? (all.length === 1 ? all[0] : undefined);
          const about = one === undefined ? [] : book.list("note", { where: { about: one.id } });
          return [one, about.map(({ text }) => text ?? "")] as const;
        });
  const title = options.title ?? series?.name ?? "Anchors compared";
  const html = seriesReport({
    title,
    by: options.by ?? "",
    question: series?.question ?? "",
    protocol: series?.protocol ?? "",
    words: [...notes, ...(options.words === undefined ? [] : [await io.read(options.words)])],
    units,
    cases,
    evidence,
    ...inquiry,
    numbers: read.rows,
    leftOut: read.leftOut,
    csv: pullsCsv(read.pulls),
    files: [placeOf(path)],
    version: programVersion(),
    invented: read.invented === true,
  });
  return { html, title, pulls: read.pulls.length, remarks: read.remarks ?? [] };
}

/** The table `compare` reads; nothing of who was there. */
function pullsCsv(pulls: readonly Pull[]): string {
  const text = (value: string | undefined): string => (value === undefined ? "" : cellText(value));
  const number = (value: number | undefined): string => (value === undefined ? "" : String(value));
  const rows = pulls.map(
    ({ hold, anchor, mass, anchorAngle, angleHeld, angleRise, loadError, seabed, site, day, ending }) => {
      const { low, high } = boundsOf(hold);
      const known = Number.isFinite(high) ? high : low;
      const degrees = (angle: number | undefined): string => number(angle === undefined ? undefined : angle * DEGREES);
      return [
        ...[text(anchor), low > 0 ? String(low) : "", Number.isFinite(high) ? String(high) : ""],
        ...[number(loadError === undefined ? undefined : loadError * known), number(mass)],
        ...[degrees(anchorAngle), degrees(angleHeld), degrees(angleRise)],
        ...[text(seabed), text(site), text(day), text(ending)],
      ];
    },
  );
  const header =
    "anchor,heldTo_N,gaveWayBy_N,uncertainty_N,mass_kg,anchorAngle_deg,anchorAngleHeld_deg,anchorAngleRise_deg,seabed,site,day,ending".split(
      ",",
    );
  return `${Papa.unparse([header, ...rows], { newline: "\r\n" })}\r\n`;
}
