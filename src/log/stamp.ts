/**
 * Time stamps straight from bytes: seconds since 1970 for dates, seconds of the day for clock times, seconds for
 * counts. Dates by the civil calendar without leap seconds, as ISO 8601 and every logger count.
 */
import { daysIn, daysSince1970 } from "./calendar.ts";
import { NumberReader } from "./number.ts";
import { perSecond, type StampFormat } from "./stamp-format.ts";
import { zoneOf } from "./zone-name.ts";

/** Day 0 of the 1900 calendar of spreadsheets, as days before 1970-01-01 (25569: 1970-01-01 is serial 25569). */
const SERIAL_1970 = 25569;

/** Reads the stamps of one column. State: the last date met, so that a day is worked out once. */
export class StampReader {
  readonly format: StampFormat;
  /** Offset of stamps that state no zone, s east of UTC. */
  readonly zone: number;
  /** True after a stamp that stated its own zone. */
  zoned = false;
  private readonly named: number;
  private readonly numbers: NumberReader;
  private readonly perSecond: number;
  private lastDate = -1;
  private lastDay = 0;
  private p = 0;
  private end = 0;

  /** @param named offset of zones whose name stands for several, s east of UTC; NaN: such stamps are not read */
  constructor(format: StampFormat, zone = 0, decimal = 46, named = Number.NaN) {
    this.named = named;
    this.format = format;
    this.zone = zone;
    this.numbers = new NumberReader({ decimal, grouping: 0 });
    this.perSecond = perSecond(format);
  }

  /** Seconds of the stamp that fills `from` to `to` (blanks around it allowed), or NaN. */
  read(bytes: Uint8Array, from: number, to: number): number {
    while (from < to && blank(bytes[from]!)) from++;
    while (to > from && blank(bytes[to - 1]!)) to--;
    if (from === to) return Number.NaN;
    this.zoned = false;
    this.p = from;
    this.end = to;
    switch (this.format) {
      case "ymd":
      case "dmy":
      case "mdy": {
        const day = this.date(bytes);
        return Number.isNaN(day) ? day : this.afterDate(bytes, day);
      }
      case "compact":
        return this.compact(bytes);
      case "clock":
      case "elapsed-clock": {
        const seconds = this.clock(bytes);
        if (this.p === this.end) return seconds;
        if (this.format === "elapsed-clock" || Number.isNaN(seconds)) return Number.NaN;
        const zone = this.zoneAt(bytes);
        return this.p === this.end ? seconds - zone : Number.NaN;
      }
      case "excel": {
        const days = this.number(bytes);
        // A serial day has some 11 digits after the mark where it holds milliseconds: round to the microsecond.
        return days >= 1 && days < 2958466 ? Math.round((days - SERIAL_1970) * 86400e6) / 1e6 - this.zone : Number.NaN;
      }
      default:
        return this.number(bytes) / this.perSecond;
    }
  }

  private number(bytes: Uint8Array): number {
    const value = this.numbers.read(bytes, this.p, this.end);
    return this.numbers.at === this.end ? value : Number.NaN;
  }

  /** Days since 1970 of the date at `p`, leaving `p` behind it. */
  private date(bytes: Uint8Array): number {
    const first = this.field(bytes);
    const firstDigits = this.digits;
    const mark = this.p < this.end ? bytes[this.p]! : 0;
    if (first < 0 || !dateSeparator(mark)) return Number.NaN;
    this.p++;
    let separator = mark;
    if (separator === 46 && bytes[this.p] === 32) {
      // "3. May 2024"
      this.p++;
      separator = 32;
    }
    const second = this.field(bytes);
    const mid = this.p < this.end ? bytes[this.p]! : 0;
    // "May 3, 2024" and "3 May 2024" part their fields by different marks; all others by the same one.
    if (second < 0 || !(mid === separator || (mid === 44 && separator === 32))) return Number.NaN;
    this.p++;
    if (mid === 44 && bytes[this.p] === 32) this.p++;
    const third = this.field(bytes);
    const thirdDigits = this.digits;
    if (third < 0) return Number.NaN;
    let year: number;
    let month: number;
    let day: number;
    if (this.format === "ymd") {
      if (firstDigits !== 4 && (firstDigits !== 2 || thirdDigits > 2)) return Number.NaN;
      [year, month, day] = [firstDigits === 2 ? century(first) : first, second, third];
    } else {
      if (thirdDigits !== 4 && thirdDigits !== 2) return Number.NaN;
      year = thirdDigits === 2 ? century(third) : third;
      [day, month] = this.format === "dmy" ? [first, second] : [second, first];
    }
    return this.dayOf(year, month, day);
  }

  private dayOf(year: number, month: number, day: number): number {
    const key = (year * 16 + month) * 32 + day;
    if (key === this.lastDate) return this.lastDay;
    if (month < 1 || month > 12 || day < 1 || day > daysIn(year, month)) return Number.NaN;
    this.lastDate = key;
    this.lastDay = daysSince1970(year, month, day);
    return this.lastDay;
  }

  private afterDate(bytes: Uint8Array, day: number): number {
    if (this.p === this.end) return day * 86400 - this.zone;
    const separator = bytes[this.p]!;
    if (separator !== 84 && separator !== 116 && separator !== 32 && separator !== 44 && separator !== 59)
      return Number.NaN;
    while (this.p < this.end && (bytes[this.p] === separator || bytes[this.p] === 32)) this.p++;
    const seconds = this.clock(bytes);
    const zone = this.zoneAt(bytes);
    return this.p === this.end ? day * 86400 + seconds - zone : Number.NaN;
  }

  /** hh:mm[:ss[.fff]] [am|pm], or mm:ss for `elapsed-clock`; leaves `p` behind it. */
  private clock(bytes: Uint8Array): number {
    const elapsed = this.format === "elapsed-clock";
    let hours = this.plain(bytes);
    if (this.digits === 0 || this.digits > (elapsed ? 6 : 2) || bytes[this.p] !== 58 || this.p >= this.end)
      return Number.NaN;
    this.p++;
    let minutes = this.plain(bytes);
    if (this.digits === 0 || this.digits > 2) return Number.NaN;
    let seconds = 0;
    let fraction = 0;
    if (this.p < this.end && bytes[this.p] === 58) {
      this.p++;
      seconds = this.plain(bytes);
      if (this.digits === 0 || this.digits > 2) return Number.NaN;
    } else if (elapsed) {
      // Two fields of an elapsed clock are minutes and seconds.
      [hours, minutes, seconds] = [0, hours, minutes];
    } else if (this.p < this.end && (bytes[this.p] === 46 || bytes[this.p] === 44)) {
      // 10:20.5 is minutes and seconds, and no time of day.
      return Number.NaN;
    }
    if (this.p + 1 < this.end && (bytes[this.p] === 46 || bytes[this.p] === 44 || bytes[this.p] === 58)) {
      this.p++;
      const value = this.plain(bytes);
      if (this.digits === 0 || this.digits > 15) return Number.NaN;
      fraction = value / 10 ** this.digits;
    }
    if (seconds >= 61 || (minutes > 59 && !(elapsed && hours === 0)) || (!elapsed && hours > 24)) return Number.NaN;
    hours = this.meridiem(bytes, hours);
    return hours * 3600 + minutes * 60 + seconds + fraction;
  }

  private meridiem(bytes: Uint8Array, hours: number): number {
    let p = this.p;
    while (p < this.end && bytes[p] === 32) p++;
    const half = p < this.end ? bytes[p]! | 32 : 0;
    if ((half !== 97 && half !== 112) || p + 1 >= this.end) return hours;
    let q = p + 1;
    if (bytes[q] === 46) q++;
    if (q >= this.end || (bytes[q]! | 32) !== 109) return hours;
    q++;
    if (q < this.end && bytes[q] === 46) q++;
    this.p = q;
    if (hours < 1 || hours > 12) return Number.NaN;
    return (hours % 12) + (half === 112 ? 12 : 0);
  }

  /** Zone at `p`, s east of UTC: Z, UTC, GMT, +hh, +hhmm, +hh:mm; the column's own zone where none is stated. */
  private zoneAt(bytes: Uint8Array): number {
    let p = this.p;
    while (p < this.end && bytes[p] === 32) p++;
    if (p === this.end) {
      this.p = p;
      return this.zone;
    }
    const b = bytes[p]!;
    if ((b === 90 || b === 122) && p + 1 === this.end) {
      this.p = p + 1;
      this.zoned = true;
      return 0;
    }
    if (letter(b)) {
      const from = p;
      while (p < this.end && letter(bytes[p]!)) p++;
      if (p - from < 3 || p - from > 4) return Number.NaN;
      let word = "";
      for (let i = from; i < p; i++) word += String.fromCharCode(bytes[i]!);
      const zone = zoneOf(word) ?? this.named;
      if (Number.isNaN(zone)) return Number.NaN;
      this.p = p;
      this.zoned = true;
      if (p === this.end || zone !== 0) return zone;
    }
    const sign = bytes[p]!;
    if (sign !== 43 && sign !== 45) return this.zone;
    this.p = p + 1;
    let hours = this.plain(bytes);
    let minutes = 0;
    if (this.digits === 4) {
      minutes = hours % 100;
      hours = Math.floor(hours / 100);
    } else if (this.digits > 2 || this.digits === 0) return Number.NaN;
    else if (this.p < this.end && bytes[this.p] === 58) {
      this.p++;
      minutes = this.plain(bytes);
      if (this.digits !== 2) return Number.NaN;
    }
    if (hours > 14 || minutes > 59) return Number.NaN;
    this.zoned = true;
    return (sign === 45 ? -1 : 1) * (hours * 3600 + minutes * 60);
  }

  /** yyyymmdd[T| ]hhmm[ss[.fff]], or yyyymmddhhmmss. */
  private compact(bytes: Uint8Array): number {
    const start = this.p;
    let value = this.plain(bytes);
    let seconds = 0;
    const first: number = this.digits;
    if (first === 14) {
      seconds = clockOf(value % 1e6, 6);
      value = Math.floor(value / 1e6);
    } else if (first !== 8) return Number.NaN;
    const day = this.dayOf(Math.floor(value / 10000), Math.floor(value / 100) % 100, value % 100);
    if (this.p - start === 8 && this.p < this.end) {
      const separator = bytes[this.p]!;
      if (separator !== 84 && separator !== 116 && separator !== 32 && separator !== 95 && separator !== 45)
        return Number.NaN;
      this.p++;
      const clock = this.plain(bytes);
      seconds = clockOf(clock, this.digits);
    }
    if (this.p < this.end && (bytes[this.p] === 46 || bytes[this.p] === 44)) {
      this.p++;
      const fraction = this.plain(bytes);
      seconds += this.digits === 0 ? Number.NaN : fraction / 10 ** this.digits;
    }
    const zone = this.zoneAt(bytes);
    return this.p === this.end ? day * 86400 + seconds - zone : Number.NaN;
  }

  private digits = 0;

  /** A run of digits at `p` as an integer; `digits` says how many (0: none). */
  private plain(bytes: Uint8Array): number {
    let value = 0;
    const from = this.p;
    let p = from;
    while (p < this.end) {
      const b = bytes[p]!;
      if (b < 48 || b > 57) break;
      value = value * 10 + (b - 48);
      p++;
    }
    this.digits = p - from;
    this.p = p;
    return value;
  }

  /** A field of a date: digits, or a month in letters; −1 where neither stands. */
  private field(bytes: Uint8Array): number {
    const value = this.plain(bytes);
    if (this.digits > 0) return this.digits <= 4 ? value : -1;
    const from = this.p;
    while (this.p < this.end && (letter(bytes[this.p]!) || bytes[this.p]! > 127)) this.p++;
    if (this.p - from < 3) return -1;
    let word = "";
    for (let i = from; i < this.p; i++) word += String.fromCharCode(bytes[i]!);
    if (this.p < this.end && bytes[this.p] === 46) this.p++;
    return monthOf(word.toLowerCase());
  }
}

const MONTHS = "janfebmaraprmayjunjulaugsepoctnovdec";
/** Beginnings of months as other languages have them; letters beyond ASCII stand as bytes of UTF-8, Latin-1 or `?`. */
const OTHER_MONTHS: readonly (readonly [RegExp, number])[] = [
  [/^(ene|gen)/, 1],
  [/^f(e|[^a-z]+)v/, 2],
  [/^(mrt|maa|m[^a-z]+r)/, 3],
  [/^(avr|abr)/, 4],
  [/^(mai|mei|mag)/, 5],
  [/^(juin|giu)/, 6],
  [/^(juil|lug)/, 7],
  [/^(ago|ao[^a-z])/, 8],
  [/^set/, 9],
  [/^(okt|ott|out)/, 10],
  [/^(dez|dic|d[^a-z]+c)/, 12],
];

/** Month of a name in small letters, 1 to 12; −1 for none. */
function monthOf(name: string): number {
  const month = MONTHS.indexOf(name.slice(0, 3));
  if (month >= 0 && month % 3 === 0) return month / 3 + 1;
  return OTHER_MONTHS.find(([pattern]) => pattern.test(name))?.[1] ?? -1;
}

/** A year of two digits is of 1970 to 2069, as POSIX has it from 1969 on. */
function century(year: number): number {
  return year + (year < 70 ? 2000 : 1900);
}

function clockOf(value: number, digits: number): number {
  if (digits === 4) value *= 100;
  else if (digits !== 6) return Number.NaN;
  const [h, m, s] = [Math.floor(value / 10000), Math.floor(value / 100) % 100, value % 100];
  return h < 24 && m < 60 && s < 61 ? h * 3600 + m * 60 + s : Number.NaN;
}

function dateSeparator(b: number): boolean {
  return b === 45 || b === 47 || b === 46 || b === 32;
}

function letter(b: number): boolean {
  return (b >= 65 && b <= 90) || (b >= 97 && b <= 122);
}

function blank(b: number): boolean {
  return b === 32 || b === 9;
}
