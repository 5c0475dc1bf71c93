/** Which mark parts the decimals of a log's numbers, and which its thousands, judged from cells that prove it. */
import type { Delimiter } from "./cells.ts";
import type { Guessed } from "./dialect.ts";
import { shown } from "./troubles.ts";

export type DecimalMark = "." | ",";
export type GroupingMark = "" | "," | "." | " " | "'";

export interface MarksGuess {
  readonly decimal: Guessed<DecimalMark>;
  readonly grouping: GroupingMark;
  /** The mark of numbers that leave it open, such as 1.122. */
  readonly open: GroupingMark;
  /** True where no number had a mark that could be either. */
  readonly unseen: boolean;
}

/**
 * Judges the marks from cells that look like numbers.
 * @param hints.continental the titles are in a language whose numbers have decimal commas
 * @param hints.large the loads are in a unit of a kilonewton or more, of which no rode bears thousands
 */
export function guessMarks(
  cells: Iterable<string>,
  delimiter: Delimiter,
  hints: { readonly continental?: boolean; readonly large?: boolean } = {},
): MarksGuess {
  const proof = { ".": "", ",": "" };
  const open = { ".": "", ",": "" };
  let grouping: GroupingMark = "";
  /** Whole numbers of three digits: where 1.122 is one thousand one hundred, 987 stands beside it. */
  let hundreds = "";
  for (const cell of cells) {
    const number = /^[+\-−]?([\d.,'’ \u00a0\u2009\u202f]*\d[.,]?)(e[+-]?\d+)?(?![\d.,])/i.exec(cell)?.[1];
    if (number === undefined) continue;
    const commas = count(number, ",");
    const points = count(number, ".");
    const blanks = /\d[ \u00a0\u2009\u202f]\d{3}(?!\d)/.test(number)
      ? " "
      : /\d['’]\d{3}(?!\d)/.test(number)
        ? "'"
        : "";
    if (blanks !== "") grouping = blanks;
    if (commas > 0 && points > 0) {
      const last = number.lastIndexOf(",") > number.lastIndexOf(".") ? "," : ".";
      proof[last] ||= cell;
      grouping = last === "," ? "." : ",";
    } else if (commas > 1 || points > 1) {
      grouping = commas > 1 ? "," : ".";
      proof[commas > 1 ? "." : ","] ||= cell;
    } else if (commas === 1 || points === 1) {
      const mark = commas === 1 ? "," : ".";
      const [before, after] = number.split(mark) as [string, string];
      const grouped = /^[1-9]\d{0,2}$/.test(before.replace(/\D/g, "")) && after.length === 3 && blanks === "";
      if (grouped) open[mark] ||= cell;
      else proof[mark] ||= cell;
    } else if (/^[1-9]\d\d$/.test(number)) hundreds ||= cell;
  }
  const seen = { unseen: false, open: open["."] !== "" ? "." : open[","] !== "" ? "," : "" } as const;
  if (proof["."] !== "" && proof[","] === "")
    return { ...seen, decimal: sure(".", proof["."]), grouping: grouping === "" && open[","] !== "" ? "," : grouping };
  if (proof[","] !== "" && proof["."] === "")
    return { ...seen, decimal: sure(",", proof[","]), grouping: grouping === "" && open["."] !== "" ? "." : grouping };
  if (proof["."] !== "") {
    return { ...seen, decimal: bothMarks(proof), grouping };
  }
  if (open[","] !== "" && open["."] !== "") return { ...seen, decimal: bothMarks(open), grouping };
  if (open[","] !== "") return { ...seen, ...openMark(",", open[","], hundreds, delimiter, hints), grouping };
  if (open["."] !== "") return { ...seen, ...openMark(".", open["."], hundreds, delimiter, hints), grouping };
  return {
    decimal: { value: ".", confidence: 0.9, why: { kind: "noDecimals" } },
    grouping,
    open: "",
    unseen: true,
  };
}

/** Nothing but numbers such as 1.122 or 1,122: thousands or decimals? */
function openMark(
  mark: DecimalMark,
  cell: string,
  hundreds: string,
  delimiter: Delimiter,
  { continental = false, large = false }: { readonly continental?: boolean; readonly large?: boolean },
): { decimal: Guessed<DecimalMark> } {
  if (large && hundreds === "")
    return { decimal: { value: mark, confidence: 0.9, why: { kind: "tooLargeForThousands", cell: shown(cell) } } };
  // A file that parts its cells by commas has its decimals marked by points; it asks only where whole numbers beside speak against it.
  if (mark === "." && delimiter === "," && hundreds === "" && !continental)
    return { decimal: { value: ".", confidence: 0.9, why: { kind: "pointsAmongCommas" } } };
  const beside = hundreds === "" ? null : shown(hundreds);
  return {
    decimal: {
      value: mark,
      confidence: 0.5,
      why: { kind: "markBeforeThree", mark, cell: shown(cell), beside },
    },
  };
}

function sure(value: DecimalMark, cell: string): Guessed<DecimalMark> {
  return { value, confidence: 1, why: { kind: "cellProvesMark", cell: shown(cell) } };
}

function bothMarks(cells: Readonly<Record<DecimalMark, string>>): Guessed<DecimalMark> {
  const why = { kind: "bothMarks", point: shown(cells["."]), comma: shown(cells[","]) } as const;
  return { value: ".", confidence: 0.5, why };
}

function count(text: string, mark: string): number {
  return text.split(mark).length - 1;
}

/** Titles in a language whose numbers have decimal commas. */
export function isContinental(titles: readonly string[]): boolean {
  return titles.some((title) =>
    /\b(zeit|uhrzeit|datum|kraft|zugkraft|last|messwert|heure|effort|hora|fecha|fuerza|carga|ora|forza|carico|tijd|kracht|tid|dato)\b/i.test(
      title,
    ),
  );
}
