/** The writer of PDF states no types of its own; what is used of it is told in `PdfTools`. */
declare module "pdfkit" {
  const PDFDocument: import("../publish/index.ts").PdfTools["PDFDocument"];
  export default PDFDocument;
}
