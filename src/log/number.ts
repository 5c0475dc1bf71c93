/**
 * Numbers straight from bytes, without a string between.
 *
 * value = (all digits as one integer) · 10^(exponent − digits after the mark). Up to 15 digits and a power of ten up
 * to 22 both factors are exact doubles, so the one product or quotient is correctly rounded (Clinger 1990) and equals
 * `Number(text)`; anything longer goes through `Number` itself, zeros in front counted in.
 */

const POWERS = Float64Array.from({ length: 23 }, (_, i) => Number(`1e${i}`));

/** How numbers are written in one file. Marks are byte codes; `grouping` 0 where thousands are not marked. */
export interface NumberMarks {
  readonly decimal: number;
  readonly grouping: number;
}

/** Reads one number after another; `at` is where the last reading stopped. */
export class NumberReader {
  readonly decimal: number;
  readonly grouping: number;
  /** Index of the first byte that is not of the number. */
  at = 0;

  constructor(marks: NumberMarks) {
    this.decimal = marks.decimal;
    this.grouping = marks.grouping;
  }

  /**
   * The number that starts at `from` (sign, digits, mark, digits, exponent), or NaN when none starts there.
   * Equal to `Number` of the same text in every bit.
   */
  read(bytes: Uint8Array, from: number, to: number): number {
    let p = from;
    let negative = false;
    const sign = p < to ? bytes[p]! : 0;
    if (sign === 45 || sign === 43) {
      negative = sign === 45;
      p++;
    }
    const { decimal, grouping } = this;
    let whole = 0;
    let digits = 0;
    let after = 0;
    let grouped = false;
    let b = p < to ? bytes[p]! : 0;
    while (b >= 48 && b <= 57) {
      whole = whole * 10 + (b - 48);
      digits++;
      p++;
      b = p < to ? bytes[p]! : 0;
      if (b === grouping && grouping !== 0 && threeDigits(bytes, p + 1, to)) {
        grouped = true;
        p++;
        b = bytes[p]!;
      }
    }
    if (b === decimal) {
      p++;
      b = p < to ? bytes[p]! : 0;
      while (b >= 48 && b <= 57) {
        whole = whole * 10 + (b - 48);
        after++;
        p++;
        b = p < to ? bytes[p]! : 0;
      }
    }
    digits += after;
    if (digits === 0) {
      this.at = from;
      return Number.NaN;
    }
    let exponent = 0;
    if (b === 101 || b === 69) {
      const end = this.exponentEnd(bytes, p, to);
      if (end > 0) {
        exponent = smallInteger(bytes, p + 1, end);
        p = end;
      }
    }
    this.at = p;
    const power = exponent - after;
    if (digits <= 15 && power >= -22 && power <= 22) {
      const value = power < 0 ? whole / POWERS[-power]! : whole * POWERS[power]!;
      return negative ? -value : value;
    }
    return Number(plainText(bytes, from, p, decimal, grouped ? grouping : 0));
  }

  private exponentEnd(bytes: Uint8Array, e: number, to: number): number {
    let p = e + 1;
    if (p < to && (bytes[p] === 45 || bytes[p] === 43)) p++;
    const first = p;
    while (p < to && bytes[p]! >= 48 && bytes[p]! <= 57) p++;
    return p > first ? p : 0;
  }
}

function threeDigits(bytes: Uint8Array, from: number, to: number): boolean {
  if (from + 3 > to) return false;
  for (let i = from; i < from + 3; i++) if (bytes[i]! < 48 || bytes[i]! > 57) return false;
  return from + 3 === to || bytes[from + 3]! < 48 || bytes[from + 3]! > 57;
}

function smallInteger(bytes: Uint8Array, from: number, to: number): number {
  let p = from;
  const negative = bytes[p] === 45;
  if (negative || bytes[p] === 43) p++;
  let value = 0;
  for (; p < to; p++) value = Math.min(value * 10 + (bytes[p]! - 48), 99999);
  return negative ? -value : value;
}

function plainText(bytes: Uint8Array, from: number, to: number, decimal: number, grouping: number): string {
  let text = "";
  for (let i = from; i < to; i++) {
    const b = bytes[i]!;
    if (b === decimal) text += ".";
    else if (b !== grouping || grouping === 0) text += String.fromCharCode(b);
  }
  return text;
}
