/** What writing a PDF needs from outside: a writer of PDF (pdfkit, which may be missing) and the letters, handed in. */

/** A part of a PDF's structure, as a screen reader walks it. */
export interface StructureElement {
  add(child: StructureElement | StructureContent): StructureElement;
  end(): void;
}

/** What was drawn between two calls, as a leaf of the structure. */
export type StructureContent = object;

/** The part of pdfkit's document that is used here. */
export interface PdfWriter {
  readonly page: { readonly width: number; readonly height: number };
  readonly info: Record<string, unknown>;
  on(event: "data", hear: (piece: Uint8Array) => void): unknown;
  on(event: "end", hear: () => void): unknown;
  on(event: "error", hear: (error: Error) => void): unknown;
  addPage(options: { size: readonly [number, number]; margin: number }): unknown;
  registerFont(name: string, font: Uint8Array): unknown;
  font(name: string): PdfWriter;
  fontSize(points: number): PdfWriter;
  widthOfString(text: string): number;
  text(text: string, x: number, y: number, options: Readonly<Record<string, unknown>>): PdfWriter;
  fillColor(colour: string): PdfWriter;
  strokeColor(colour: string): PdfWriter;
  fillOpacity(share: number): PdfWriter;
  strokeOpacity(share: number): PdfWriter;
  lineWidth(points: number): PdfWriter;
  lineCap(kind: string): PdfWriter;
  lineJoin(kind: string): PdfWriter;
  dash(length: number, options: { space: number }): PdfWriter;
  undash(): PdfWriter;
  path(d: string): PdfWriter;
  rect(x: number, y: number, width: number, height: number): PdfWriter;
  roundedRect(x: number, y: number, width: number, height: number, radius: number): PdfWriter;
  circle(x: number, y: number, radius: number): PdfWriter;
  fill(): PdfWriter;
  stroke(): PdfWriter;
  clip(): PdfWriter;
  save(): PdfWriter;
  restore(): PdfWriter;
  transform(a: number, b: number, c: number, d: number, e: number, f: number): PdfWriter;
  struct(type: string, options?: Readonly<Record<string, unknown>>): StructureElement;
  addStructure(element: StructureElement): unknown;
  markStructureContent(tag: string): StructureContent;
  markContent(tag: string, options: Readonly<Record<string, unknown>>): unknown;
  endMarkedContent(): unknown;
  switchToPage(page: number): unknown;
  file(address: string, options: Readonly<Record<string, unknown>>): unknown;
  end(): void;
}

/** The writer and the letters a PDF is made with. */
export interface PdfTools {
  readonly PDFDocument: new (options: Readonly<Record<string, unknown>>) => PdfWriter;
  /** TrueType, put into the file with the glyphs that are used. */
  readonly regular: Uint8Array;
  readonly bold: Uint8Array;
}

/** What is said of a PDF as a whole. */
export interface PdfAbout {
  readonly title: string;
  /** Empty where nobody is named. */
  readonly author: string;
  /** The program that made it. */
  readonly program: string;
}

/** A file says when it was made; one that is the same for the same input says always the same. */
export const ALWAYS = new Date(Date.UTC(2000, 0, 1));

/**
 * Opens a document, lets it be written, and gives its bytes: PDF 1.7, tagged, its letters within, the same for the same
 * input.
 */
export async function pdfBytes(
  { PDFDocument, regular, bold }: PdfTools,
  { title, author, program }: PdfAbout,
  write: (pdf: PdfWriter) => void,
): Promise<Uint8Array> {
  const pdf = new PDFDocument({
    pdfVersion: "1.7",
    subset: "PDF/UA",
    tagged: true,
    displayTitle: true,
    lang: "en",
    autoFirstPage: false,
    bufferPages: true,
    font: null,
    info: {
      Title: title,
      ...(author === "" ? {} : { Author: author }),
      Creator: program,
      Producer: program,
      CreationDate: ALWAYS,
    },
  });
  const pieces: Uint8Array[] = [];
  const whole = new Promise<void>((done, fail) => {
    pdf.on("data", (piece) => pieces.push(piece));
    pdf.on("end", done);
    pdf.on("error", fail);
  });
  pdf.registerFont("regular", regular);
  pdf.registerFont("bold", bold);
  write(pdf);
  pdf.end();
  await whole;
  const bytes = new Uint8Array(pieces.reduce((sum, piece) => sum + piece.length, 0));
  let at = 0;
  for (const piece of pieces) {
    bytes.set(piece, at);
    at += piece.length;
  }
  return bytes;
}
