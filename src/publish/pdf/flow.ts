/** The way down the pages: where the next line goes, where a page ends, and which part of the structure is being drawn. */
import { withGlyphs } from "./paint-svg.ts";
import type { PdfWriter, StructureContent, StructureElement } from "./tools.ts";

/** pt; A4. */
const PAGE = { width: 595.28, height: 841.89 } as const;
export const LEFT = 54;
const TOP = 54;
const BOTTOM = PAGE.height - 62;
/** Width of the column, pt. */
export const COLUMN = PAGE.width - 2 * LEFT;
/** Height of a page's column, pt. */
export const TALLEST = BOTTOM - TOP;

/** Colours of print: those of figures on light paper. */
export const COLOURS = { ink: "#17212b", soft: "#51606d", edge: "#d3dae0", wash: "#f4f6f8", warn: "#b34400" } as const;

export interface Letters {
  readonly size: number;
  readonly bold?: boolean;
  readonly colour?: string;
}

export class Flow {
  /** Upper edge of what comes next, pt from the top of the page. */
  y = TOP;
  pages = 0;
  private open: { readonly element: StructureElement; readonly tag: string; content: StructureContent } | null = null;

  readonly pdf: PdfWriter;

  constructor(pdf: PdfWriter) {
    this.pdf = pdf;
  }

  page(): void {
    const { open } = this;
    if (open !== null) this.close();
    this.pdf.addPage({ size: [PAGE.width, PAGE.height], margin: 0 });
    this.pages++;
    this.y = TOP;
    if (open !== null) this.mark(open.element, open.tag);
  }

  /** True where so much more fits on the page. */
  fits(height: number): boolean {
    return this.y + height <= BOTTOM + 1e-6;
  }

  /** A new page where so much does not fit any more; `again` is drawn at its head. */
  room(height: number, again?: () => void): void {
    if (this.fits(height) || this.y <= TOP) return;
    this.page();
    again?.();
  }

  /** What is drawn from here on is of a part of the structure, on the pages after this one too. */
  mark(element: StructureElement, tag: string): void {
    this.open = { element, tag, content: this.pdf.markStructureContent(tag) };
  }

  close(): void {
    if (this.open === null) return;
    this.pdf.endMarkedContent();
    this.open.element.add(this.open.content);
    this.open = null;
  }

  /** What nobody is read: edges, page numbers, heads said again. */
  aside(type: "Layout" | "Pagination", draw: () => void): void {
    const { open } = this;
    if (open !== null) this.close();
    this.pdf.markContent("Artifact", { type });
    draw();
    this.pdf.endMarkedContent();
    if (open !== null) this.mark(open.element, open.tag);
  }

  widthOf(says: string, letters: Letters): number {
    const pdf = this.pdf.font(letters.bold ? "bold" : "regular").fontSize(letters.size);
    return pdf.widthOfString(withGlyphs(pdf, says));
  }

  /** One line by its upper edge; nothing moves on. */
  say(says: string, x: number, y: number, letters: Letters): void {
    const pdf = this.pdf.font(letters.bold ? "bold" : "regular").fontSize(letters.size);
    const text = withGlyphs(pdf, says);
    if (text.trim() === "") return;
    pdf.fillColor(letters.colour ?? COLOURS.ink).fillOpacity(1);
    pdf.text(text, x, y + 0.95 * letters.size, { lineBreak: false, baseline: "alphabetic" });
  }
}
