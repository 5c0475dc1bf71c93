/**
 * Draws as text within a page: each column as 32-bit floats, little-endian, in base64. Seven digits are kept of ln of a
 * load, a millionth of the load, where chances are shown to a hundredth.
 */
import type { Law, PredictiveDraws } from "../../holding/index.ts";

/** `PredictiveDraws` with every column as text. */
export interface DrawsText {
  readonly law: Law;
  readonly length: number;
  readonly anchors: readonly string[];
  readonly seabeds: readonly string[];
  readonly lnMassMiddle: number;
  readonly centre: string;
  readonly angle: string;
  readonly mass: string;
  readonly spread: string;
  readonly scatter: string;
  readonly ofAnchor: readonly string[];
  readonly ofSeabed: readonly string[];
}

const COLUMNS = ["centre", "angle", "mass", "spread", "scatter"] as const;

/** Draws with their columns written out. */
export function drawsToText(draws: PredictiveDraws): DrawsText {
  const { law, length, anchors, seabeds, lnMassMiddle, ofAnchor, ofSeabed } = draws;
  return {
    ...{ law, length, anchors, seabeds, lnMassMiddle },
    ...(Object.fromEntries(COLUMNS.map((name) => [name, columnText(draws[name])])) as Columns<string>),
    ofAnchor: ofAnchor.map(columnText),
    ofSeabed: ofSeabed.map(columnText),
  };
}

/** Draws read back, to the seven digits that were kept. */
export function drawsFromText(text: DrawsText): PredictiveDraws {
  const { law, length, anchors, seabeds, lnMassMiddle, ofAnchor, ofSeabed } = text;
  return {
    ...{ law, length, anchors, seabeds, lnMassMiddle },
    ...(Object.fromEntries(COLUMNS.map((name) => [name, columnOf(text[name])])) as Columns<Float64Array>),
    ofAnchor: ofAnchor.map(columnOf),
    ofSeabed: ofSeabed.map(columnOf),
  };
}

type Columns<T> = Record<(typeof COLUMNS)[number], T>;

function columnText(values: Float64Array): string {
  const bytes = new Uint8Array(4 * values.length);
  const view = new DataView(bytes.buffer);
  values.forEach((value, i) => {
    view.setFloat32(4 * i, value, true);
  });
  let text = "";
  for (const byte of bytes) text += String.fromCharCode(byte);
  return btoa(text);
}

function columnOf(text: string): Float64Array {
  const bytes = Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
  const view = new DataView(bytes.buffer);
  return Float64Array.from({ length: bytes.length / 4 }, (_, i) => view.getFloat32(4 * i, true));
}
