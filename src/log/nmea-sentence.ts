/**
 * Sentences of NMEA 0183: `$` or `!`, a talker and a type, fields between commas, and behind `*` the exclusive or of
 * all bytes between, in two hexadecimal digits.
 */

export interface Sentence {
  readonly kind: "sentence";
  readonly talker: string;
  readonly type: string;
  readonly fields: readonly string[];
  /** The sentence itself, without what a logger wrote before it. */
  readonly text: string;
  /** What stood before it. */
  readonly prefix: string;
  /** False where no checksum was sent. */
  readonly summed: boolean;
}

export interface BadSentence {
  readonly kind: "bad";
  readonly expected: string;
}

/** The exclusive or of the bytes of a sentence between `$` and `*`. */
export function checksum(body: string): number {
  let sum = 0;
  for (let i = 0; i < body.length; i++) sum ^= body.charCodeAt(i) & 0xff;
  return sum;
}

/** Takes a line of a log apart; null where it holds no sentence at all. */
export function readSentence(line: string): Sentence | BadSentence | null {
  // A tag block of NMEA 0183 4.0 (\c:…*hh\) has a checksum of its own, and no $ or ! in it.
  const start = line.search(/[$!][A-Z]/);
  if (start < 0) return null;
  const text = line.slice(start).trimEnd();
  const star = text.lastIndexOf("*");
  const body = star < 0 ? text.slice(1) : text.slice(1, star);
  if (star >= 0) {
    const written = text.slice(star + 1);
    const sum = checksum(body).toString(16).toUpperCase().padStart(2, "0");
    if (!/^[0-9A-F]{2}$/i.test(written)) return { kind: "bad", expected: `a checksum *${sum} is expected at the end` };
    if (written.toUpperCase() !== sum)
      return { kind: "bad", expected: `the checksum *${sum} of these bytes is expected` };
  }
  const fields = body.split(",");
  const address = fields.shift()!;
  if (!/^(P[A-Z0-9]{1,8}|[A-Z0-9]{5})$/.test(address))
    return { kind: "bad", expected: "a talker and a type of five letters are expected" };
  const proprietary = address.startsWith("P");
  return {
    kind: "sentence",
    talker: proprietary ? "P" : address.slice(0, 2),
    type: proprietary ? address : address.slice(2),
    fields,
    text,
    prefix: line.slice(0, start).trim(),
    summed: star >= 0,
  };
}

/** Seconds since 1970 that a logger wrote before a sentence, or NaN: a tag block's c:, ISO 8601, s or ms since 1970. */
export function prefixTime(prefix: string): number {
  if (prefix === "") return Number.NaN;
  const tag = /\\(?:[^\\]*,)?c:(\d{9,16})/.exec(prefix)?.[1];
  const count = tag ?? /^\D{0,2}(\d{9,16}(?:\.\d+)?)(?!\d)/.exec(prefix)?.[1];
  if (count !== undefined) {
    const whole = count.split(".")[0]!;
    if (whole.length <= 10) return Number(count);
    if (whole.length <= 13) return Number(count) / 1e3;
    return Number(count) / 1e6;
  }
  const iso = /(\d{4})-(\d\d)-(\d\d)[T ](\d\d):(\d\d):(\d\d(?:[.,]\d+)?) ?(Z|[+-]\d\d:?\d\d)?/.exec(prefix);
  if (!iso) return Number.NaN;
  const [year, month, day, hour, minute] = iso.slice(1, 6).map(Number) as [number, number, number, number, number];
  const zone =
    iso[7] === undefined || iso[7] === "Z"
      ? 0
      : (Number(iso[7].slice(1, 3)) * 60 + Number(iso[7].slice(-2))) * (iso[7][0] === "-" ? -60 : 60);
  const days = Date.UTC(year, month - 1, day) / 86400000;
  return days * 86400 + hour * 3600 + minute * 60 + Number(iso[6]!.replace(",", ".")) - zone;
}
