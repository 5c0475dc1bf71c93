/** A page of ours as a PDF: the same words on pages. */
import { documentOfHtml, documentPdf, type PdfTools } from "../publish/index.ts";
import { programVersion } from "./version.ts";

/**
 * @param html a whole page of ours
 * @param author who tested; empty where nobody is named
 */
export function pagePdf(html: string, author: string, tools: PdfTools): Promise<Uint8Array> {
  return documentPdf(documentOfHtml(html, { author, program: `rodebench ${programVersion()}` }), tools);
}
