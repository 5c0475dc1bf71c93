import { encode } from "uqr";

/** Light modules around the code, without which readers do not find it. @source ISO/IEC 18004:2015, 6.3.8 (recalled): 4 */
const QUIET = 4;

/** A QR code as one path of unit squares. */
export interface SquareCode {
  /** Modules of a side, the quiet zone among them. */
  readonly size: number;
  /** The dark modules, as the `d` of a path: a run of a row is one rectangle. */
  readonly path: string;
}

/** The QR code of a text, with a quiet zone, at the level that mends 15 % of it: a wet or scratched screen is read still. */
export function squareCode(text: string): SquareCode {
  const { data, size } = encode(text, { ecc: "M", border: QUIET });
  const path = data
    .flatMap((row, y) => runsOf(row).map(([x, length]) => `M${x} ${y}h${length}v1h-${length}z`))
    .join("");
  return { size, path };
}

/** Where dark modules begin in a row, and how many follow one another. */
function runsOf(row: readonly boolean[]): [x: number, length: number][] {
  const runs: [number, number][] = [];
  row.forEach((dark, x) => {
    if (!dark) return;
    const last = runs.at(-1);
    if (last !== undefined && last[0] + last[1] === x) last[1]++;
    else runs.push([x, 1]);
  });
  return runs;
}
