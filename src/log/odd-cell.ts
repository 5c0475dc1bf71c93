import { isMissing, isOverload } from "./cells.ts";
import type { ChannelKind } from "./channel.ts";
import { bytesOf, type Encoding, textOf } from "./encoding.ts";
import type { NumberReader } from "./number.ts";
import { readUnit } from "./unit-name.ts";

/** A cell that is no plain number: one with its unit (scale null: none written), a word for none, or trouble. */
export type OddCell =
  | { readonly kind: "number"; readonly value: number; readonly scale: number | null }
  | { readonly kind: "blank" | "missing" | "overload" | "trouble" };

interface Reading {
  readonly numbers: NumberReader;
  readonly kind: ChannelKind;
  readonly encoding: Encoding;
}

export function oddCell(bytes: Uint8Array, from: number, to: number, { numbers, kind, encoding }: Reading): OddCell {
  let first = from;
  let end = to;
  while (first < end && isBlank(bytes[first]!)) first++;
  while (end > first && isBlank(bytes[end - 1]!)) end--;
  if (first === end) return { kind: "blank" };
  const value = numbers.read(bytes, first, end);
  if (hasWideSigns(bytes, first, end)) {
    // Signs beyond ASCII within the number: no-break blanks between thousands, a minus as printers set it.
    const text = textOf(bytes, first, end, encoding).trim();
    const plain = plainNumber(text, numbers.grouping);
    if (plain !== text) {
      const again = bytesOf(plain);
      return oddCell(again, 0, again.length, { numbers, kind, encoding: "windows-1252" });
    }
  }
  if (Number.isNaN(value)) {
    const text = textOf(bytes, first, end, encoding).trim();
    if (!isMissing(text)) return { kind: "trouble" };
    return { kind: isOverload(text) ? "overload" : "missing" };
  }
  const suffix = textOf(bytes, numbers.at, end, encoding).trim();
  if (suffix === "") return { kind: "number", value, scale: null };
  const unit = readUnit(suffix, kind);
  return unit === null ? { kind: "trouble" } : { kind: "number", value, scale: unit.scale };
}

/** A blank, or the no-break blank some programs put before a unit. */
function isBlank(b: number): boolean {
  return b === 32 || b === 160;
}

function hasWideSigns(bytes: Uint8Array, from: number, to: number): boolean {
  for (let i = from; i < to; i++) if (bytes[i]! > 127) return true;
  return false;
}

/** The number with its minus and its marks of thousands as ASCII has them; a degree sign or a unit stays. */
function plainNumber(text: string, grouping: number): string {
  const minus = text.replace(/^[−–]/, "-");
  if (grouping === 32) return minus.replace(/(?<=\d)[\u00a0\u2009\u202f ](?=\d{3}(?!\d))/g, "");
  return grouping === 39 ? minus.replace(/(?<=\d)’(?=\d{3}(?!\d))/g, "") : minus;
}
