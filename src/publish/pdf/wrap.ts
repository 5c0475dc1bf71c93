/** Words in lines of a width. */
import type { Run } from "./blocks.ts";

/** Words of one kind on one line, with what they are wide. */
export interface Piece extends Run {
  readonly width: number;
}

/**
 * Breaks runs into lines; a word wider than a line is broken where the line ends, and an end of line in it is kept.
 * @param wide width of some text, in the letters of a run
 */
export function wrapped(runs: readonly Run[], width: number, wide: (says: string, bold: boolean) => number): Piece[][] {
  const lines: Piece[][] = [[]];
  let at = 0;
  const put = (says: string, bold: boolean): void => {
    const own = wide(says, bold);
    const last = lines.at(-1)!;
    const before = last.at(-1);
    if (before !== undefined && (before.bold === true) === bold)
      last[last.length - 1] = { ...before, says: before.says + says, width: before.width + own };
    else last.push({ says, bold, width: own });
    at += own;
  };
  const next = (): void => {
    lines.push([]);
    at = 0;
  };
  for (const { says, bold = false } of runs) {
    for (const token of says.match(/\n|[^\S\n]+|[^\s]+/g) ?? []) {
      if (token === "\n") next();
      else if (token.trim() === "") {
        if (at > 0) put(" ", bold);
      } else {
        if (at > 0 && at + wide(token, bold) > width) next();
        for (const piece of cut(token, width, bold, wide)) {
          if (at > 0 && at + wide(piece, bold) > width) next();
          put(piece, bold);
        }
      }
    }
  }
  return lines;
}

function cut(word: string, width: number, bold: boolean, wide: (says: string, bold: boolean) => number): string[] {
  if (wide(word, bold) <= width) return [word];
  const pieces: string[] = [];
  let piece = "";
  for (const character of word) {
    if (piece !== "" && wide(piece + character, bold) > width) {
      pieces.push(piece);
      piece = "";
    }
    piece += character;
  }
  return [...pieces, piece];
}
