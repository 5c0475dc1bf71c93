import { Command, Option } from "commander";
import type { Book } from "../book/index.ts";
import {
  checkPackage,
  type Difference,
  dataPackage,
  LICENCES,
  type MadePackage,
  PRIVATE,
  type Private,
  type RawLog,
} from "../publish/index.ts";
import { InputError, quoted } from "../quantity/index.ts";
import type { Ports } from "../record/index.ts";
import { withBook } from "./book-with.ts";
import type { PullsRead } from "./compare-input.ts";
import { remarksText } from "./compare-text.ts";
import { NoAnswer } from "./exit.ts";
import type { Io } from "./io.ts";
import { answerJson, type Shown, seedFrom, shown } from "./options.ts";
import { readFolder, sha256, writeFolder } from "./package-folder.ts";
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
  readonly rawLogs?: true;
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
      .option("--raw-logs", "what was read during each pull too, reading by reading; places only with --with positions")
      .option("--seed <number>", "seed of the draws", "1"),
  ).action(async (path: string, options: Options) => {
    const seed = seedFrom(options.seed);
    const chosen = chosenFrom(options.with);
    if (options.date !== undefined && !/^\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])$/.test(options.date))
      throw new InputError("--date", quoted(options.date), "a day such as 2031-05-17 is expected");
    const { pullsAt } = await import("./compare-input.ts");
    const { answersOfTable } = await import("./publish-answers.ts");
    const read = await pullsAt(path, io, ports, options);
    const { cases, evidence } = read;
    if (cases === undefined || evidence === undefined)
      throw new InputError(path, "a table", "a book is expected: it has the rigs and readings a package is made of");
    const [sites, series, logs] = await withBook(io, ports, path, options, (book) => [
      book.list("site"),
      book.list("series"),
      options.rawLogs === true ? rawLogs(book, new Set(cases.map(({ pull }) => pull.id))) : [],
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
        ...(read.invented === true ? { invented: true } : {}),
      },
      pulls: cases.map((about, i) => ({ about, evidence: evidence[i]! })),
      sites,
      chosen,
      logs,
      seed,
      answersOf: (csv) => answersOfTable(csv, seed, io),
      sha256,
    });
    await writeFolder(options.to!, made.files, io);
    answer(options, title, chosen, made, read.remarks ?? [], io);
  });
}

/** Logs of some pulls, whole. */
function rawLogs(book: Book, pulls: ReadonlySet<string>): RawLog[] {
  return book.list("log").flatMap(({ id, pull, channels }) => {
    if (pull === null || pull === undefined || !pulls.has(pull)) return [];
    const known = channels ?? [];
    const rows = book.logs.content(id).rows;
    const time = new Float64Array(rows);
    const values = known.map(() => new Float64Array(rows));
    let at = 0;
    const names = known.map(({ name }) => name);
    for (const { times, columns } of book.logs.rows(id, names)) {
      time.set(times, at);
      for (const [i, name] of names.entries()) values[i]!.set(columns[name]!, at);
      at += times.length;
    }
    return [{ pull, channels: known, time, values }];
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
  remarks: NonNullable<PullsRead["remarks"]>,
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
      remarks,
      with: chosen,
      channelsLeftOut: made.channelsLeftOut,
      licence,
      files,
    });
    return;
  }
  const kept = PRIVATE.filter((name) => !chosen.includes(name));
  io.out(
    `${to}: ${title}, ${made.rows} pulls${made.leftOut === 0 ? "" : `, ${made.leftOut} left out as they say nothing that can be compared`}, ${licence}\n${remarksText({ remarks })}${
      kept.length === 0 ? "" : `left out: ${kept.join(", ")}\n`
    }${
      made.channelsLeftOut.length === 0
        ? ""
        : `left out of the logs, as they tell places to the metre: ${made.channelsLeftOut.join(", ")}; --with positions puts them in\n`
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
    const { answersOfTable } = await import("./publish-answers.ts");
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
