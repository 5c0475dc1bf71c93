import { createRequire } from "node:module";

/** A reader of QR codes that has nothing to do with what draws them (jsqr 1.4.0). */
type Reader = (pixels: Uint8ClampedArray, width: number, height: number) => { readonly data: string } | null;
const reader = createRequire(import.meta.url)("jsqr") as Reader;

/** What an independent reader finds in a picture, RGBA row by row; null when it finds no code. */
export const readSquareCode = (pixels: Uint8ClampedArray, width: number, height: number): string | null =>
  reader(pixels, width, height)?.data ?? null;
