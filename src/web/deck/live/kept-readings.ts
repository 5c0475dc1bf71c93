/**
 * Readings of instruments on this device: a piece at a time under a name that counts up, so that none is written twice and
 * a kill leaves whole pieces. A piece is here before any of it is shown.
 */
import { device } from "../../state/device.ts";
import type { LiveReading } from "./reading.ts";

interface Piece {
  /** Row to ask for next. */
  readonly next: number;
  readonly rows: readonly LiveReading[];
}

const nameOf = (pull: string, source: string) => `${pull} ${source} `;
const pieceName = (pull: string, source: string, from: number) =>
  `${nameOf(pull, source)}${String(from).padStart(12, "0")}`;

/** @throws the device's own error where it cannot keep them */
export const keepReadings = (pull: string, source: string, from: number, piece: Piece): Promise<void> =>
  device.put("readings", pieceName(pull, source, from), piece);

/** All that is kept of an instrument in a pull, in order, each row once. */
export async function keptReadings(pull: string, source: string): Promise<{ rows: LiveReading[]; next: number }> {
  const pieces = (await device.from("readings", nameOf(pull, source)).catch(() => [])) as Piece[];
  const rows: LiveReading[] = [];
  let next = 0;
  for (const piece of pieces) {
    // Two windows may have kept the same rows.
    rows.push(...piece.rows.filter(({ n }) => n >= next));
    next = Math.max(next, piece.next);
  }
  return { rows, next };
}

/** The book has them all. */
export const forgetReadings = (pull: string): Promise<void> => device.removeFrom("readings", `${pull} `);
