/** Which mark parts the decimals of a log's numbers, and which its thousands, judged from cells that prove it. */
import type { Delimiter } from "./cells.ts";
import type { Guessed } from "./dialect.ts";
import { shown } from "./troubles.ts";

export type DecimalMark = "." | ",";
export type GroupingMark = "" | "," | "." | " " | "'";

export interface MarksGuess {
  readonly decimal: Guessed<DecimalMark>;
  readonly grouping: GroupingMark;
}

/** Judges the marks from cells that look like numbers. */
export function guessMarks(cells: Iterable<string>, delimiter: Delimiter): MarksGuess {
  const proof = { ".": "", ",": "" };
  const open = { ".": 0, ",": 0 };
  let grouping: GroupingMark = "";
  for (const cell of cells) {
    const number = /^[+-]?([\d.,' \u00a0]*\d[.,]?)(e[+-]?\d+)?(?![\d.,])/i.exec(cell)?.[1];
    if (number === undefined) continue;
    const commas = count(number, ",");
    const points = count(number, ".");
    const blanks = /\d[ \u00a0]\d{3}(?!\d)/.test(number) ? " " : /\d'\d{3}(?!\d)/.test(number) ? "'" : "";
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
      const grouped = /^[1-9]\d{0,2}$/.test(before.replace(/\D/g, "")) && after.length === 3;
      if (grouped) open[mark]++;
      else proof[mark] ||= cell;
    }
  }
  if (proof["."] !== "" && proof[","] === "")
    return { decimal: sure(".", proof["."]), grouping: grouping === "" && open[","] > 0 ? "," : grouping };
  if (proof[","] !== "" && proof["."] === "")
    return { decimal: sure(",", proof[","]), grouping: grouping === "" && open["."] > 0 ? "." : grouping };
  if (proof["."] !== "") {
    return {
      decimal: { value: ".", confidence: 0.5, why: `both ${shown(proof["."])} and ${shown(proof[","])} occur` },
      grouping,
    };
  }
  if (open[","] > 0 && open["."] === 0) {
    // 1,234 alone may be either; a semicolon between cells is how programs with a decimal comma part them.
    const confidence = delimiter === ";" ? 0.8 : 0.5;
    const why =
      delimiter === ";"
        ? "commas in cells parted by semicolons"
        : "a comma before three digits may mark thousands or decimals";
    return { decimal: { value: ",", confidence, why }, grouping };
  }
  return {
    decimal: {
      value: ".",
      confidence: 0.9,
      why: open["."] > 0 ? "points in numbers" : "no number with decimals among the first rows",
    },
    grouping,
  };
}

function sure(value: DecimalMark, cell: string): Guessed<DecimalMark> {
  return { value, confidence: 1, why: `cells such as ${shown(cell)}` };
}

function count(text: string, mark: string): number {
  return text.split(mark).length - 1;
}
