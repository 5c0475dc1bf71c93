/** What a terminal may be given: names, titles, cells and lines of files are told back as they stand there, and no more. */
import { STEERING } from "../quantity/index.ts";

/** Longest line of an error, characters. */
const LONGEST_LINE = 1_000;

/** A JSON text with each steering sign within its strings escaped: it reads back as the same document. */
export function plainJson(json: string): string {
  return json.replace(STEERING, (sign) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, "0")}`);
}

/** On one line, and no longer than a line may be. */
export function onOneLine(text: string): string {
  const line = text.replace(/\s*[\p{Cc}\u2028\u2029]\s*/gu, " ");
  return line.length <= LONGEST_LINE ? line : `${line.slice(0, LONGEST_LINE - 300)} ... ${line.slice(-295)}`;
}
