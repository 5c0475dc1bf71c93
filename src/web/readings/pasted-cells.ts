/** Pasted text as cells: how they are parted, whether a row of titles stands on top, which sign parts the decimals. */

export interface PastedCells {
  /** The first row where it holds no quantity. */
  readonly titles: readonly string[] | null;
  /** The rows below it, each with its line in what was pasted, counted from 1; empty lines count and are left out. */
  readonly rows: readonly { readonly at: number; readonly cells: readonly string[] }[];
  /** Cells of the widest row. */
  readonly width: number;
  /** The line from which on nothing was taken; null where all was. */
  readonly cutAt: number | null;
  readonly decimal: DecimalSign;
  /** A cell that is one number by a decimal comma and a thousand times as much by a decimal point; null without one. */
  readonly doubtfulNumber: string | null;
}

export type DecimalSign = "point" | "comma";

const MOST_ROWS = 2000;
/** A number with signs that part its digits, with or without a unit behind it. */
const NUMERIC = /^[+−-]?\s*[\d.,'’\u00a0\u202f]*\d[.,]?(?:\s*[a-z°"'µ%/]+)?$/i;

/** The cells of pasted text, parted by tabs, semicolons, commas or spaces. */
export function cellsOfPasted(text: string): PastedCells {
  const lines = text
    .replace(/\r\n?/g, "\n")
    .split("\n")
    .map((line, i) => ({ line, at: i + 1 }))
    .filter(({ line }) => line.trim() !== "");
  const part = partingOf(lines.slice(0, MOST_ROWS).map(({ line }) => line));
  const all = lines.slice(0, MOST_ROWS + 1).map(({ line, at }) => ({ at, cells: part(line) }));
  const titled = all[0]?.cells.every((cell) => !/^[+−-]?[.,]?\d/.test(cell)) ?? false;
  const first = titled ? 1 : 0;
  const rows = all.slice(first, first + MOST_ROWS);
  return {
    titles: titled ? all[0]!.cells : null,
    rows,
    width: Math.max(0, ...all.map(({ cells }) => cells.length)),
    cutAt: lines[first + MOST_ROWS]?.at ?? null,
    ...decimalsOf(rows.flatMap(({ cells }) => cells).filter((cell) => NUMERIC.test(cell))),
  };
}

/** One way of parting for all lines, so that a decimal comma in one of them is seen for what it is. */
function partingOf(lines: readonly string[]): (line: string) => readonly string[] {
  const trimmed = (by: string | RegExp) => (line: string) =>
    (by === "\t" || by === ";" ? line : line.trim()).split(by).map((cell) => cell.trim());
  // Tabs and semicolons may stand before an empty first cell.
  for (const by of ["\t", ";"]) if (lines.some((line) => line.includes(by))) return trimmed(by);
  const numbersBySpace = lines.filter((line) => /\d/.test(line)).map((line) => line.trim().split(/\s+/));
  const spaced =
    numbersBySpace.length > 0 &&
    numbersBySpace.every(
      (cells) =>
        cells.length > 1 && cells.length === numbersBySpace[0]!.length && cells.every((cell) => NUMERIC.test(cell)),
    );
  // "400,5 7,5" holds two numbers; "400, 7.5" holds two as well, parted by the comma.
  if (spaced && numbersBySpace.every((cells) => cells.every((cell) => !cell.endsWith(",")))) return trimmed(/\s+/);
  if (lines.some((line) => line.includes(","))) return trimmed(",");
  // "9 1/2 in" is one quantity, "400 7.5" are two.
  return (line) => {
    const single = line.trim().split(/\s+/);
    return single.every((cell) => /^[+-]?(\d+\.?\d*|\.\d+)$/.test(cell)) ? single : trimmed(/\s{2,}/)(line);
  };
}

function decimalsOf(numbers: readonly string[]): Pick<PastedCells, "decimal" | "doubtfulNumber"> {
  const settled = numbers.map((cell) => decimalSignOf(cell.replace(/[^\d.,]/g, "")));
  const decimal = settled.includes("comma") && !settled.includes("point") ? "comma" : "point";
  const contradicted = settled.includes("comma") && settled.includes("point");
  const doubtful = contradicted
    ? settled.indexOf("comma")
    : settled.includes("comma") || settled.includes("point")
      ? -1
      : settled.indexOf("either");
  return { decimal, doubtfulNumber: numbers[doubtful] ?? null };
}

/** What the digits of one number say of its decimal sign; null where it has none. */
function decimalSignOf(number: string): DecimalSign | "either" | null {
  const signs = number.replace(/\d/g, "");
  if (signs === "") return null;
  const nameOf = (sign: string): DecimalSign => (sign === "," ? "comma" : "point");
  const last = signs.at(-1)!;
  if (signs.includes(",") && signs.includes(".")) return nameOf(last);
  if (signs.length > 1) return last === "," ? "point" : "comma";
  // Thousands are parted in threes, and do not begin with a zero.
  return /^[1-9]\d{0,2}[.,]\d{3}$/.test(number) ? "either" : nameOf(last);
}

/** A cell with its number written with a decimal point and without signs between thousands. */
export function withDecimalPoint(cell: string, decimal: DecimalSign): string {
  if (!NUMERIC.test(cell)) return cell;
  // Quotes and narrow spaces part thousands where digits stand on both sides of them; feet and inches end in theirs.
  const joined = cell.replace(/(?<=\d)['’\u00a0\u202f](?=\d{3}(?!\d))/g, "");
  return decimal === "point" ? joined : joined.replace(/\.(?=\d{3}(?!\d))/g, "").replace(",", ".");
}
