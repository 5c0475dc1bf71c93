/** Pulls to compare: from a table, or from a book with every pull's own rig and water. */
import { closeSync, existsSync, openSync, readSync } from "node:fs";
import { basename, join, resolve } from "node:path";
import Papa from "papaparse";
import { MOST_PULLS, type Pull, readPullsTable } from "../holding/index.ts";
import { InputError, quoted } from "../quantity/index.ts";
import type { Ports } from "../record/index.ts";
import type { PullCase, PullEvidence } from "../study/index.ts";
import { doubtLine, sayNotComparable } from "../words/index.ts";
import type { Io } from "./io.ts";
import { placeOf } from "./options.ts";

export interface PullsRead {
  readonly pulls: readonly Pull[];
  /** Row of the table, or place in the book's list, of each pull. */
  readonly rows: readonly number[];
  readonly leftOut: readonly { readonly row: number; readonly why: string }[];
  /** What is to be said of the clocks of pulls, by their rows. */
  readonly remarks?: readonly { readonly row: number; readonly why: string }[];
  /** Of a book, what each pull looked at says, those left out too. */
  readonly evidence?: readonly PullEvidence[];
  /** And the records each rests on, in the same order. */
  readonly cases?: readonly PullCase[];
  /** The book, or the package, says that its data are invented. */
  readonly invented?: true;
}

/** Pulls of a book, a table or a package, with those of other testers' packages after them. */
export async function pullsAt(
  path: string,
  io: Io,
  ports: Ports | undefined,
  options: {
    readonly json?: true;
    readonly units: "metric" | "us";
    readonly series?: string;
    readonly beside?: readonly string[];
  },
): Promise<PullsRead> {
  const first = await oneSource(path, io, ports, options);
  if (options.beside === undefined) return first;
  let read = { ...first, pulls: testedBy(first.pulls, basename(placeOf(path))) };
  for (const folder of options.beside) {
    const own = await fromPackage(folder, io);
    const more = { ...own, pulls: testedBy(own.pulls, basename(resolve(io.cwd, folder))) };
    // Rows are counted on, so that each number is of one pull.
    const last = Math.max(0, ...read.rows, ...read.leftOut.map(({ row }) => row));
    read = {
      ...read,
      pulls: [...read.pulls, ...more.pulls],
      rows: [...read.rows, ...more.rows.map((row) => row + last)],
      leftOut: [...read.leftOut, ...more.leftOut.map(({ row, why }) => ({ row: row + last, why }))],
      ...(more.invented === true ? { invented: true } : {}),
    };
  }
  return read;
}

/** Pulls of a source of its own: where nobody is named, the source stands for who tested. */
function testedBy(pulls: readonly Pull[], source: string): Pull[] {
  return pulls.map((pull) => (pull.tester === undefined ? { ...pull, tester: source } : pull));
}

async function oneSource(
  path: string,
  io: Io,
  ports: Ports | undefined,
  options: { readonly json?: true; readonly units: "metric" | "us"; readonly series?: string },
): Promise<PullsRead> {
  if (path !== "-" && isBook(resolve(io.cwd, path))) return fromBook(path, io, ports, options);
  if (isPackage(resolve(io.cwd, path))) return fromPackage(path, io);
  if (options.series !== undefined) {
    throw new InputError("--series", quoted(options.series), "a book is expected: a table of pulls has no series");
  }
  const place = placeOf(path);
  const parsed = Papa.parse<string[]>(await io.read(path), {
    skipEmptyLines: true,
    preview: MOST_PULLS + 2,
    delimitersToGuess: [",", ";", "\t"],
  });
  const broken = parsed.errors.find(({ type }) => type === "Quotes");
  if (broken !== undefined) {
    throw new InputError(
      `${place}: row ${(broken.row ?? 0) + 1}`,
      broken.message,
      "cells quoted in pairs are expected",
    );
  }
  const { pulls, rows, leftOut } = readPullsTable(parsed.data, place);
  return { pulls, rows, leftOut };
}

/** The table of a data package, as `publish data` writes one: its tester stands in it. */
async function fromPackage(path: string, io: Io): Promise<PullsRead> {
  const [{ readFolder }, { saysInvented }] = await Promise.all([
    import("./package-folder.ts"),
    import("../publish/index.ts"),
  ]);
  const files = readFolder(path, io);
  const bytes = files.get("pulls.csv");
  if (bytes === undefined) throw new InputError(path, "no pulls.csv in it", "a package of pulls is expected");
  const { data } = Papa.parse<string[]>(new TextDecoder().decode(bytes), { delimiter: ",", skipEmptyLines: true });
  const read = readPullsTable(data, `${path}/pulls.csv`);
  return saysInvented(files.get("datapackage.json")) ? { ...read, invented: true } : read;
}

function isPackage(path: string): boolean {
  return existsSync(join(path, "datapackage.json"));
}

export function isBook(path: string): boolean {
  try {
    const file = openSync(path, "r");
    try {
      const head = Buffer.alloc(15);
      readSync(file, head, 0, 15, 0);
      return head.toString("latin1") === "SQLite format 3";
    } finally {
      closeSync(file);
    }
  } catch {
    return false;
  }
}

async function fromBook(
  path: string,
  io: Io,
  ports: Ports | undefined,
  options: { readonly json?: true; readonly units: "metric" | "us"; readonly series?: string },
): Promise<PullsRead> {
  // The store, and what makes evidence of its pulls, are read where there is a book: a table needs none of it.
  const [{ systemPorts }, { withBook }, { logVerdicts }, { clockRemarks, comparablePulls, pullCases }] =
    await Promise.all([
      import("../book/index.ts"),
      import("./book-with.ts"),
      import("./compare-logs.ts"),
      import("../study/index.ts"),
    ]);
  return withBook(io, ports ?? systemPorts, path, options, (book) => {
    const records = {
      pull: book.list("pull"),
      day: book.list("day"),
      site: book.list("site"),
      seabed: book.list("seabed"),
      anchor: book.list("anchor"),
      rigVersion: book.list("rigVersion"),
      series: book.list("series"),
    };
    let chosen = records.pull;
    if (options.series !== undefined) {
      const named = book.list("series").filter(({ id, name }) => id === options.series || name === options.series);
      if (named.length === 0) {
        const names = book.list("series").map(({ name }) => quoted(name));
        throw new InputError(
          "--series",
          quoted(options.series),
          `one of ${names.join(", ") || "no series"} is expected`,
        );
      }
      chosen = chosen.filter(({ series }) => named.some(({ id }) => id === series));
    }
    const cases = pullCases(records, chosen, logVerdicts(book, pullCases(records, chosen)));
    const { pulls, ids, leftOut, evidence } = comparablePulls(cases);
    const places = new Map(chosen.map(({ id }, i) => [id, i + 1]));
    if (pulls.length === 0) {
      throw new InputError(
        path,
        chosen.length === 0 ? "no pulls" : `${chosen.length} pulls, none of which says what its anchor held`,
        "pulls of named anchors with a result are expected",
      );
    }
    return {
      pulls,
      rows: ids.map((id) => places.get(id)!),
      leftOut: leftOut.map(({ row, cause }) => ({ row, why: sayNotComparable(cause) })),
      remarks: clockRemarks(evidence).map(({ row, doubt }) => ({ row, why: doubtLine(doubt, options.units) })),
      evidence,
      cases,
      ...(book.about().simulated === true ? { invented: true as const } : {}),
    };
  });
}
