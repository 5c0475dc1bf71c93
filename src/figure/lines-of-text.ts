/** Text in lines no wider than a sheet. */
import { widthOf } from "./lettering.ts";

/** @returns at least one line; a word wider than the sheet is cut where the sheet ends */
export function linesOf(text: string, width: number, size: number, bold = false): string[] {
  const wide = (line: string): number => widthOf(line, size, bold);
  const lines: string[] = [];
  let line = "";
  for (const word of text
    .split(/\s+/)
    .filter((one) => one !== "")
    .flatMap((one) => pieces(one, width, wide))) {
    const longer = line === "" ? word : `${line} ${word}`;
    if (line === "" || wide(longer) <= width) line = longer;
    else {
      lines.push(line);
      line = word;
    }
  }
  return [...lines, line];
}

function pieces(word: string, width: number, wide: (line: string) => number): string[] {
  if (wide(word) <= width) return [word];
  const cut: string[] = [];
  let piece = "";
  for (const character of word) {
    if (piece !== "" && wide(piece + character) > width) {
      cut.push(piece);
      piece = "";
    }
    piece += character;
  }
  return [...cut, piece];
}
