/** What the lines above a table say of it: the unit, the day, the rows a second, the zone. */

import { bytesOf } from "./encoding.ts";
import { StampReader } from "./stamp.ts";
import { readUnit } from "./unit-name.ts";
import { zoneIn } from "./zone-name.ts";

export interface PreambleHints {
  readonly unit?: { readonly text: string; readonly line: string };
  /** Moment or day, s since 1970 as if in UTC. */
  readonly start?: { readonly seconds: number; readonly line: string };
  readonly rate?: { readonly hertz: number; readonly line: string };
  /** Zone of the times, s east of UTC. */
  readonly zone?: { readonly seconds: number; readonly line: string };
}

export function readPreamble(lines: readonly string[]): PreambleHints {
  const hints: { -readonly [K in keyof PreambleHints]: PreambleHints[K] } = {};
  for (const line of lines) {
    const text = line
      .replace(/["#%*]/g, "")
      .replace(/[,;|\t]+/g, " ")
      .replace(/\s+/g, " ")
      .trim();
    const unit =
      /\b(?:y_unit_label|units?|einheit|unit[eé]s?|unidad(?:es)?|eenheid)\b\s*[:=]?\s*\(?([A-Za-z]{1,6})\)?/i.exec(
        text,
      )?.[1];
    if (unit !== undefined && readUnit(unit, "load") !== null) hints.unit ??= { text: unit, line: text };
    const rate =
      /\b(?:sample|sampling|logging|log|scan)?\s*(?:rate|frequency|freq)\b\s*[:=]?\s*([\d.]+)\s*(?:hz|s\/s|sps|\/s)/i.exec(
        text,
      )?.[1];
    if (rate !== undefined && Number(rate) > 0) hints.rate ??= { hertz: Number(rate), line: text };
    const day = /\b(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})(?:[T ]+(\d{1,2}:\d{2}(?::\d{2}(?:[.,]\d+)?)?))?/.exec(text);
    if (day) {
      const stamp = bytesOf(`${day[1]}-${day[2]}-${day[3]}${day[4] === undefined ? "" : ` ${day[4]}`}`);
      const seconds = new StampReader("ymd").read(stamp, 0, stamp.length);
      if (!Number.isNaN(seconds)) hints.start ??= { seconds, line: text };
    }
    if (/\b(time ?zone|zone|tz|times?|clock|zeitzone|uhrzeit|fuseau|huso|logged|recorded)\b/i.test(text)) {
      const zone = zoneIn(text);
      if (zone !== undefined) hints.zone ??= { seconds: zone, line: text };
    }
  }
  return hints;
}
