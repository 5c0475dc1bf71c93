/** A document laid out on A4 pages as a tagged PDF: headings stay with what they head, no figure and no row is cut. */
import type { Block, PdfDocument, Run } from "./blocks.ts";
import { COLOURS, COLUMN, Flow, LEFT, type Letters, TALLEST } from "./flow.ts";
import { layTable } from "./lay-table.ts";
import { paintSvg } from "./paint-svg.ts";
import { ALWAYS, type PdfTools, pdfBytes, type StructureElement } from "./tools.ts";
import { type Piece, wrapped } from "./wrap.ts";

const BODY: Letters = { size: 9.5 };
const LINE = 13.5;
const SMALL: Letters = { size: 8.5, colour: COLOURS.soft };
const HEADINGS = {
  1: { size: 19, line: 24, above: 0, below: 2 },
  2: { size: 12.5, line: 16, above: 14, below: 5 },
  3: { size: 10.5, line: 14, above: 9, below: 3 },
} as const;
/** Signs to be found by, their line above them. */
const CODE = { letters: { size: 18, bold: true }, above: 6, gap: 20, below: 6 } as const;
const BOX = "□";
/** A heading stands on a page with at least so much of what it heads. */
const HEADED = 3 * LINE;

/** @returns PDF 1.7, tagged; the same document gives the same bytes */
export function documentPdf(document: PdfDocument, tools: PdfTools): Promise<Uint8Array> {
  return pdfBytes(tools, document, (pdf) => {
    const flow = new Flow(pdf);
    flow.page();
    const whole = pdf.struct("Document");
    pdf.addStructure(whole);
    layAll(flow, whole, document.blocks);
    whole.end();
    for (let page = 0; page < flow.pages; page++) {
      pdf.switchToPage(page);
      flow.aside("Pagination", () => {
        const number = `${page + 1} of ${flow.pages}`;
        flow.say(number, LEFT + COLUMN - flow.widthOf(number, SMALL), 800, SMALL);
        const [title] = wrapped([{ says: document.title }], COLUMN - 60, (says) => flow.widthOf(says, SMALL));
        flow.say(title!.map(({ says }) => says).join(""), LEFT, 800, SMALL);
      });
    }
    for (const { name, address } of document.attached)
      pdf.file(address, { name, creationDate: ALWAYS, modifiedDate: ALWAYS });
  });
}

function layAll(flow: Flow, parent: StructureElement, blocks: readonly Block[]): void {
  blocks.forEach((block, i) => {
    lay(flow, parent, block, blocks[i + 1]);
  });
}

function lay(flow: Flow, parent: StructureElement, block: Block, next: Block | undefined): void {
  switch (block.kind) {
    case "heading":
      heading(flow, parent, block, next);
      break;
    case "paragraph":
      paragraph(flow, parent, block);
      break;
    case "list":
      list(flow, parent, block);
      break;
    case "table":
      layTable(flow, parent, block);
      break;
    case "figure":
      figure(flow, parent, block);
      break;
    case "page":
      flow.page();
      break;
    case "together":
      flow.room(
        Math.min(
          TALLEST,
          block.blocks.reduce((sum, one) => sum + about(flow, one), 0),
        ),
      );
      layAll(flow, parent, block.blocks);
  }
}

function heading(
  flow: Flow,
  parent: StructureElement,
  { level, says, code }: Extract<Block, { kind: "heading" }>,
  next: Block | undefined,
): void {
  const { size, line, above, below } = HEADINGS[level];
  const letters = { size, bold: true };
  const wide = code === undefined ? 0 : flow.widthOf(code, CODE.letters);
  const lines = linesOf(flow, [{ says, bold: true }], COLUMN - (code === undefined ? 0 : wide + CODE.gap), letters);
  flow.y += above;
  const whole = next?.kind === "figure" || next?.kind === "table";
  const headed = whole ? Math.min(about(flow, next), TALLEST / 2) : HEADED;
  flow.room(lines.length * line + below + headed);
  if (code !== undefined)
    flow.aside("Layout", () => {
      const at = flow.y - CODE.above;
      flow.pdf
        .lineWidth(1)
        .strokeColor(COLOURS.ink)
        .strokeOpacity(1)
        .path(`M${LEFT} ${at}L${LEFT + COLUMN} ${at}`)
        .stroke();
    });
  element(flow, parent, `H${level}`, () => {
    if (code !== undefined) flow.say(code, LEFT + COLUMN - wide, flow.y - 2, CODE.letters);
    write(flow, lines, LEFT, line, letters);
  });
  flow.y += below + (code === undefined ? 0 : CODE.below);
}

function paragraph(flow: Flow, parent: StructureElement, block: Extract<Block, { kind: "paragraph" }>): void {
  const { runs, as } = block;
  const letters = as === "small" ? SMALL : BODY;
  const line = as === "small" ? 11.5 : LINE;
  const inset = as === "caution" || as === "quote" ? 10 : 0;
  const lines = linesOf(flow, runs, COLUMN - inset, letters);
  if (inset > 0) {
    flow.room(lines.length * line);
    const [top, high] = [flow.y, lines.length * line];
    flow.aside("Layout", () => {
      const colour = as === "caution" ? COLOURS.warn : COLOURS.edge;
      flow.pdf.rect(LEFT, top, 2.5, high).fillColor(colour).fillOpacity(1).fill();
    });
  }
  element(flow, parent, as === "quote" ? "BlockQuote" : "P", () => write(flow, lines, LEFT + inset, line, letters));
  flow.y += 5;
}

function list(flow: Flow, parent: StructureElement, { items, marks }: Extract<Block, { kind: "list" }>): void {
  const { pdf } = flow;
  const mark = (i: number): string => ({ points: "•", numbers: `${i + 1}.`, boxes: BOX })[marks];
  const whole = pdf.struct("L");
  parent.add(whole);
  items.forEach((runs, i) => {
    const lines = linesOf(flow, runs, COLUMN - 14, BODY);
    flow.room(Math.min(lines.length, 2) * LINE);
    const item = pdf.struct("LI");
    whole.add(item);
    element(flow, item, "Lbl", () => flow.say(mark(i), LEFT + 2, flow.y, BODY));
    element(flow, item, "LBody", () => write(flow, lines, LEFT + 14, LINE, BODY));
    item.end();
    flow.y += 2.5;
  });
  whole.end();
  flow.y += 4;
}

function figure(flow: Flow, parent: StructureElement, block: Extract<Block, { kind: "figure" }>): void {
  const { svg, width, height, describes, caption } = block;
  const lines = linesOf(flow, [{ says: caption }], COLUMN, SMALL);
  const below = caption === "" ? 0 : lines.length * 11.5 + 4;
  const points = Math.min(COLUMN / width, 0.72, (TALLEST - below) / height);
  flow.room(points * height + below);
  const [left, top] = [LEFT, flow.y];
  const drawn = flow.pdf.struct("Figure", {
    alt: describes,
    bbox: [left, top, left + points * width, top + points * height],
  });
  parent.add(drawn);
  flow.mark(drawn, "Figure");
  paintSvg(flow.pdf, svg, left, top, points);
  flow.close();
  drawn.end();
  flow.y += points * height + 4;
  if (caption !== "") element(flow, parent, "Caption", () => write(flow, lines, LEFT, 11.5, SMALL));
  flow.y += 8;
}

/** About how high a block is, pt. */
function about(flow: Flow, block: Block): number {
  if (block.kind === "heading") return HEADINGS[block.level].line + HEADINGS[block.level].above + 5;
  if (block.kind === "paragraph") return linesOf(flow, block.runs, COLUMN, BODY).length * LINE + 5;
  if (block.kind === "list")
    return block.items.reduce((sum, runs) => sum + linesOf(flow, runs, COLUMN - 14, BODY).length * LINE + 2.5, 4);
  if (block.kind === "table") return block.rows.reduce((sum, { least }) => sum + Math.max(least, 16), 40);
  if (block.kind === "figure") return Math.min(COLUMN / block.width, 0.72) * block.height + 40;
  return 0;
}

function element(flow: Flow, parent: StructureElement, tag: string, draw: () => void): void {
  const one = flow.pdf.struct(tag);
  parent.add(one);
  flow.mark(one, tag);
  draw();
  flow.close();
  one.end();
}

function linesOf(flow: Flow, runs: readonly Run[], width: number, letters: Letters): Piece[][] {
  return wrapped(runs, width, (says, bold) => flow.widthOf(says, { ...letters, bold: bold || letters.bold === true }));
}

/** Lines below each other, on as many pages as they take. */
function write(flow: Flow, lines: readonly Piece[][], left: number, high: number, letters: Letters): void {
  for (const line of lines) {
    flow.room(high);
    let x = left;
    for (const { says, bold, width } of line) {
      flow.say(says, x, flow.y, { ...letters, bold: bold === true || letters.bold === true });
      x += width;
    }
    flow.y += high;
  }
}
