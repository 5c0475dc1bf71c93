import { DIMENSIONS, type Dimension } from "./dimension.ts";
import { InputError, quoted } from "./errors.ts";
import { plainSigns, readNumber } from "./number-text.ts";
import type { Reading } from "./unit-table.ts";
import { readUnit } from "./unit-text.ts";

const LONGEST_TEXT = 80;
const DIGITS = String.raw`([\d.][\d., /-]*?)`;
/** Two units in one quantity: 105' 6", 8 lb 4 oz, 1 h 30 min. */
const PAIRS: readonly RegExp[] = [
  new RegExp(`^([+-] ?)?${DIGITS} ?(ft|foot|feet|') ?${DIGITS} ?(in|inch|inches|")$`),
  new RegExp(`^([+-] ?)?${DIGITS} ?(lb|lbs) ?${DIGITS} ?(oz)$`),
  new RegExp(`^([+-] ?)?${DIGITS} ?(h|hr) ?${DIGITS} ?(min)$`),
  new RegExp(`^([+-] ?)?${DIGITS} ?(min) ?${DIGITS} ?(s)$`),
];

/**
 * Reads a quantity: text with a unit, such as `9 1/2 in`, `105' 6"` or `1,000 lbf`, or a bare number, which is SI
 * (a bare angle is in degrees).
 * @param place where the value stands, for the error: a field or an option.
 * @returns the value in SI units and radians; always finite.
 * @throws InputError when the text is no number with a unit of this dimension.
 */
export function parseQuantity(input: string | number, dimension: Dimension, place: string): number {
  if (typeof input === "number") return finite(bare(input, dimension), dimension, place, String(input));
  const given = quoted(input);
  const fail = (expected: string) => new InputError(place, given, expected);
  if (typeof input !== "string") throw fail(expectation(dimension));
  if (input.length > LONGEST_TEXT) throw fail(`${expectation(dimension)}, in at most ${LONGEST_TEXT} characters`);
  const text = plainSigns(input);
  if (text === "") throw fail(expectation(dimension));

  const pair = PAIRS.map((pattern) => pattern.exec(text)).find((match) => match !== null);
  if (pair) return fromPair(pair, dimension, place, given);

  const number = readNumber(text);
  if (number.kind === "refused") throw fail(sentence(number.why, expectation(dimension)));
  const unitText = number.rest.trim();
  if (unitText === "") return finite(bare(number.value, dimension), dimension, place, given);
  if (dimension === "ratio" && unitText.startsWith(":")) {
    return proportion(number.value, unitText.slice(1).trim(), place, given);
  }
  const unit = readUnit(unitText, dimension);
  if (unit.kind === "refused") {
    const hint = unit.hint.replaceAll("#", number.text);
    throw new InputError(place, `${given} ${unit.given}`, sentence(hint, expectation(dimension, number.text)));
  }
  return finite(toSI(number.value, unit.reading), dimension, place, given);
}

/** value · top / bottom: one rounding less than with a rounded factor. */
export function toSI(value: number, reading: Reading): number {
  const product = value * reading.top;
  return Number.isFinite(product) ? product / reading.bottom : value * (reading.top / reading.bottom);
}

/** The inverse of `toSI`, from the same two numbers. */
export function fromSI(value: number, reading: Reading): number {
  const product = value * reading.bottom;
  return Number.isFinite(product) ? product / reading.top : value * (reading.bottom / reading.top);
}

/** What a field of this dimension takes, as the end of an error line. */
export function expectation(dimension: Dimension, number = "12"): string {
  const { name, metric } = DIMENSIONS[dimension];
  if (dimension === "ratio") return `${name} is expected, such as "12 %" or 0.12`;
  // Nothing at all is an example of nothing.
  const some = /[1-9]/.test(number) ? number : "12";
  const example = `${some} ${dimension === "angle" ? "deg" : metric}`;
  return `${name} is expected, such as "${example.replace(/["\\]/g, "")}"`;
}

function fromPair(pair: RegExpExecArray, dimension: Dimension, place: string, given: string): number {
  const [, sign, coarseText, coarseUnit, fineText, fineUnit] = pair;
  const big = readUnit(coarseUnit!, dimension);
  const small = readUnit(fineUnit!, dimension);
  const refusal = big.kind === "refused" ? big : small;
  if (big.kind === "refused" || small.kind === "refused") {
    const why = refusal.kind === "refused" ? refusal.given : "";
    throw new InputError(place, `${given} ${why}`, expectation(dimension));
  }
  const coarse = wholeText(coarseText!, dimension, place, given);
  const fine = wholeText(fineText!, dimension, place, given);
  // How many of the finer unit make one of the coarser: exact, since both factors are whole.
  const steps = (big.reading.top * small.reading.bottom) / (big.reading.bottom * small.reading.top);
  if (!Number.isInteger(coarse) || fine >= steps) {
    throw new InputError(
      place,
      given,
      "a whole number of the first unit, and less than one of it in the second, is expected",
    );
  }
  const total = toSI(coarse * steps + fine, small.reading);
  return finite(sign?.startsWith("-") ? -total : total, dimension, place, given);
}

/** A number that is the whole of a text. */
function wholeText(text: string, dimension: Dimension, place: string, given: string): number {
  const number = readNumber(text.trim());
  if (number.kind === "number" && number.rest.trim() === "") return number.value;
  const why = number.kind === "refused" ? number.why : "";
  throw new InputError(place, given, sentence(why, expectation(dimension)));
}

/** A proportion such as 5:1, as scope is told. */
function proportion(top: number, rest: string, place: string, given: string): number {
  const bottom = readNumber(rest);
  if (bottom.kind === "refused" || bottom.rest.trim() !== "" || bottom.value === 0) {
    throw new InputError(place, given, 'a ratio is expected, such as "5:1"');
  }
  return finite(top / bottom.value, "ratio", place, given);
}

function bare(value: number, dimension: Dimension): number {
  return dimension === "angle" ? (value * Math.PI) / 180 : value;
}

function finite(value: number, dimension: Dimension, place: string, given: string): number {
  // A zero has no sign: -0 m is 0 m.
  if (Number.isFinite(value)) return value === 0 ? 0 : value;
  throw new InputError(place, given, `a finite value is expected: ${expectation(dimension)}`);
}

/** Hint first, then what is expected. */
function sentence(hint: string, expected: string): string {
  return hint === "" ? expected : `${hint}; ${expected}`;
}
