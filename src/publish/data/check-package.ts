/**
 * A package checked by itself: its files against its descriptor, its table against its columns and its Parquet, every number
 * worked out again from what was read, and the answers again from the table.
 */
import { InputError, quoted } from "../../quantity/index.ts";
import { type Column, columnsOfHeader, WORKED_OUT } from "./columns.ts";
import { ANSWERS_FILE, DESCRIPTOR_FILE, type PackageFiles, PULLS_FILE } from "./data-package.ts";
import { workedAgain } from "./pull-rows.ts";
import { readTableCsv, readTableParquet, type TableRow } from "./table.ts";

/** One thing that is not as the package says. */
export interface Difference {
  /** "pulls.csv, row 3, heldTo_N" */
  readonly where: string;
  readonly published: string;
  readonly found: string;
}

/** What a check looked at, and what differs. */
export interface PackageChecked {
  readonly title: string;
  readonly files: number;
  readonly pulls: number;
  /** Numbers worked out again: of pulls, and of answers. */
  readonly numbers: number;
  readonly answers: number;
  readonly differences: readonly Difference[];
}

/** What checking needs from outside. */
export interface CheckWith {
  readonly sha256: (bytes: Uint8Array) => Promise<string>;
  /** The answers from the table, with the package's own seed. */
  readonly answersOf: (csv: string, seed: number) => Promise<object>;
}

/** Numbers made by the same arithmetic differ by rounding alone: on other machines in the last few digits. */
const ROUNDING = 1e-9;
/**
 * What draws conclude moves with the last digit of each step, which another machine rounds otherwise: as far as another seed
 * of as many draws moves it. A 95 % limit from a thousand effective draws has a standard error of a 45th of its band's width
 * (√(p(1−p)) / (φ(z) √n) deviations, of which the band has 3.9); three of them, of both sides, are a tenth.
 */
const OF_BAND = 0.15;
/** A chance from as many draws is good to 0.016; a deviation to some per cent. */
const DRAWN = 0.1;
const LEAST_SCALE = 0.7;
const OF_DRAWS = ["posterior", "holds", "pairs", "testers", "laws", "priors"];
/** Words, counts and diagnostics that draws lead to: with other last digits these may be others, and nothing is wrong. */
const NOT_COMPARED = [
  ...["verdicts", "causes", "influential", "morePulls"],
  ...["rHatWorst", "effectiveLeast", "divergent", "rHat", "effective", "elpd", "se", "badK"],
];

/** @throws InputError when the descriptor or the table cannot be read at all */
export async function checkPackage(files: PackageFiles, { sha256, answersOf }: CheckWith): Promise<PackageChecked> {
  const differences: Difference[] = [];
  const differ = (where: string, published: unknown, found: unknown): void => {
    differences.push({ where, published: told(published), found: told(found) });
  };
  const { title, resources } = readDescriptor(files);
  for (const { path, bytes, hash } of resources) {
    const content = files.get(path);
    if (content === undefined) differ(path, "in the package", "no such file");
    else if (content.length !== bytes) differ(`${path}, bytes`, bytes, content.length);
    else if (`sha256:${await sha256(content)}` !== hash) differ(`${path}, content`, hash, "another");
  }
  const csv = textOf(files, PULLS_FILE);
  const columns = columnsOf(csv);
  const rows = readTableCsv(columns, csv, PULLS_FILE);
  await checkParquet(files, columns, rows, differ);
  const numbers = checkRows(files, rows, differ);
  const published = jsonOf(files, ANSWERS_FILE);
  const seed = jsonOf(files, "made.json").seed;
  if (typeof seed !== "number") throw new InputError("made.json", told(seed), "a seed is expected");
  const answers = compareTrees(published, await answersOf(csv, seed), ANSWERS_FILE, differ, false);
  return { title, files: resources.length, pulls: rows.length, numbers, answers, differences };
}

interface Described {
  readonly title: string;
  readonly resources: readonly { readonly path: string; readonly bytes: number; readonly hash: string }[];
}

function readDescriptor(files: PackageFiles): Described {
  const read = jsonOf(files, DESCRIPTOR_FILE);
  const { title, resources } = read;
  if (!Array.isArray(resources))
    throw new InputError(DESCRIPTOR_FILE, "no resources", "a list of resources is expected");
  return {
    title: typeof title === "string" ? title : "",
    resources: resources.map((one: Record<string, unknown>, i) => {
      const { path, bytes, hash } = one ?? {};
      // A path that leads out of the package is none of its files.
      if (typeof path !== "string" || /^[/\\]|(^|[/\\])\.\.([/\\]|$)|^[a-z]+:/i.test(path))
        throw new InputError(
          `${DESCRIPTOR_FILE}: resource ${i + 1}`,
          told(path),
          "a path within the package is expected",
        );
      if (typeof bytes !== "number" || typeof hash !== "string")
        throw new InputError(`${DESCRIPTOR_FILE}: ${path}`, "without bytes or hash", "both are expected");
      return { path, bytes, hash };
    }),
  };
}

function columnsOf(csv: string): readonly Column[] {
  return columnsOfHeader(csv.slice(0, csv.search(/\r?\n/)).split(","));
}

type Differ = (where: string, published: unknown, found: unknown) => void;

async function checkParquet(
  files: PackageFiles,
  columns: readonly Column[],
  rows: readonly TableRow[],
  differ: Differ,
): Promise<void> {
  const bytes = files.get("pulls.parquet");
  if (bytes === undefined) return;
  let read: readonly TableRow[];
  try {
    read = await readTableParquet(bytes);
  } catch {
    differ("pulls.parquet", "a Parquet file", "bytes that are none");
    return;
  }
  if (read.length !== rows.length) differ("pulls.parquet, rows", rows.length, read.length);
  rows.forEach((row, i) => {
    for (const { name } of columns) {
      const other = read[i]?.[name] ?? null;
      if (other !== row[name]) differ(`pulls.parquet, row ${i + 1}, ${name}`, row[name], other);
    }
  });
}

function checkRows(files: PackageFiles, rows: readonly TableRow[], differ: Differ): number {
  let numbers = 0;
  for (const row of rows) {
    const { rig } = row;
    const file = typeof rig === "string" ? textOf(files, rig) : null;
    const again = workedAgain(row, file);
    for (const name of WORKED_OUT) {
      const [published, found] = [row[name] ?? null, again?.[name] ?? null];
      if (published !== null || found !== null) numbers++;
      if (!alike(published, found)) differ(`${PULLS_FILE}, pull ${row.pull}, ${name}`, published, found);
    }
  }
  return numbers;
}

/** Compares two answers to the leaves. @returns how many numbers were compared */
function compareTrees(published: unknown, found: unknown, where: string, differ: Differ, drawn: boolean): number {
  if (typeof published === "number") {
    const same = drawn ? alikeAsDrawn(published, found) : alike(published, found);
    if (!same) differ(where, published, found);
    return 1;
  }
  if (typeof published !== "object" || published === null) {
    if (published !== found) differ(where, published, found);
    return 0;
  }
  const [one, other] = [published, found ?? {}] as Record<string, unknown>[];
  const band = drawn ? bandOf(one!) : null;
  let count = 0;
  for (const name of new Set([...Object.keys(one!), ...Object.keys(other!)])) {
    const ofDraws = drawn || (where === ANSWERS_FILE && OF_DRAWS.includes(name));
    if (NOT_COMPARED.includes(name) && (drawn || where === ANSWERS_FILE)) continue;
    const [a, b] = [one![name], other![name]];
    if (band !== null && typeof a === "number" && typeof b === "number") {
      count++;
      if (!alikeAsDrawn(a, b) && !withinBand(a, b, band)) differ(`${where}, ${name}`, a, b);
    } else count += compareTrees(a, b, `${where}, ${name}`, differ, ofDraws);
  }
  return count;
}

/** The 95 % band a group states, `low` to `high` whatever their unit; null where it states none. */
function bandOf(group: Record<string, unknown>): readonly [low: number, high: number] | null {
  const [low, high] = ["low", "high"].map(
    (name) => Object.entries(group).find(([key]) => key.split("_")[0] === name)?.[1],
  );
  return typeof low === "number" && typeof high === "number" ? [low, high] : null;
}

/** Loads spread as their logarithms do; what may be below zero, as it is. */
function withinBand(a: number, b: number, [low, high]: readonly [low: number, high: number]): boolean {
  return low > 0 && a > 0 && b > 0
    ? Math.abs(Math.log(a / b)) <= OF_BAND * Math.log(high / low)
    : Math.abs(a - b) <= OF_BAND * (high - low);
}

function alikeAsDrawn(a: number, b: unknown): boolean {
  return typeof b === "number" && Math.abs(a - b) <= DRAWN * Math.max(Math.abs(a), Math.abs(b), LEAST_SCALE);
}

function alike(a: unknown, b: unknown): boolean {
  if (typeof a === "number" && typeof b === "number")
    return Math.abs(a - b) <= ROUNDING * Math.max(Math.abs(a), Math.abs(b), 1e-6);
  return a === b;
}

function textOf(files: PackageFiles, path: string): string {
  const bytes = files.get(path);
  if (bytes === undefined) throw new InputError(path, "no such file", "a file of the package is expected");
  return new TextDecoder().decode(bytes);
}

function jsonOf(files: PackageFiles, path: string): Record<string, unknown> {
  const text = textOf(files, path);
  try {
    const read: unknown = JSON.parse(text);
    if (typeof read === "object" && read !== null && !Array.isArray(read)) return read as Record<string, unknown>;
  } catch {
    // Told below.
  }
  throw new InputError(path, "no JSON document", "a group of fields is expected");
}

const told = (value: unknown): string => (typeof value === "string" ? quoted(value) : String(value ?? "nothing"));
