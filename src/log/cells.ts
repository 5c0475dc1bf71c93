/**
 * The rows and cells of the first lines of a log, as text: what the guess looks at. Quotes as RFC 4180 writes them;
 * a blank delimiter stands for any run of blanks and tabs.
 */

export type Delimiter = "," | ";" | "\t" | "|" | " " | "";

/** One physical line with its number (1 first) and where it starts in the text. */
export interface Line {
  readonly number: number;
  readonly at: number;
  readonly text: string;
}

/** Lines ended by LF, CR LF or a bare CR; the last one too when it has no end. */
export function linesOf(text: string, most: number): Line[] {
  const lines: Line[] = [];
  let at = 0;
  for (let number = 1; number <= most && at < text.length; number++) {
    let end = at;
    while (end < text.length && text[end] !== "\n" && text[end] !== "\r") end++;
    lines.push({ number, at, text: text.slice(at, end) });
    at = text[end] === "\r" && text[end + 1] === "\n" ? end + 2 : end + 1;
  }
  return lines;
}

/** The cells of one line, blanks around them taken off, quotes undone. */
export function cellsOf(line: string, delimiter: Delimiter): string[] {
  if (delimiter === "") return [unquoted(line.trim())];
  const blanks = delimiter === " ";
  const text = blanks ? line.trim() : line;
  const cells: string[] = [];
  let p = 0;
  for (;;) {
    while (p < text.length && isBlank(text[p]!) && text[p] !== delimiter) p++;
    let cell = "";
    if (text[p] === '"') {
      const closed = quotedEnd(text, p);
      if (closed > 0) {
        cell = text.slice(p + 1, closed).replaceAll('""', '"');
        p = closed + 1;
        // Letters behind a closing quote belong to the cell: better shown than lost.
        const from = p;
        while (p < text.length && !ends(text[p]!, delimiter, blanks)) p++;
        cell += text.slice(from, p).trimEnd();
      } else {
        const from = p;
        while (p < text.length && !ends(text[p]!, delimiter, blanks)) p++;
        cell = text.slice(from, p).trim();
      }
    } else {
      const from = p;
      while (p < text.length && !ends(text[p]!, delimiter, blanks)) p++;
      cell = text.slice(from, p).trim();
    }
    cells.push(cell);
    if (p >= text.length) return cells;
    p++;
    if (blanks) while (p < text.length && isBlank(text[p]!)) p++;
  }
}

function ends(c: string, delimiter: Delimiter, blanks: boolean): boolean {
  return c === delimiter || (blanks && c === "\t");
}

function isBlank(c: string): boolean {
  return c === " " || c === "\t" || c === "\u00a0";
}

/** Index of the quote that closes the one at `from`, or −1. */
function quotedEnd(text: string, from: number): number {
  for (let p = from + 1; p < text.length; p++) {
    if (text[p] !== '"') continue;
    if (text[p + 1] === '"') p++;
    else return p;
  }
  return -1;
}

function unquoted(cell: string): string {
  return cell.length > 1 && cell.startsWith('"') && cell.endsWith('"') ? cell.slice(1, -1).replaceAll('""', '"') : cell;
}

/** What a cell looks like, before anybody says what its column is. */
export type Look = "number" | "stamp" | "missing" | "blank" | "text";

const NUMBER = /^[+\-−]?(\d+([.,]\d*)?|[.,]\d+)(e[+-]?\d+)?(\s?[a-z%°#/²]{1,8})?$/i;
const GROUPED = /^[+\-−]?\d{1,3}(?:([.,'’ \u00a0\u2009\u202f])\d{3})(?:\1\d{3})*([.,]\d+)?(\s?[a-z%°#]{1,8})?$/i;
const CLOCK =
  /^\d{1,6}:\d{1,2}(:\d{1,2}([.,:]\d+)?|[.,]\d+)?(\s?[ap]\.?m\.?)?( ?Z| ?[a-z]{3,4})?( ?[+-]\d{2}:?(\d{2})?)?$/i;
const DATE =
  /^(\d{1,4}(?:[-/. ]|\. )(\d{1,2}|\p{L}{3,10}\.?)[-/. ]\d{1,4}|[a-z]{3,9}\.? \d{1,2},? \d{4})((T|,? +)\d{1,2}:\d{2}(:\d{2}([.,:]\d+)?)?( ?[ap]\.?m\.?)?( ?(Z|[a-z]{3,4}))?( ?[+-]\d{2}:?(\d{2})?)?)?$/iu;
const COMPACT = /^(19|20)\d{6}([T _-]\d{4,6}([.,]\d+)?|\d{6}([.,]\d+)?)(\s?(Z|[+-]\d{2}:?(\d{2})?))?$/i;
const MISSING =
  /^(nan|n\/?a|null|none|nil|nd|-+|\.+|\?+|\*+|#(n\/?a|value!|num!|ref!|div\/0!|name\?)|err(or)?|fault|bad|open|[+-]?inf(inity)?|1\.#\w+|----.*|no (data|signal)|invalid|disconnected)$/i;
const OVERLOAD =
  /^[+-]?([o0]\.?l|over([ -]?(load|range|flow))?|ovl?d?|ovr|ovf|hi(gh)?|sat(urated)?|clip(ped)?|>\s?\d[\d.,]*.*)$/i;

/** Words that stand where a reading is missing. */
export function isMissing(cell: string): boolean {
  return MISSING.test(cell) || OVERLOAD.test(cell);
}

/** Words a cell writes when it was loaded past its range. */
export function isOverload(cell: string): boolean {
  return OVERLOAD.test(cell);
}

export function lookOf(cell: string): Look {
  if (cell === "") return "blank";
  if (cell.length > 48) return "text";
  if (NUMBER.test(cell) || GROUPED.test(cell)) return "number";
  if (CLOCK.test(cell) || DATE.test(cell) || COMPACT.test(cell)) return "stamp";
  if (isMissing(cell)) return "missing";
  return "text";
}
