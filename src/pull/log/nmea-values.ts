/**
 * What the sentences of NMEA 0183 that matter to a pull say, in the units of the channels: RMC GGA GLL VTG ZDA MWV MWD
 * DPT DBT DBS HDG HDT HDM XDR. Fields by position as the standard numbers them (as published by the gpsd project,
 * "NMEA Revealed"; transducer types of XDR as in the association's 2019 update of that sentence).
 */
import { daysIn, daysSince1970 } from "./calendar.ts";
import type { Sentence } from "./nmea-sentence.ts";
import type { ChannelReading } from "./sparse-rows.ts";

export interface SentenceValues {
  readonly readings: readonly ChannelReading[];
  /** Seconds since midnight UTC, where the sentence tells. */
  readonly timeOfDay: number | null;
  /** Days since 1970, where the sentence tells. */
  readonly date: number | null;
}

const KNOT = 1852 / 3600;
const FOOT = 0.3048;
const FATHOM = 6 * FOOT;
const DEGREE = Math.PI / 180;

/** Reads one sentence; null when it is of another type. Fields left empty give no reading. */
export function sentenceValues({ type, fields }: Pick<Sentence, "type" | "fields">): SentenceValues | null {
  const f = (i: number) => fields[i - 1] ?? "";
  switch (type) {
    case "RMC": {
      // Status V warns that the position is not to be used; its clock still runs.
      const valid = f(2) === "A" && f(12) !== "N";
      return {
        readings: valid
          ? [...position(f(3), f(4), f(5), f(6)), ...some("speed", number(f(7)) * KNOT), ...angle("course", f(8))]
          : [],
        timeOfDay: timeOfDay(f(1)),
        date: date(f(9)),
      };
    }
    case "GGA":
      return {
        readings: f(6) === "0" || f(6) === "" ? [] : position(f(2), f(3), f(4), f(5)),
        timeOfDay: timeOfDay(f(1)),
        date: null,
      };
    case "GLL":
      return { readings: f(6) === "V" ? [] : position(f(1), f(2), f(3), f(4)), timeOfDay: timeOfDay(f(5)), date: null };
    case "ZDA":
      return { readings: [], timeOfDay: timeOfDay(f(1)), date: dateOf(number(f(4)), number(f(3)), number(f(2))) };
    case "VTG":
      // Before NMEA 0183 3.01 the fields had no letters between them.
      return f(2) === "T" || fields.length > 5
        ? said([...angle("course", f(1)), ...some("speed", f(5) === "" ? number(f(7)) / 3.6 : number(f(5)) * KNOT)])
        : said([...angle("course", f(1)), ...some("speed", number(f(3)) * KNOT)]);
    case "MWV": {
      if (f(5) === "V") return said([]);
      const speed = number(f(3)) * ({ K: 1 / 3.6, M: 1, N: KNOT, S: 1609.344 / 3600 }[f(4)] ?? Number.NaN);
      if (f(2) === "R") return said([...angle("windAngle", f(1)), ...some("windSpeed", speed)]);
      return f(2) === "T" ? said([...angle("trueWindAngle", f(1)), ...some("trueWindSpeed", speed)]) : said([]);
    }
    case "MWD":
      return said([
        ...(f(2) === "T" ? angle("windDirection", f(1)) : []),
        ...some("trueWindSpeed", f(7) === "" ? number(f(5)) * KNOT : number(f(7))),
      ]);
    case "DPT": {
      const depth = number(f(1));
      const offset = number(f(2));
      // A negative offset is the keel's: the depth below the surface then stays unknown.
      return said([...some("depthBelowTransducer", depth), ...(offset > 0 ? some("depth", depth + offset) : [])]);
    }
    case "DBT":
      return said(some("depthBelowTransducer", depth(f(1), f(3), f(5))));
    case "DBS":
      return said(some("depth", depth(f(1), f(3), f(5))));
    case "HDG": {
      const heading = number(f(1)) + (signed(f(2), f(3)) || 0);
      const variation = signed(f(4), f(5));
      return said([...around("heading", heading), ...around("headingTrue", heading + variation)]);
    }
    case "HDM":
      return said(angle("heading", f(1)));
    case "HDT":
      return said(angle("headingTrue", f(1)));
    case "XDR":
      return said(transducers(fields));
    default:
      return null;
  }
}

function said(readings: readonly ChannelReading[]): SentenceValues {
  return { readings, timeOfDay: null, date: null };
}

/** Groups of four: type, value, unit, name. A force is type N in newtons; an angle, type A in degrees. */
function transducers(fields: readonly string[]): ChannelReading[] {
  const readings: ChannelReading[] = [];
  for (let i = 0; i + 2 < fields.length; i += 4) {
    const [type, value, unit, name] = [fields[i]!, number(fields[i + 1]!), fields[i + 2]!, fields[i + 3] ?? ""];
    if (type === "N" && unit === "N") readings.push(...some("load", value));
    // Angles of the hull and its gear are no angles of the rode.
    else if (type === "A" && unit === "D" && /rode|anchor|line|chain|pull|load/i.test(name))
      readings.push(...some("angle", value * DEGREE));
  }
  return readings;
}

/** A plain decimal number; NaN for an empty field or anything else. */
function number(field: string): number {
  return /^[+-]?(\d+\.?\d*|\.\d+)$/.test(field) ? Number(field) : Number.NaN;
}

function some(kind: ChannelReading["kind"], value: number): ChannelReading[] {
  return Number.isNaN(value) ? [] : [{ kind, value }];
}

function angle(kind: ChannelReading["kind"], degrees: string): ChannelReading[] {
  return some(kind, number(degrees) * DEGREE);
}

function around(kind: ChannelReading["kind"], degrees: number): ChannelReading[] {
  return some(kind, (((degrees % 360) + 360) % 360) * DEGREE);
}

/** East is added to a compass reading, west taken off. */
function signed(degrees: string, side: string): number {
  return side === "E" ? number(degrees) : side === "W" ? -number(degrees) : Number.NaN;
}

function depth(feet: string, metres: string, fathoms: string): number {
  if (metres !== "") return number(metres);
  return feet === "" ? number(fathoms) * FATHOM : number(feet) * FOOT;
}

/** ddmm.mmm and dddmm.mmm with their halves of the globe, as decimal degrees. */
function position(latitude: string, north: string, longitude: string, east: string): ChannelReading[] {
  const lat = degreesMinutes(latitude, 90) * ({ N: 1, S: -1 }[north] ?? Number.NaN);
  const lon = degreesMinutes(longitude, 180) * ({ E: 1, W: -1 }[east] ?? Number.NaN);
  if (Number.isNaN(lat) || Number.isNaN(lon)) return [];
  return [
    { kind: "latitude", value: lat },
    { kind: "longitude", value: lon },
  ];
}

function degreesMinutes(field: string, most: number): number {
  const parts = /^(\d{1,3})(\d\d(?:\.\d*)?)$/.exec(field);
  if (!parts) return Number.NaN;
  const minutes = Number(parts[2]);
  const value = Number(parts[1]) + minutes / 60;
  return minutes < 60 && value <= most ? value : Number.NaN;
}

function timeOfDay(field: string): number | null {
  const parts = /^(\d\d)(\d\d)(\d\d(?:\.\d*)?)$/.exec(field);
  if (!parts) return null;
  const [h, m, s] = [Number(parts[1]), Number(parts[2]), Number(parts[3])];
  return h < 24 && m < 60 && s < 61 ? h * 3600 + m * 60 + s : null;
}

function date(field: string): number | null {
  const parts = /^(\d\d)(\d\d)(\d\d)$/.exec(field);
  if (!parts) return null;
  const year = Number(parts[3]);
  // The sentence has two digits for the year; satellite navigation began in 1980.
  return dateOf(year < 80 ? 2000 + year : 1900 + year, Number(parts[2]), Number(parts[1]));
}

function dateOf(year: number, month: number, day: number): number | null {
  if (!(year >= 1900 && year < 2200) || !(month >= 1 && month <= 12) || !(day >= 1 && day <= daysIn(year, month)))
    return null;
  return daysSince1970(year, month, day);
}
