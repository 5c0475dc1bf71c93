/**
 * The code of a planned pull, written on the field sheet and read back: two signs of the series, two of the pull, one that
 * checks them. Signs that are taken for one another in wet pencil are left out; there are 23, a prime, so that one wrong
 * sign, or two neighbours swapped, is always seen.
 */
const SIGNS = "234679ACDEFHJKLMNPRTVWX";
const N = SIGNS.length;
/** Pulls a series can number. */
export const MOST_CODED = N * N;

/** @param number of the pull, from 1, up to MOST_CODED */
export function pullCode(series: string, number: number): string {
  const at = number - 1;
  const own = hashOf(series) % (N * N);
  const places = [Math.floor(own / N), own % N, Math.floor(at / N), at % N];
  return [...places, check(places)].map((place) => SIGNS[place]!).join("");
}

/** What a code says; null where it is none. Blanks, hyphens and small letters do not matter. */
export function readPullCode(series: string, text: string): number | null {
  const places = [...text.toUpperCase().replace(/[\s-]/g, "")].map((sign) => SIGNS.indexOf(sign));
  if (places.length !== 5 || places.includes(-1) || check(places.slice(0, 4)) !== places[4]) return null;
  const own = hashOf(series) % (N * N);
  if (places[0]! * N + places[1]! !== own) return null;
  return places[2]! * N + places[3]! + 1;
}

/** Weights 1 to 4 of the signs and −1 of the check differ and none is 0 modulo a prime. */
function check(places: readonly number[]): number {
  return places.reduce((sum, place, i) => sum + (i + 1) * place, 0) % N;
}

/** @source FNV-1a, 32 bits (recalled) */
function hashOf(text: string): number {
  let hash = 0x811c9dc5;
  for (const sign of text) hash = Math.imul(hash ^ sign.codePointAt(0)!, 0x01000193) >>> 0;
  return hash;
}
