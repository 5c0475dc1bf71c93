/**
 * Rounding to an uncertainty: two digits of the uncertainty, the value to the same place (JCGM 100:2008, 7.2.6).
 * Every printed figure goes through here.
 */

/** Places beyond which a double of the value's size holds no more digits. */
const DIGITS_OF_A_DOUBLE = 15;
/** Beyond these sizes a power of ten is written apart. */
const LARGEST_PLAIN = 1e15;
const SMALLEST_PLAIN = 1e-6;

/** A value and its standard uncertainty as text, to the same place. */
export interface Rounded {
  readonly value: string;
  readonly u: string;
}

/**
 * Rounds a value and its standard uncertainty: 1.23456 ± 0.0996 becomes 1.23 ± 0.10, and 1234 ± 560 becomes 1230 ± 560.
 * Ties go away from zero. An uncertainty of zero leaves the value its own digits; an infinite one leaves it two.
 * @throws RangeError when the value is not a number, or the uncertainty is negative or not a number: a fault of
 * the program, not of its user.
 */
export function roundToUncertainty(value: number, u: number): Rounded {
  if (Number.isNaN(value) || !(u >= 0)) throw new RangeError(`no figure to print: ${value} ± ${u}`);
  if (!Number.isFinite(value)) return { value: significant(value), u: significant(u) };
  if (u === 0) return { value: significant(value, 12), u: "0" };
  if (u === Number.POSITIVE_INFINITY) return { value: significant(value, 2), u: "∞" };

  const size = Math.max(Math.abs(value), u);
  const apart = apartFor(size, 2);
  // The place of the second digit of u, once it is rounded: 0.0996 becomes 1.0e-1, whose second digit is of hundredths.
  const place = exponentOf(u, 2) - 1;
  if (place < exponentOf(size, 2) - DIGITS_OF_A_DOUBLE + 1) {
    return { value: significant(value, DIGITS_OF_A_DOUBLE), u: significant(u, 2) };
  }
  return { value: toPlace(value, place, apart), u: toPlace(u, place, apart) };
}

/**
 * The value of `roundToUncertainty` as a number, to be kept: what a record holds is no sharper than what was known.
 * @throws RangeError as `roundToUncertainty` does.
 */
export const roundedTo = (value: number, u: number): number => Number(roundToUncertainty(value, u).value);

/** A value nearer to its shorter text than this share of it is that text: it was written so, or is of a round number. */
const SAME = 1e-6;

/**
 * A value without an uncertainty, to so many significant digits. A zero that rounding made at the end stays (10.04 to three
 * digits is 10.0); a value that the shorter text says whole has none (10 is 10, not 10.0).
 * @param finest the power of ten below which no digit is shown, however small the value
 * @throws RangeError when the value is not a number.
 */
export function significant(value: number, digits = 4, finest = Number.NEGATIVE_INFINITY): string {
  if (Number.isNaN(value)) throw new RangeError("no figure to print");
  if (!Number.isFinite(value)) return value > 0 ? "∞" : "-∞";
  if (value === 0) return "0";
  const size = Math.abs(value);
  const place = Math.max(finest, exponentOf(size, digits) - digits + 1);
  const text = toPlace(value, place, place === finest ? 0 : apartFor(size, digits));
  const [mantissa, power] = text.split("e");
  if (!mantissa!.includes(".")) return text;
  const trimmed = mantissa!.replace(/\.?0+$/, "");
  const short = power === undefined ? trimmed : `${trimmed}e${power}`;
  return Math.abs(Number(short) - value) <= SAME * size ? short : text;
}

/** The power of ten to write apart, 0 for none. */
function apartFor(size: number, digits: number): number {
  return size >= LARGEST_PLAIN || size < SMALLEST_PLAIN ? exponentOf(size, digits) : 0;
}

/** Exponent of ten of a positive number once it is rounded to so many digits: 0.0996 to two is 1.0e-1. */
function exponentOf(size: number, digits: number): number {
  const exponent = Number(size.toExponential().split("e")[1]);
  return digitsAt(size, exponent - digits + 1).length > digits ? exponent + 1 : exponent;
}

/** A number rounded to 10^place, ties away from zero as decimal text; written as …e(apart) when apart is not 0. */
function toPlace(value: number, place: number, apart: number): string {
  const size = Math.abs(value);
  const digits = digitsAt(size, place);
  const shifted = withPoint(digits, place - apart);
  const text = apart === 0 ? shifted : `${shifted}e${apart}`;
  return value < 0 && /[1-9]/.test(digits) ? `-${text}` : text;
}

/** The whole number of 10^place nearest to a size, as decimal digits, from the shortest decimal text of the size. */
function digitsAt(size: number, place: number): string {
  if (size === 0) return "0";
  const [mantissa, power] = size.toExponential().split("e");
  const [whole, decimals = ""] = mantissa!.split(".");
  const all = whole! + decimals;
  // Digits to keep: the first stands at 10^power.
  const keep = Number(power) - place + 1;
  if (keep < 0) return "0";
  if (keep >= all.length) return all + "0".repeat(keep - all.length);
  const kept = all.slice(0, keep) || "0";
  return all[keep]! >= "5" ? String(BigInt(kept) + 1n) : kept;
}

/** Digits times 10^place as plain decimal text. */
function withPoint(digits: string, place: number): string {
  if (place >= 0) return /^0*$/.test(digits) ? "0" : digits + "0".repeat(place);
  const padded = digits.padStart(1 - place, "0");
  return `${padded.slice(0, place)}.${padded.slice(place)}`;
}
