/** How a column of latitudes or longitudes is written. */
import type { GuessCause } from "./cause.ts";
import type { ChannelKind } from "./channel.ts";
import type { DecimalMark } from "./marks.ts";
import { readPlaceText } from "./place-text.ts";
import type { PlaceForm } from "./plan.ts";
import type { Title } from "./title.ts";

/** A form, null for plain decimal degrees; `open` where two forms are possible. */
export interface PlaceGuess {
  readonly form: PlaceForm | null;
  readonly why: GuessCause;
  readonly open?: true;
}

const PLAIN = /^[+-]?\d+(?:[.,]\d+)?$/;

/** Judges the cells of a column of places with its neighbours. */
export function guessPlace(
  kind: "latitude" | "longitude",
  column: number,
  rows: readonly (readonly string[])[],
  titles: readonly Title[],
): PlaceGuess {
  const cells = rows.map((row) => (row[column] ?? "").trim()).filter((cell) => cell !== "");
  const letters = kind === "latitude" ? /^[NS]$/i : /^[EW]$/i;
  const side = [column + 1, column - 1].find((at) => {
    const beside = rows.map((row) => (row[at] ?? "").trim()).filter((cell) => cell !== "");
    return at >= 0 && at < titles.length && beside.length > 0 && beside.every((cell) => letters.test(cell));
  });
  const plain = cells.filter((cell) => PLAIN.test(cell));
  const values = plain.map((cell) => Math.abs(Number(cell.replace(",", "."))));
  const negative = cells.some((cell) => cell.startsWith("-"));
  const said = /[\s(_°º[]([NSEW])[\])]?$/.exec(titles[column]!.text)?.[1];
  const sign = !negative && (said === "S" || said === "W") ? -1 : 1;
  const most = kind === "latitude" ? 90 : 180;
  const of = (form: PlaceForm["form"], written: "marked" | "degreesMinutes" | "decimal"): PlaceGuess => ({
    form: { form, side: side ?? -1, sign },
    why: {
      kind: "place",
      channel: kind,
      form: written,
      sideColumn: side === undefined ? null : side + 1,
      sideInTitle: sign < 0 ? said! : null,
    },
  });
  if (plain.length < cells.length * 0.8) return of("text", "marked");
  // 5012.345: past any number of degrees, and its last two digits before the mark are minutes.
  if (values.some((value) => value > most) && values.every((value) => value % 100 < 60))
    return of("degreesMinutes", "degreesMinutes");
  // 00412.345 or 0412.345: degrees are not written with so many zeros before them.
  if (plain.every((cell) => /^0\d{3,4}[.,]\d/.test(cell))) return of("degreesMinutes", "degreesMinutes");
  if (side !== undefined || sign < 0) return of("text", "decimal");
  return { form: null, why: { kind: "decimalDegrees" } };
}

/** True when most cells are places of that kind, whatever their form. */
export function arePlaces(kind: ChannelKind, cells: readonly string[], decimal: DecimalMark): boolean {
  const most = kind === "latitude" ? 90 : 180;
  const read = cells.filter((cell) => !Number.isNaN(readPlaceText(cell, "text", "", decimal, most)));
  return read.length >= cells.length * 0.5 && cells.length > 0;
}
