/** A table on pages: its head said again on each, no row cut in two. */
import type { Block, PdfCell } from "./blocks.ts";
import { COLOURS, COLUMN, type Flow, LEFT, type Letters } from "./flow.ts";
import type { StructureElement } from "./tools.ts";
import { wrapped } from "./wrap.ts";

const LETTERS: Letters = { size: 8.5 };
const LINE = 11;
const GAP = 9;
const PAD = 2.5;
/** Letters of a table too wide for the page get smaller, but not below this. */
const LEAST = 6;
/** A table of so many rows is not parted over two pages. */
const SHORT = 8;

type Table = Extract<Block, { kind: "table" }>;
type Row = Table["rows"][number];

interface Laid {
  readonly row: Row;
  readonly lines: readonly string[][];
  readonly height: number;
}

export function layTable(flow: Flow, parent: StructureElement, table: Table): void {
  const { pdf } = flow;
  const element = pdf.struct("Table");
  parent.add(element);
  const size = sizeFor(flow, table);
  const letters = { ...LETTERS, size };
  const widths = columnWidths(flow, table, letters);
  const lay = (row: Row): Laid => {
    const lines = row.cells.map(({ says }, i) => linesIn(flow, says, widths[i] ?? 0, letters));
    const high = Math.max(1, ...lines.map((one) => one.length)) * LINE * (size / LETTERS.size) + 2 * PAD;
    return { row, lines, height: Math.max(high, row.least) };
  };
  const head = lay({ cells: table.head, marked: false, least: 0 });
  const rows = table.rows.map(lay);
  const begun = rows.length <= SHORT ? rows : rows.slice(0, 3);
  const opening = begun.reduce((sum, { height }) => sum + height, head.height);
  if (table.caption !== "") {
    const soft = { size: 8.5, colour: COLOURS.soft };
    const lines = linesIn(flow, table.caption, COLUMN, soft);
    flow.room(lines.length * LINE + 4 + opening);
    const caption = pdf.struct("Caption");
    element.add(caption);
    flow.mark(caption, "Caption");
    for (const line of lines) {
      flow.say(line, LEFT, flow.y, soft);
      flow.y += LINE;
    }
    flow.close();
    caption.end();
    flow.y += 4;
  }
  flow.room(opening);
  const draw = (laid: Laid, scope: "Column" | null): void => {
    const parts = pdf.struct("TR");
    element.add(parts);
    drawRow(flow, parts, laid, widths, letters, scope);
    parts.end();
  };
  const again = (): void => flow.aside("Layout", () => drawRow(flow, null, head, widths, letters, "Column"));
  if (table.head.length > 0) draw(head, "Column");
  for (const laid of rows) {
    flow.room(laid.height, table.head.length > 0 ? again : undefined);
    draw(laid, null);
  }
  element.end();
  flow.y += 8;
}

function drawRow(
  flow: Flow,
  parts: StructureElement | null,
  { row, lines, height }: Laid,
  widths: readonly number[],
  letters: Letters,
  scope: "Column" | null,
): void {
  const { pdf, y } = flow;
  const line = LINE * (letters.size / LETTERS.size);
  const edge = (): void => {
    if (row.marked)
      pdf
        .rect(LEFT - 3, y, COLUMN + 6, height)
        .fillColor(COLOURS.wash)
        .fillOpacity(1)
        .fill();
    pdf.undash();
    pdf
      .lineWidth(0.5)
      .strokeColor(scope === null ? COLOURS.edge : COLOURS.soft)
      .strokeOpacity(1);
    pdf.path(`M${LEFT} ${y + height}L${LEFT + COLUMN} ${y + height}`).stroke();
    // What is to be written in by hand has its edge to the left.
    if (row.least > 0)
      row.cells.forEach(({ says }, i) => {
        if (says !== "") return;
        const at = LEFT + widths.slice(0, i).reduce((x, width) => x + width + GAP, -GAP / 2);
        pdf.path(`M${at} ${y}L${at} ${y + height}`).stroke();
      });
  };
  if (parts === null) edge();
  else flow.aside("Layout", edge);
  let x = LEFT;
  row.cells.forEach((cell, i) => {
    const role = scope !== null || cell.heads === true ? "TH" : "TD";
    const element = parts === null ? null : pdf.struct(role, role === "TH" ? { scope: scope ?? "Row" } : {});
    if (parts !== null && element !== null) {
      parts.add(element);
      flow.mark(element, role);
    }
    const style = { ...letters, bold: row.marked, ...(scope === null ? {} : { colour: COLOURS.soft }) };
    lines[i]!.forEach((says, k) => {
      const room = widths[i]! - flow.widthOf(says, style);
      flow.say(says, x + (cell.number === true ? room : 0), y + PAD + k * line, style);
    });
    if (element !== null) {
      flow.close();
      element.end();
    }
    x += widths[i]! + GAP;
  });
  flow.y += height;
}

function linesIn(flow: Flow, says: string, width: number, letters: Letters): string[] {
  const wide = (text: string): number => flow.widthOf(text, letters);
  return wrapped([{ says }], Math.max(width, 1), wide).map((line) =>
    line
      .map((piece) => piece.says)
      .join("")
      .trimEnd(),
  );
}

const columns = ({ head, rows }: Table): (readonly PdfCell[])[] =>
  head.map((cell, i) => [cell, ...rows.flatMap(({ cells }) => (cells[i] === undefined ? [] : [cells[i]]))]);

/** The widest word of each column. */
function narrowest(flow: Flow, table: Table, letters: Letters): number[] {
  return columns(table).map((cells) =>
    Math.max(0, ...cells.flatMap(({ says }) => says.split(/\s+/).map((word) => flow.widthOf(word, letters)))),
  );
}

const sum = (values: readonly number[]): number => values.reduce((all, one) => all + one, 0);

function sizeFor(flow: Flow, table: Table): number {
  const room = COLUMN - GAP * (table.head.length - 1);
  const least = sum(narrowest(flow, table, { ...LETTERS, bold: true }));
  return least <= room ? LETTERS.size : Math.max(LEAST, (LETTERS.size * room) / least);
}

/** As wide as what stands in them where that fits; else each its widest word, and the rest by what they would need. */
function columnWidths(flow: Flow, table: Table, letters: Letters): number[] {
  const room = COLUMN - GAP * (table.head.length - 1);
  const bold = { ...letters, bold: true };
  const least = narrowest(flow, table, bold);
  const natural = columns(table).map((cells, i) =>
    Math.max(least[i]!, ...cells.map(({ says }) => flow.widthOf(says, bold) + 0.5)),
  );
  if (sum(natural) <= room) {
    // Rows to be written in by hand take the whole width.
    const more = table.rows.some((row) => row.least > 0) ? (room - sum(natural)) / natural.length : 0;
    return natural.map((width) => width + more);
  }
  const spare = room - sum(least);
  if (spare <= 0) return least.map((width) => (width * room) / sum(least));
  const wanted = natural.map((width, i) => width - least[i]!);
  return least.map((width, i) => width + (spare * wanted[i]!) / sum(wanted));
}
