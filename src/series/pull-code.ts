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

/** What a code says, or why it says nothing. */
export type CodeRead = { readonly kind: "read"; readonly number: number } | CodeTrouble;

/** Why a text is no code of a series. */
export type CodeTrouble =
  /** It has not five signs. */
  | { readonly kind: "length"; readonly signs: number }
  /** A sign that no code has; `meant` is the one code it can be, where all other signs are right. */
  | { readonly kind: "noSign"; readonly sign: string; readonly meant: string | null }
  /** The check says that a sign is wrong, or two are swapped. */
  | { readonly kind: "wrongSign" }
  /** A code, but not with the signs of this series. */
  | { readonly kind: "otherSeries" }
  /** A code of this series, which has no pull of that number. */
  | { readonly kind: "noSuchPull"; readonly number: number; readonly pulls: number };

/** A code as the sheet writes it, however it was typed: without blanks and hyphens, in capitals. */
export const codeTyped = (text: string): string => text.toUpperCase().replace(/[\s\p{Pd}]/gu, "");

/** What a code says. Blanks, hyphens and small letters do not matter. */
export function readPullCode(series: string, text: string): CodeRead {
  const signs = [...codeTyped(text)];
  if (signs.length !== 5) return { kind: "length", signs: signs.length };
  const places = signs.map((sign) => SIGNS.indexOf(sign));
  const strange = places.flatMap((place, i) => (place < 0 ? [i] : []));
  if (strange.length > 0) {
    const [at] = strange;
    const ways = [...SIGNS].map((sign) => signs.with(at!, sign).join(""));
    const meant = strange.length > 1 ? undefined : ways.find((way) => readPullCode(series, way).kind === "read");
    return { kind: "noSign", sign: signs[at!]!, meant: meant ?? null };
  }
  if (check(places.slice(0, 4)) !== places[4]) return { kind: "wrongSign" };
  const own = hashOf(series) % (N * N);
  if (places[0]! * N + places[1]! !== own) return { kind: "otherSeries" };
  return { kind: "read", number: places[2]! * N + places[3]! + 1 };
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
