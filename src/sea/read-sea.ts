/** A sea as an option states it: `0.6 m, 3 s`, with the peakedness after a second comma where it matters. */
import { InputError, parseQuantity, quoted } from "../quantity/index.ts";
import { waveLength } from "./airy.ts";
import { jonswap, piersonMoskowitz, type WaveSpectrum } from "./wave-spectrum.ts";

const steepest = 1 / 7;
const highestInDepth = 0.8;

/**
 * Reads significant height and peak period, and for JONSWAP its peakedness (3.3 without).
 * @param depth m, Infinity for deep water
 * @throws InputError for a sea that would break: higher than a seventh of its length or eight tenths of the depth
 */
export function readSea(text: string, kind: WaveSpectrum["kind"], depth: number, place: string): WaveSpectrum {
  const expected = 'a significant height and a peak period are expected, such as "0.6 m, 3 s"';
  const parts = text.split(",").map((part) => part.trim());
  if (parts.length < 2 || parts.length > 3 || parts.includes("")) throw new InputError(place, quoted(text), expected);
  const height = parseQuantity(parts[0]!, "length", `${place}, significant height`);
  const period = parseQuantity(parts[1]!, "time", `${place}, peak period`);
  if (height <= 0 || period <= 0)
    throw new InputError(place, quoted(text), "a height and a period above zero are expected");
  const length = waveLength(period, depth);
  if (height > steepest * length) {
    throw new InputError(
      place,
      quoted(text),
      `waves of that period are ${length.toPrecision(2)} m long and break above a seventh of it; a lower height is expected`,
    );
  }
  if (height > highestInDepth * depth) {
    throw new InputError(
      place,
      quoted(text),
      "waves break above eight tenths of the depth; a lower height is expected",
    );
  }
  if (kind === "pierson-moskowitz") {
    if (parts.length === 3)
      throw new InputError(place, quoted(parts[2]), "no peakedness is expected with pierson-moskowitz");
    return piersonMoskowitz(height, period);
  }
  if (parts.length === 2) return jonswap(height, period);
  const peakedness = parseQuantity(parts[2]!, "ratio", `${place}, peakedness`);
  if (!(peakedness >= 1 && peakedness <= 7))
    throw new InputError(place, quoted(parts[2]), "a peakedness from 1 to 7 is expected");
  return jonswap(height, period, peakedness);
}
