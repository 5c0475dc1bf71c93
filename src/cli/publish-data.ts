import { Command, Option } from "commander";
import {
  checkPackage,
  type Difference,
  dataPackage,
  LICENCES,
  type MadePackage,
  PRIVATE,
  type Private,
} from "../publish/index.ts";
import { InputError, quoted } from "../quantity/index.ts";
import type { Ports } from "../record/index.ts";
import { withBook } from "./book-with.ts";
import { pullsAt } from "./compare-input.ts";
import { NoAnswer } from "./exit.ts";
import type { Io } from "./io.ts";
import { answerJson, type Shown, seedFrom, shown } from "./options.ts";
import { readFolder, sha256, writeFolder } from "./package-folder.ts";
import { answersOfTable } from "./publish-answers.ts";
import { programVersion } from "./version.ts";

interface Options extends Shown {
  readonly series?: string;
  readonly to?: string;
  readonly title?: string;
  readonly by?: string;
  readonly licence: string;
  readonly cite?: string;
  readonly date?: string;
  readonly with?: string;
  readonly seed: string;
}

/** `rodebench publish data`: a series as a package others can work with. */
export function publishDataCommand(io: Io, ports: Ports): Command {
  return shown(
    new Command("data")
      .description("a series as an open data package: CSV, Parquet, rigs, answers, and what each number means")
      .argument("<book>")
      .requiredOption("--to <folder>", "a new or empty folder")
      .option("--series <name>", "the pulls of one series")
      .option("--title <text>", "what the package is called (default: the series' name)")
      .option("--by <text>", "who tested, as they want to be named: the tester of every row")
      .addOption(
        new Option("--licence <name>", "by which others may use it")
          .choices(Object.keys(LICENCES))
          .default("CC-BY-4.0"),
      )
      .option("--cite <text>", "how it is to be cited")
      .option("--date <day>", "when it was made, such as 2031-05-17; nothing is said without")
      .option("--with <names>", `private fields to publish, of ${PRIVATE.join(",")}`)
      .option("--seed <number>", "seed of the draws", "1"),
  ).action(async (path: string, options: Options) => {
    const seed = seedFrom(options.seed);
    const chosen = chosenFrom(options.with);
    if (options.date !== undefined && !/^\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])$/.test(options.date))
      throw new InputError("--date", quoted(options.date), "a day such as 2031-05-17 is expected");
    const read = await pullsAt(path, io, ports, options);
    const { cases, evidence } = read;
    if (cases === undefined || evidence === undefined)
      throw new InputError(path, "a table", "a book is expected: it has the rigs and readings a package is made of");
    const [sites, series] = await withBook(io, ports, path, options, (book) => [
      book.list("site"),
      book.list("series"),
    ]);
    const of =
      series.find(({ id, name }) => id === options.series || name === options.series) ??
      (series.length === 1 ? series[0] : undefined);
    const title = options.title ?? of?.name ?? "Pulls of anchors";
    const by = options.by ?? "";
    const made = await dataPackage({
      about: {
        title,
        description: of?.question ?? "",
        by,
        citation: options.cite ?? [by, options.date?.slice(0, 4) ?? "", title].filter((part) => part !== "").join(", "),
        licence: LICENCES[options.licence]!,
        program: programVersion(),
        ...(options.date === undefined ? {} : { date: options.date }),
      },
      pulls: cases.map((about, i) => ({ about, evidence: evidence[i]! })),
      sites,
      chosen,
      seed,
      answersOf: (csv) => answersOfTable(csv, seed, io),
      sha256,
    });
    await writeFolder(options.to!, made.files, io);
    answer(options, title, chosen, made, io);
  });
}

function chosenFrom(text: string | undefined): Private[] {
  return (text ?? "")
    .split(",")
    .map((name) => name.trim())
    .filter((name) => name !== "")
    .map((name) => {
      const known = PRIVATE.find((one) => one === name);
      if (known === undefined) throw new InputError("--with", quoted(name), `one of ${PRIVATE.join(", ")} is expected`);
      return known;
    });
}

function answer(
  { to, json, licence }: Options,
  title: string,
  chosen: readonly Private[],
  made: MadePackage,
  io: Io,
): void {
  const files = [...made.files].map(([path, bytes]) => ({ path, bytes: bytes.length }));
  if (json) {
    const { rows, leftOut } = made;
    answerJson(io, {
      format: "rodebench/data-published@1",
      folder: to,
      title,
      pulls: rows,
      leftOut,
      with: chosen,
      licence,
      files,
    });
    return;
  }
  const kept = PRIVATE.filter((name) => !chosen.includes(name));
  io.out(
    `${to}: ${title}, ${made.rows} pulls${made.leftOut === 0 ? "" : `, ${made.leftOut} left out as they say nothing that can be compared`}, ${licence}\n${
      kept.length === 0 ? "" : `left out: ${kept.join(", ")}\n`
    }${files.map(({ path, bytes }) => `${path.padEnd(18)} ${bytes} bytes\n`).join("")}`,
  );
}

/** Differences told one by one; of more the rest is counted. */
const MOST_TOLD = 20;

/** `rodebench publish check`: every published number from the package alone. */
export function publishCheckCommand(io: Io): Command {
  return shown(
    new Command("check")
      .description("work every number of a data package out again from the package alone, and compare")
      .argument("<folder>"),
  ).action(async (folder: string, { json }: Shown) => {
    const files = readFolder(folder, io);
    const checked = await checkPackage(files, { sha256, answersOf: (csv, seed) => answersOfTable(csv, seed, io) });
    const { title, pulls, numbers, answers, differences } = checked;
    if (json) answerJson(io, { format: "rodebench/package-checked@1", folder, ...checked });
    else {
      const more = differences.length - MOST_TOLD;
      io.out(
        `${folder}: ${title}\n${checked.files} files, ${pulls} pulls\n${numbers} numbers of pulls and ${answers} of answers worked out again\n${differences
          .slice(0, MOST_TOLD)
          .map(line)
          .join("")}${more > 0 ? `and ${more} more\n` : ""}`,
      );
    }
    if (differences.length > 0)
      throw new NoAnswer(
        `${folder}: ${differences.length} differ${differences.length === 1 ? "s" : ""}; a package as it was published would agree`,
      );
    if (!json) io.out("all agree\n");
  });
}

const line = ({ where, published, found }: Difference): string =>
  `- ${where}: published ${published}, found ${found}\n`;
