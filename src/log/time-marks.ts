/**
 * Time marks of a video: what happens in it and when. Written as WebVTT cues, as any player shows them, or as a table
 * with a column of times and one of words.
 */
import { InputError } from "../quantity/index.ts";
import { cellsOf, linesOf, lookOf } from "./cells.ts";
import { bytesOf } from "./encoding.ts";
import { StampReader } from "./stamp.ts";
import type { StampFormat } from "./stamp-format.ts";
import { guessStampFormat } from "./stamp-guess.ts";
import { readTitle } from "./title.ts";
import { shown, type Trouble } from "./troubles.ts";

/** A moment or a stretch that somebody marked. */
export interface TimeMark {
  /** s on the video's or the table's own clock. */
  readonly from: number;
  /** End, s; null for a moment. */
  readonly to: number | null;
  readonly text: string;
}

/** Marks of a file, and what could not be read. */
export interface TimeMarks {
  readonly kind: "marks";
  /** `elapsed`: seconds of the video; `utc` and `local`: seconds since 1970. */
  readonly clock: "elapsed" | "utc" | "local";
  readonly marks: readonly TimeMark[];
  readonly troubles: readonly Trouble[];
}

const CUE = /^((?:\d+:)?\d\d:\d\d[.,]\d{3})[ \t]+-->[ \t]+((?:\d+:)?\d\d:\d\d[.,]\d{3})(?:[ \t].*)?$/;

/**
 * Reads WebVTT: cues with their times; notes, styles and regions are passed over, tags taken out of the words.
 * @throws InputError when no cue can be read.
 * @source W3C WebVTT: The Web Video Text Tracks Format, sections 4.1 and 6.3
 */
export function readWebVtt(text: string, place: string): TimeMarks {
  const lines = linesOf(text.replace(/^\ufeff/, ""), Number.POSITIVE_INFINITY);
  if (!/^WEBVTT([ \t].*)?$/.test(lines[0]?.text ?? ""))
    throw new InputError(`${place}: line 1`, shown(lines[0]?.text ?? ""), "WEBVTT is expected");
  const marks: TimeMark[] = [];
  const troubles: Trouble[] = [];
  for (let i = 1; i < lines.length; i++) {
    const line = lines[i]!;
    if (!line.text.includes("-->")) continue;
    const times = CUE.exec(line.text.trim());
    const from = times ? cueTime(times[1]!) : Number.NaN;
    const to = times ? cueTime(times[2]!) : Number.NaN;
    const words: string[] = [];
    while (i + 1 < lines.length && lines[i + 1]!.text !== "" && !lines[i + 1]!.text.includes("-->"))
      words.push(lines[++i]!.text);
    if (!(to > from)) {
      troubles.push({
        line: line.number,
        value: shown(line.text),
        expected: "a cue such as 00:01:02.000 --> 00:01:05.000, its end after its start, is expected",
      });
      continue;
    }
    marks.push({ from, to, text: plainWords(words.join(" ")) });
  }
  if (marks.length === 0) {
    const first = troubles[0];
    throw new InputError(
      first ? `${place}: line ${first.line}` : place,
      first?.value ?? "no cues",
      first?.expected ?? "cues with times are expected",
    );
  }
  return { kind: "marks", clock: "elapsed", marks, troubles };
}

function cueTime(text: string): number {
  const parts = text.replace(",", ".").split(":");
  const seconds = Number(parts.pop());
  const minutes = Number(parts.pop());
  return minutes < 60 && seconds < 60 ? Number(parts.pop() ?? 0) * 3600 + minutes * 60 + seconds : Number.NaN;
}

function plainWords(text: string): string {
  const ENTITIES: Record<string, string> = {
    "&amp;": "&",
    "&lt;": "<",
    "&gt;": ">",
    "&nbsp;": " ",
    "&lrm;": "",
    "&rlm;": "",
  };
  return text
    .replace(/<[^>]*>/g, "")
    .replace(/&\w+;/g, (entity) => ENTITIES[entity] ?? entity)
    .replace(/\s+/g, " ")
    .trim();
}

const WORDS = /^(marks?|labels?|notes?|events?|comments?|what|text|remarks?|description)$/i;
const TIMES = /^(time|start|from|at|begin|in|timecode|date ?time|timestamp)$/i;
const COUNTS = /^(#|no\.?|nr\.?|id|index)?$/i;
const ENDS = /^(end|to|until|out|stop)$/i;

/**
 * Reads a table of marks: a header with a column of times and one of words (`time,mark`), an end if there is one.
 * @returns null when the table's header does not say it is one of marks.
 */
export function readMarkTable(text: string): TimeMarks | null {
  const lines = linesOf(text.replace(/^\ufeff/, ""), 100_000).filter((line) => line.text.trim() !== "");
  const layout = guessMarkLayout(lines);
  if (layout === null) return null;
  const { header, delimiter, times, words, ends } = layout;
  const rows = lines.slice(header + 1).map((line) => ({ line, cells: cellsOf(line.text, delimiter) }));
  const stamps = rows.map((row) => row.cells[times] ?? "");
  const title = readTitle(cellsOf(lines[header]!.text, delimiter)[times] ?? "");
  const format = guessStampFormat(stamps, title, { delimiter, decimal: "." })?.value;
  if (format === undefined) return null;
  const used: StampFormat = format === "clock" ? "elapsed-clock" : format;
  const reader = new StampReader(used);
  const read = (cell: string) => reader.read(bytesOf(cell), 0, cell.length);
  const marks: TimeMark[] = [];
  const troubles: Trouble[] = [];
  let zoned = false;
  for (const { line, cells } of rows) {
    const from = read(cells[times] ?? "");
    zoned ||= reader.zoned;
    const to = ends < 0 ? Number.NaN : read(cells[ends] ?? "");
    if (Number.isNaN(from))
      troubles.push({ line: line.number, value: shown(line.text), expected: `a time as ${used} is expected` });
    else marks.push({ from, to: to >= from ? to : null, text: (cells[words] ?? "").trim() });
  }
  if (marks.length === 0) return null;
  const dated = used === "ymd" || used === "dmy" || used === "mdy" || used === "compact" || used === "excel";
  return {
    kind: "marks",
    clock: used.startsWith("epoch") || (dated && zoned) ? "utc" : dated ? "local" : "elapsed",
    marks,
    troubles,
  };
}

function guessMarkLayout(lines: readonly { text: string }[]) {
  for (let header = 0; header < Math.min(lines.length, 20); header++) {
    for (const delimiter of ["\t", ";", ",", "|"] as const) {
      const titles = cellsOf(lines[header]!.text, delimiter).map((title) => readTitle(title).name);
      const times = titles.findIndex((title) => TIMES.test(title));
      const words = titles.findIndex((title) => WORDS.test(title));
      const ends = titles.findIndex((title) => ENDS.test(title));
      // A column of something else, such as a load, makes it a log with remarks.
      const others = titles.filter((title, i) => i !== times && i !== words && i !== ends && !COUNTS.test(title));
      if (titles.length < 2 || times < 0 || words < 0 || others.length > 0) continue;
      const rows = lines.slice(header + 1, header + 40).map((line) => cellsOf(line.text, delimiter)[words] ?? "");
      const numbers = rows.filter((cell) => cell !== "" && lookOf(cell) === "number").length;
      if (rows.length === 0 || numbers < rows.length * 0.5) return { header, delimiter, times, words, ends };
    }
  }
  return null;
}
