/**
 * How a table of readings is written: what parts its cells, how its numbers are marked, where its header and its first
 * row of data stand. Each choice is scored on the first lines by how many cells it turns into numbers and stamps in
 * rows of one width; the reasons are kept for people.
 */
import type { GuessCause } from "./cause.ts";
import type { Delimiter, Line } from "./cells.ts";
import { cellsOf, lookOf } from "./cells.ts";
import { isUnit } from "./title.ts";

/** Something guessed of a file, with the reason. */
export interface Guessed<T> {
  readonly value: T;
  /** 0 to 1: share of belief, for people; below 0.6 it is asked. */
  readonly confidence: number;
  readonly why: GuessCause;
}

export interface Layout {
  readonly delimiter: Guessed<Delimiter>;
  /** Lines, 1 first: header null when there is none; `unitsLine` where units stand in a row of their own. */
  readonly headerLine: number | null;
  readonly unitsLine: number | null;
  readonly dataLine: number;
  /** Cells a row of data has. */
  readonly width: number;
  readonly titles: readonly string[];
  readonly units: readonly string[];
  /** Lines before the header. */
  readonly preamble: readonly string[];
  /** Cells of the first rows of data. */
  readonly rows: readonly (readonly string[])[];
}

/** Measurement files that mark where the lines about the file end say so in these words. */
const HEADER_ENDS = /^\**\s*end[_ ]of[_ ]header/i;

const DELIMITERS: readonly Delimiter[] = ["\t", ";", "|", ",", " ", ""];
const SAYS: Record<Delimiter, string> = {
  "\t": "tab",
  ";": "semicolon",
  "|": "bar",
  ",": "comma",
  " ": "blanks",
  "": "one column",
};

export function delimiterName(delimiter: Delimiter): string {
  return SAYS[delimiter];
}

/** The delimiter that turns most of these lines into rows of one width made of numbers and stamps; null: none does. */
export function guessLayout(lines: readonly Line[], told?: Delimiter): Layout | null {
  let best: { layout: Layout; score: number } | null = null;
  for (const delimiter of told === undefined ? DELIMITERS : [told]) {
    const tried = tryDelimiter(lines, delimiter);
    if (tried === null) continue;
    // A later one must be clearly better: blanks also part what tabs part, and dates from their clocks.
    const margin = delimiter === " " && best !== null && best.layout.width > 1 ? 0.25 : 0.02;
    if (best === null || tried.score > best.score + margin) best = tried;
  }
  if (best === null) return null;
  if (told === undefined) return best.layout;
  return { ...best.layout, delimiter: { value: told, confidence: 1, why: { kind: "told" } } };
}

function tryDelimiter(lines: readonly Line[], delimiter: Delimiter): { layout: Layout; score: number } | null {
  const begin = 1 + lines.findLastIndex((line) => HEADER_ENDS.test(line.text));
  const split = lines.map((line, i) => (i < begin || line.text.trim() === "" ? [] : cellsOf(line.text, delimiter)));
  const looks = split.map((cells) => cells.map(lookOf));
  const valued = looks.map((row) => row.filter((look) => look === "number" || look === "stamp").length);
  const widths = new Map<number, number>();
  split.forEach((cells, i) => {
    if (valued[i]! > 0 && (delimiter === "" || cells.length > 1))
      widths.set(cells.length, (widths.get(cells.length) ?? 0) + 1);
  });
  let width = 0;
  for (const [w, count] of widths) if (count > (widths.get(width) ?? 0)) width = w;
  if (width === 0) return null;
  const isData = (i: number) =>
    split[i]!.length === width && valued[i]! > 0 && looks[i]!.filter((look) => look === "text").length < width;
  // Remarks among the rows say nothing of how they are parted.
  const isRemark = (i: number) => split[i]!.length === 0 || isComment(lines[i]!.text);
  const first = split.findIndex((_, i) => isData(i) && !isRemark(i) && startsData(i, split.length, isData, isRemark));
  if (first < 0) return null;
  let rows = 0;
  let typed = 0;
  let full = 0;
  for (let i = first; i < split.length; i++) {
    if (isRemark(i)) continue;
    rows++;
    if (split[i]!.length !== width) continue;
    full++;
    typed += looks[i]!.filter((look) => look !== "text").length / width;
  }
  const { headerLine, unitsLine } = findHeader(split, looks, first, width);
  const score =
    (full / rows) * 0.5 +
    (typed / rows) * 0.5 +
    (headerLine !== null && split[headerLine]!.length === width ? 0.1 : 0) +
    (width > 1 ? 0.1 : 0);
  const top = headerLine ?? unitsLine ?? first;
  const line = (i: number | null) => (i === null ? null : lines[i]!.number);
  return {
    score,
    layout: {
      delimiter: {
        value: delimiter,
        confidence: Math.min(1, Math.round(100 * (0.5 * (full / rows) + 0.5 * (typed / rows))) / 100),
        why: { kind: "rowsOfWidth", rows: full, lines: rows, width },
      },
      headerLine: line(headerLine),
      unitsLine: line(unitsLine),
      dataLine: lines[first]!.number,
      width,
      titles: headerLine === null ? [] : titlesOf(split[headerLine]!, width),
      units: unitsLine === null ? [] : split[unitsLine]!,
      preamble: lines
        .slice(0, top)
        .map((l) => l.text)
        .filter((text) => text.trim() !== ""),
      rows: split.filter((_, i) => i >= first && !isRemark(i)),
    },
  };
}

/** A row of data in a preamble is a chance; three of the next four lines being rows is a table. */
function startsData(
  i: number,
  length: number,
  isData: (i: number) => boolean,
  isRemark: (i: number) => boolean,
): boolean {
  let seen = 0;
  let good = 0;
  for (let k = i + 1; k < length && seen < 4; k++) {
    if (isRemark(k)) continue;
    seen++;
    if (isData(k)) good++;
  }
  return good >= Math.min(3, seen) - (seen > 0 && seen < 3 ? 1 : 0);
}

/** A line of words set off from the rows by its first sign. */
export function isComment(text: string): boolean {
  return /^\s*(#|%|\/\/|;|\*|!|--)/.test(text) && /\p{L}/u.test(text);
}

function findHeader(
  split: readonly string[][],
  looks: readonly string[][],
  first: number,
  width: number,
): { headerLine: number | null; unitsLine: number | null } {
  const above = (from: number) => {
    let i = from - 1;
    while (i >= 0 && split[i]!.length === 0) i--;
    return i;
  };
  const fits = (i: number) =>
    i >= 0 &&
    titleCells(split[i]!) >= Math.max(1, width / 2) &&
    Math.abs(titlesOf(split[i]!, width).length - width) <= Math.max(1, width / 4) &&
    looks[i]!.filter((look) => look === "number" || look === "stamp").length <= width / 3;
  const near = above(first);
  if (near < 0) return { headerLine: null, unitsLine: null };
  const further = above(near);
  if (unitCells(split[near]!) && fits(further) && !unitCells(split[further]!))
    return { headerLine: further, unitsLine: near };
  return { headerLine: fits(near) ? near : null, unitsLine: null };
}

function titleCells(cells: readonly string[]): number {
  return cells.filter((cell) => /\p{L}|[#°%]/u.test(cell)).length;
}

/** A row that holds nothing but units, in or out of brackets, one of them of a reading or a time at least. */
function unitCells(cells: readonly string[]): boolean {
  const written = cells.map((cell) => cell.replace(/^[[(]\s*|\s*[\])]$/g, "")).filter((cell) => cell !== "");
  return written.some((cell) => isUnit(cell)) && written.every((cell) => isUnit(cell) || NO_UNIT.test(cell));
}

/** What stands in a row of units over columns that have none of ours. */
const NO_UNIT = /^(-+|#|%|v|mv|ma|°?[cf]|hpa|mbar|dbm?|text|[ymd/.-]{6,10}|hh:mm:ss(\.\w+)?)$/i;

function titlesOf(cells: readonly string[], width: number): string[] {
  const titles = cells.map((cell, i) => (i === 0 ? cell.replace(/^[#%;*]+\s*/, "") : cell).trim());
  // "# time load": the mark parted from the first title by blanks.
  return titles[0] === "" && /^[#%;*]+$/.test(cells[0] ?? "") && titles.length > width ? titles.slice(1) : titles;
}
