/// <reference path="./pdfkit.d.ts" />
/** What pictures and PDF are made with: packages that may be missing, and the letters that come with the program. */
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { PdfTools } from "../publish/index.ts";
import { InputError } from "../quantity/index.ts";

const letters = (name: string): string => fileURLToPath(new URL(`../../data/fonts/${name}`, import.meta.url));
const REGULAR = letters("LiberationSans-Regular.ttf");
const BOLD = letters("LiberationSans-Bold.ttf");

/** True for a file that is to be a PDF, by how its name ends. */
export const isPdf = (file: string): boolean => /\.pdf$/i.test(file);

/** What a PDF is written with; read when one is asked for. */
export async function pdfTools(): Promise<PdfTools> {
  const { default: PDFDocument } = await import("pdfkit");
  return { PDFDocument, regular: readFileSync(REGULAR), bold: readFileSync(BOLD) };
}

/** A drawing as a PNG of so many pixels across; what nothing is drawn on lets through what is behind. */
export type Picture = (
  svg: string,
  across: number,
) => { readonly png: Uint8Array; readonly width: number; readonly height: number };

/** @throws InputError where the package is missing */
export async function pictures(file: string): Promise<Picture> {
  const { Resvg } = await optional("@resvg/resvg-js", file, "PNG", () => import("@resvg/resvg-js"));
  return (svg, across) => {
    const picture = new Resvg(svg, {
      fitTo: { mode: "width", value: across },
      // Its own letters alone: a picture is the same on every machine.
      font: { fontFiles: [REGULAR, BOLD], loadSystemFonts: false, defaultFontFamily: "Liberation Sans" },
    }).render();
    return { png: picture.asPng(), width: picture.width, height: picture.height };
  };
}

async function optional<T>(name: string, file: string, kind: string, load: () => Promise<T>): Promise<T> {
  try {
    return await load();
  } catch {
    throw new InputError(
      file,
      `${kind} needs the package ${name}, which is not installed`,
      `npm install ${name}, or another kind of file, is expected`,
    );
  }
}
