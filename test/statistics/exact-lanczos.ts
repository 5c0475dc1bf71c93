// observed − predicted of the NIST set Lanczos1 in fixed point with 160 binary places, the data read as the decimals
// they are printed as: doubles hold neither the data nor the difference to the digits the certificate needs.
import { readFileSync } from "node:fs";

const places = 160n;
const one = 1n << places;

/** A decimal such as `5.000E-02` in fixed point. */
function decimal(text: string): bigint {
  const [mantissa, exponent] = text.toLowerCase().split("e") as [string, string];
  const [whole, part = ""] = mantissa.split(".") as [string, string?];
  const digits = BigInt(whole + part) << places;
  const shift = Number(exponent) - part.length;
  return shift >= 0 ? digits * 10n ** BigInt(shift) : digits / 10n ** BigInt(-shift);
}

/** A double as it is: times 2^300 it is a whole number unless it is below 2^-248. */
function double(value: number): bigint {
  return BigInt(value * 2 ** 300) >> (300n - places);
}

function times(a: bigint, b: bigint): bigint {
  return (a * b) >> places;
}

/** exp by its series on a 256th of the argument, squared eight times. */
function exponential(x: bigint): bigint {
  const small = x >> 8n;
  let term = one;
  let sum = one;
  for (let k = 1n; term !== 0n && term !== -1n; k++) {
    term = times(term, small) / k;
    sum += term;
  }
  for (let k = 0; k < 8; k++) sum = times(sum, sum);
  return sum;
}

export function exactDifferences(): (parameters: Float64Array, out: Float64Array) => void {
  const lines = readFileSync(new URL("../../data/published/nist-strd/Lanczos1.dat", import.meta.url), "utf8").split(
    /\r?\n/,
  );
  const rows = lines.slice(60).flatMap((line) => {
    const found = line.trim().split(/\s+/);
    return found.length === 2 ? [{ y: decimal(found[0]!), x: decimal(found[1]!) }] : [];
  });
  return (parameters, out) => {
    if (parameters.some((value) => !(Math.abs(value) < 100))) {
      out.fill(Number.NaN);
      return;
    }
    const b = Array.from(parameters, double);
    rows.forEach(({ x, y }, i) => {
      let rest = y;
      for (let k = 0; k < 6; k += 2) rest -= times(b[k]!, exponential(-times(b[k + 1]!, x)));
      out[i] = Number(rest) / 2 ** Number(places);
    });
  };
}
