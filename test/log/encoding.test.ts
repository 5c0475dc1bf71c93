import { describe, expect, test } from "vitest";
import { guessEncoding, narrow, textOf } from "../../src/log/encoding.ts";

const utf16 = (text: string, big: boolean, mark = true) => {
  const bytes = Buffer.from(mark ? `\ufeff${text}` : text, "utf16le");
  return new Uint8Array(big ? bytes.swap16() : bytes);
};

// Characters none of whose bytes is zero: only the mark tells the order.
const DENSE = "載荷時間";

describe("a byte order mark tells the encoding, whatever follows", () => {
  test.each(["utf-16be", "utf-16le"] as const)("%s", (encoding) => {
    const bytes = utf16(DENSE, encoding === "utf-16be");
    expect(guessEncoding(bytes)).toMatchObject({ encoding, mark: 2, unit: 2, why: { kind: "byteOrderMark" } });
    expect(textOf(bytes, 2, bytes.length, encoding)).toBe(DENSE);
  });
  test("utf-8", () =>
    expect(guessEncoding(new TextEncoder().encode(`\ufeff${DENSE}`))).toMatchObject({ encoding: "utf-8", mark: 3 }));
  test("two bytes a letter are told without one by every second byte that is nought, whatever the first letter", () => {
    const text = `${DENSE}Load,Time\n1.5,2\n1.6,3\n1.7,4\n`;
    for (const big of [false, true])
      expect(guessEncoding(utf16(text, big, false))).toMatchObject({
        encoding: big ? "utf-16be" : "utf-16le",
        mark: 0,
        why: { kind: "everySecondZero" },
      });
  });
  test("half a mark is none", () => {
    for (const head of [
      [0xfe, 0x41, 0x42, 0x43],
      [0xff, 0x41, 0x42, 0x43],
      [0x41, 0xff, 0x42, 0x43],
      [0xef, 0xbb, 0x41],
    ])
      expect(guessEncoding(Uint8Array.from(head))).toMatchObject({ encoding: "windows-1252", mark: 0 });
  });
});

test.each(["utf-16be", "utf-16le"] as const)("without a mark the zeros of %s tell it", (encoding) => {
  const bytes = utf16("Time (s),Load (kN)\n0,1.5\n", encoding === "utf-16be", false);
  expect(guessEncoding(bytes)).toMatchObject({ encoding, mark: 0, unit: 2 });
});

test.each(["utf-16be", "utf-16le"] as const)("%s narrowed is one byte a sign, ? for what has none", (encoding) => {
  const bytes = utf16("1,5°載\n", encoding === "utf-16be", false);
  const into = new Uint8Array(6);
  expect(narrow(bytes, 0, bytes.length, encoding, into)).toBe(6);
  expect([...into]).toEqual([..."1,5°?\n"].map((sign) => sign.charCodeAt(0)));
  // An odd last byte is left for the next piece.
  expect(narrow(bytes, 0, bytes.length - 1, encoding, into)).toBe(5);
});

// 0x80 to 0x9f as another program's codec has them (Python's cp1252, run); the five it leaves open are controls in the
// Encoding Standard's index (recalled). Beside them the bytes are Latin-1's.
const HIGH =
  "\u20ac\u0081\u201a\u0192\u201e\u2026\u2020\u2021\u02c6\u2030\u0160\u2039\u0152\u008d\u017d\u008f\u0090\u2018\u2019\u201c\u201d\u2022\u2013\u2014\u02dc\u2122\u0161\u203a\u0153\u009d\u017e\u0178";

test("every byte of windows-1252 is the character that the codec tables give it", () => {
  for (let byte = 0; byte < 256; byte++) {
    const expected = byte >= 0x80 && byte < 0xa0 ? HIGH[byte - 0x80]! : String.fromCharCode(byte);
    expect([byte, textOf(Uint8Array.of(byte), 0, 1, "windows-1252")]).toEqual([byte, expected]);
  }
});
