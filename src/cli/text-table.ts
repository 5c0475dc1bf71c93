/** Signs of a terminal's line. */
const LINE = 80;
/** Signs of the names before lines of an answer. */
const LABEL = 18;

/** Blanks at which a line may be folded: not between a number and its ± or its unit. */
const BETWEEN_WORDS = /(?<!±) (?!± |(?:N|kN|lbf|m|ft|kn|m\/s|kg|J|s|%)(?![\w·/]))/;

/**
 * Columns of text, each right-aligned under its head. Where they are wider than a line, they go on below, the first column
 * beside each part.
 */
export function textTable(head: readonly string[], rows: readonly (readonly string[])[]): string {
  return tableParts(head, rows)
    .map((columns) => lines(head, rows, columns, "right").join("\n"))
    .join("\n\n")
    .concat("\n");
}

/**
 * The same, left-aligned, with further lines below a row: they stand in the first part alone.
 * @param below the lines below each row
 * @param beside which columns stand beside each other, as `tableParts` tells
 */
export function listTable(
  head: readonly string[],
  rows: readonly (readonly string[])[],
  below: readonly (readonly string[])[],
  beside: readonly (readonly number[])[],
): string {
  return beside
    .map((columns, part) =>
      lines(head, rows, columns, "left")
        .flatMap((line, i) => [line, ...(part > 0 || i === 0 ? [] : below[i - 1]!.map((text) => wrapped(text, 4, 4)))])
        .join("\n"),
    )
    .join("\n\n")
    .concat("\n");
}

/** A line of an answer: its name, and what is said beside it, folded under itself where it is longer than a line. */
export function labelled(name: string, text: string): string {
  return wrapped(`${name.padEnd(LABEL)}${text}`, 0, LABEL);
}

/**
 * A line of a list, folded between its words where it is longer than a line.
 * @param indent blanks before its first line
 * @param hang blanks before the lines it goes on in
 */
export function wrapped(text: string, indent: number, hang: number): string {
  const out: string[] = [];
  let line = " ".repeat(indent);
  let bare = true;
  for (const word of text.split(BETWEEN_WORDS)) {
    if (!bare && line.length + 1 + word.length > LINE) {
      out.push(line);
      line = " ".repeat(hang) + word;
    } else {
      line += bare ? word : ` ${word}`;
    }
    bare = false;
  }
  return [...out, line].join("\n").trimEnd();
}

function widthsOf(head: readonly string[], rows: readonly (readonly string[])[]): number[] {
  return head.map((title, i) => Math.max(title.length, ...rows.map((row) => row[i]?.length ?? 0)));
}

/** Which columns stand beside each other, part by part; the first is in each. */
export function tableParts(head: readonly string[], rows: readonly (readonly string[])[]): number[][] {
  const widths = widthsOf(head, rows);
  const all: number[][] = [[0]];
  let wide = widths[0] ?? 0;
  for (let i = 1; i < head.length; i++) {
    if (wide + 2 + widths[i]! > LINE && all.at(-1)!.length > 1) {
      all.push([0]);
      wide = widths[0]!;
    }
    all.at(-1)!.push(i);
    wide += 2 + widths[i]!;
  }
  return all;
}

function lines(
  head: readonly string[],
  rows: readonly (readonly string[])[],
  columns: readonly number[],
  side: "left" | "right",
): string[] {
  const of = (row: readonly string[]) => columns.flatMap((i) => (row[i] === undefined ? [] : [row[i]]));
  const widths = widthsOf(of(head), rows.map(of));
  return [head, ...rows].map((row) =>
    of(row)
      .map((cell, i) => (side === "right" ? cell.padStart(widths[i]!) : cell.padEnd(widths[i]!)))
      .join("  ")
      .trimEnd(),
  );
}
