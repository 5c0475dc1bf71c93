/** One drawing as a PDF of one page, its size that of the drawing. */
import { paintSvg } from "./paint-svg.ts";
import { type PdfAbout, type PdfTools, pdfBytes } from "./tools.ts";

/** A drawing to put on a page. */
export interface PdfFigure extends PdfAbout {
  /** Drawn by the figure room, its colours written out. */
  readonly svg: string;
  /** px of the drawing. */
  readonly width: number;
  readonly height: number;
  /** Points (1/72 in) for each px. */
  readonly points: number;
  /** What it shows, for who does not see it. */
  readonly description: string;
}

/** @returns PDF of one tagged page: the drawing as lines and text, with its description as what is said of it */
export function figurePdf(figure: PdfFigure, tools: PdfTools): Promise<Uint8Array> {
  const { svg, width, height, points, description } = figure;
  return pdfBytes(tools, figure, (pdf) => {
    const [wide, high] = [width * points, height * points];
    pdf.addPage({ size: [wide, high], margin: 0 });
    const whole = pdf.struct("Document");
    pdf.addStructure(whole);
    const element = pdf.struct("Figure", { alt: description, bbox: [0, 0, wide, high] });
    whole.add(element);
    const content = pdf.markStructureContent("Figure");
    paintSvg(pdf, svg, 0, 0, points);
    pdf.endMarkedContent();
    element.add(content);
    element.end();
    whole.end();
  });
}
