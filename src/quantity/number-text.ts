/**
 * Numbers as people write them: `12`, `1,000.5`, `1e3`, `3/8`, `9 1/2`, `9-1/2`, `9½`.
 * A comma stands between exact groups of three digits and nowhere else; the decimal sign is the point.
 */

/** A number at the start of a text and what follows it; or why there is none, in words fit for an error. */
export type NumberRead =
  | { readonly kind: "number"; readonly value: number; readonly text: string; readonly rest: string }
  | { readonly kind: "refused"; readonly why: string };

const SIGN = /^[+-]\s*/;
const DECIMAL_COMMA = /^(?:\d{1,3}(?:\.\d{3})+|\d*),\d+(?![\d,.])/;
const FRACTION = /^(?:(\d+)(?:\s+|-))?(\d+)\s*\/\s*(\d+)/;
const DECIMAL = /^(?:[1-9]\d{0,2}(?:,\d{3})+(?!\d)(?:\.\d+)?|\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?/;
const GROUPED = /^[1-9]\d{0,2}(?:,\d{3})+(?![\d,])/;
const SPACED_GROUPS = /^\d{1,3}(?:\s\d{3})+(?!\d)/;

/**
 * Makes one spelling of each sign that has several: primes, fractions, superscripts, minus signs and odd spaces.
 */
export function plainSigns(text: string): string {
  return text
    .replace(/[\u00a0\u2007\u2009\u200a\u202f]/g, " ")
    .replace(/[−–]/g, "-")
    .replace(/''|′′|[″”“]/g, '"')
    .replace(/[′’‘]/g, "'")
    .replace(/º/g, "°")
    .replace(/[µμ]/g, "µ")
    .replace(/[⋅∙•×]/g, "·")
    .replace(/²/g, "2")
    .replace(/³/g, "3")
    .replace(/[¼-¾⅐-⅞]/g, (sign) => ` ${sign.normalize("NFKD").replace("⁄", "/")} `)
    .replace(/⁄/g, "/")
    .replace(/\s+/g, " ")
    .replace(/ (?=["'])/g, "")
    .trim();
}

/** Reads the number a text begins with. The text has been through `plainSigns`. */
export function readNumber(text: string): NumberRead {
  const sign = SIGN.exec(text)?.[0] ?? "";
  const negative = sign.startsWith("-");
  const body = text.slice(sign.length);

  const comma = DECIMAL_COMMA.exec(body)?.[0];
  if (comma !== undefined && !GROUPED.test(body)) {
    const meant = comma.replaceAll(".", "").replace(",", ".").replace(/^\./, "0.");
    return refused(`a decimal point is expected: ${`${sign}${meant}${body.slice(comma.length)}`.trim()}`);
  }

  const fraction = FRACTION.exec(body);
  if (fraction) {
    const [all, whole, top, bottom] = fraction;
    if (Number(bottom) === 0) return refused(`the fraction ${top}/${bottom} has no value`);
    const value = Number(whole ?? 0) + Number(top) / Number(bottom);
    return number(value, negative, text, sign.length + all.length);
  }

  const spaced = SPACED_GROUPS.exec(body)?.[0];
  if (spaced !== undefined) return refused(`digits are not parted by spaces: write ${spaced.replaceAll(" ", "")}`);

  const decimal = DECIMAL.exec(body)?.[0];
  if (decimal === undefined) return refused("it does not begin with a number");
  const after = body[decimal.length] ?? "";
  if (after === ",") return refused("a comma may only part groups of three digits, as in 1,000");
  if (after === ".") return refused("a number has one decimal point");
  return number(Number(decimal.replaceAll(",", "")), negative, text, sign.length + decimal.length);
}

function number(magnitude: number, negative: boolean, text: string, length: number): NumberRead {
  if (!Number.isFinite(magnitude)) return refused("the number is too large");
  const value = negative ? -magnitude : magnitude;
  return { kind: "number", value, text: text.slice(0, length).trim(), rest: text.slice(length) };
}

function refused(why: string): NumberRead {
  return { kind: "refused", why };
}
