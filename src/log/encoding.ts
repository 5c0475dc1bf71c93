/**
 * Which characters the bytes of a log stand for. Loggers write UTF-8 with or without a byte order mark, UTF-16 in
 * either order, and windows-1252 (a degree sign in a header is the usual witness).
 * Data are read as bytes; only headers and lines shown to people become text.
 */

import type { GuessCause } from "./cause.ts";

/** An encoding of text, by its registered name. */
export type Encoding = "utf-8" | "utf-16le" | "utf-16be" | "windows-1252";

/** The encoding of a text, and where its first sign lies. */
export interface EncodingGuess {
  readonly encoding: Encoding;
  /** Bytes of the byte order mark, 0 when there is none. */
  readonly mark: number;
  /** Bytes of one unit: 2 for UTF-16, else 1. */
  readonly unit: 1 | 2;
  readonly why: GuessCause;
}

/** Guesses the encoding from the first bytes of a file. */
export function guessEncoding(head: Uint8Array): EncodingGuess {
  if (head[0] === 0xef && head[1] === 0xbb && head[2] === 0xbf) {
    return { encoding: "utf-8", mark: 3, unit: 1, why: { kind: "byteOrderMark" } };
  }
  if (head[0] === 0xff && head[1] === 0xfe)
    return { encoding: "utf-16le", mark: 2, unit: 2, why: { kind: "byteOrderMark" } };
  if (head[0] === 0xfe && head[1] === 0xff)
    return { encoding: "utf-16be", mark: 2, unit: 2, why: { kind: "byteOrderMark" } };
  const look = Math.min(head.length, 4096) & ~1;
  let even = 0;
  let odd = 0;
  for (let i = 0; i < look; i += 2) {
    if (head[i] === 0) even++;
    if (head[i + 1] === 0) odd++;
  }
  // Text of a log is nearly all below U+0100: in UTF-16 one byte of each pair is zero.
  if (odd > look * 0.4 && even < look * 0.05) {
    return { encoding: "utf-16le", mark: 0, unit: 2, why: { kind: "everySecondZero" } };
  }
  if (even > look * 0.4 && odd < look * 0.05) {
    return { encoding: "utf-16be", mark: 0, unit: 2, why: { kind: "everySecondZero" } };
  }
  if (decodeUtf8(head, 0, head.length).broken) {
    return { encoding: "windows-1252", mark: 0, unit: 1, why: { kind: "notUtf8" } };
  }
  return { encoding: "utf-8", mark: 0, unit: 1, why: { kind: "validUtf8" } };
}

/** Bytes as text; what cannot be read becomes U+FFFD. */
export function textOf(bytes: Uint8Array, from: number, to: number, encoding: Encoding): string {
  switch (encoding) {
    case "utf-8":
      return decodeUtf8(bytes, from, to).text;
    case "windows-1252":
      return decode1252(bytes, from, to);
    default: {
      const low = encoding === "utf-16le" ? 0 : 1;
      const units: string[] = [];
      for (let i = from; i + 1 < to; i += 2)
        units.push(String.fromCharCode(bytes[i + low]! | (bytes[i + 1 - low]! << 8)));
      return units.join("");
    }
  }
}

/**
 * UTF-16 as one byte a unit, written over `into`; units above U+00FF become `?`.
 * @returns bytes written; an odd last byte is left.
 */
export function narrow(bytes: Uint8Array, from: number, to: number, encoding: Encoding, into: Uint8Array): number {
  const low = encoding === "utf-16be" ? 1 : 0;
  let n = 0;
  for (let i = from; i + 1 < to; i += 2) {
    into[n++] = bytes[i + 1 - low] === 0 ? bytes[i + low]! : 63;
  }
  return n;
}

/** Text as one byte a character, for readers of bytes; characters above U+00FF become `?`. */
export function bytesOf(text: string): Uint8Array {
  const bytes = new Uint8Array(text.length);
  for (let i = 0; i < text.length; i++) {
    const code = text.charCodeAt(i);
    bytes[i] = code > 255 ? 63 : code;
  }
  return bytes;
}

// windows-1252 from 0x80 to 0x9f (WHATWG Encoding Standard, index-windows-1252, recalled); the rest is Latin-1.
const C1 = "€\u0081‚ƒ„…†‡ˆ‰Š‹Œ\u008dŽ\u008f\u0090‘’“”•–—˜™š›œ\u009džŸ";

function decode1252(bytes: Uint8Array, from: number, to: number): string {
  const out: string[] = [];
  for (let i = from; i < to; i++) {
    const b = bytes[i]!;
    out.push(b >= 0x80 && b < 0xa0 ? C1[b - 0x80]! : String.fromCharCode(b));
  }
  return out.join("");
}

function decodeUtf8(bytes: Uint8Array, from: number, to: number): { text: string; broken: boolean } {
  const out: string[] = [];
  let broken = false;
  let i = from;
  while (i < to) {
    const b = bytes[i]!;
    if (b < 0x80) {
      out.push(String.fromCharCode(b));
      i++;
      continue;
    }
    const length = b >= 0xc2 && b < 0xe0 ? 2 : b >= 0xe0 && b < 0xf0 ? 3 : b >= 0xf0 && b < 0xf5 ? 4 : 0;
    if (length > 0 && i + length > to) {
      // A character cut by the end of what was read is no sign of another encoding.
      out.push("\ufffd");
      break;
    }
    let code = length === 2 ? b & 0x1f : length === 3 ? b & 0x0f : b & 0x07;
    let good = length > 0;
    for (let k = 1; good && k < length; k++) {
      const next = bytes[i + k]!;
      if ((next & 0xc0) !== 0x80) good = false;
      code = (code << 6) | (next & 0x3f);
    }
    const least = length === 3 ? 0x800 : length === 4 ? 0x10000 : 0x80;
    if (!good || code < least || code > 0x10ffff || (code >= 0xd800 && code < 0xe000)) {
      broken = true;
      out.push("\ufffd");
      i++;
    } else {
      out.push(String.fromCodePoint(code));
      i += length;
    }
  }
  return { text: out.join(""), broken };
}
