/**
 * What the sentences of NMEA 0183 that matter to a pull say, in the units of the channels: RMC GGA GNS GLL VTG ZDA MWV
 * MWD VWR VWT MDA DPT DBT DBS HDG HDT HDM VHW XDR. Fields by position as the standard numbers them (as published by the gpsd project,
 * "NMEA Revealed"; transducer types of XDR as in the association's 2019 update of that sentence).
 */

import { DEGREE, KNOT } from "../quantity/index.ts";
import {
  angle,
  around,
  date,
  dateOf,
  depth,
  number,
  ofTheBow,
  position,
  signed,
  some,
  speedOf,
  timeOfDay,
} from "./nmea-fields.ts";
import type { Sentence } from "./nmea-sentence.ts";
import type { ChannelReading } from "./sparse-rows.ts";

export interface SentenceValues {
  readonly readings: readonly ChannelReading[];
  /** Seconds since midnight UTC, where the sentence tells. */
  readonly timeOfDay: number | null;
  /** Days since 1970, where the sentence tells. */
  readonly date: number | null;
  /** Readings of a load in a unit nobody knows. */
  readonly unknown: number;
}

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
        unknown: 0,
      };
    }
    case "GGA":
      return {
        readings: f(6) === "0" || f(6) === "" ? [] : position(f(2), f(3), f(4), f(5)),
        timeOfDay: timeOfDay(f(1)),
        date: null,
        unknown: 0,
      };
    case "GNS":
      // One letter of mode for each constellation; N where it has no fix.
      return {
        readings: /[^N]/.test(f(6)) ? position(f(2), f(3), f(4), f(5)) : [],
        timeOfDay: timeOfDay(f(1)),
        date: null,
        unknown: 0,
      };
    case "GLL":
      return {
        readings: f(6) === "V" ? [] : position(f(1), f(2), f(3), f(4)),
        timeOfDay: timeOfDay(f(5)),
        date: null,
        unknown: 0,
      };
    case "ZDA":
      return {
        readings: [],
        timeOfDay: timeOfDay(f(1)),
        date: dateOf(number(f(4)), number(f(3)), number(f(2))),
        unknown: 0,
      };
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
    case "VWR":
      return said([...ofTheBow("windAngle", f(1), f(2)), ...some("windSpeed", speedOf(f(3), f(5), f(7)))]);
    case "VWT":
      return said([...ofTheBow("trueWindAngle", f(1), f(2)), ...some("trueWindSpeed", speedOf(f(3), f(5), f(7)))]);
    case "MDA":
      // Weather in one sentence: of its ten quantities only the wind over the ground is a channel.
      return said([
        ...(f(14) === "T" ? angle("windDirection", f(13)) : []),
        ...some("trueWindSpeed", speedOf(f(17), f(19), "")),
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
    case "VHW":
      // Speed through the water is no channel: over the ground is what moves an anchor.
      return said([...angle("headingTrue", f(1)), ...angle("heading", f(3))]);
    case "XDR":
      return transducers(fields);
    default:
      return null;
  }
}

function said(readings: readonly ChannelReading[], unknown = 0): SentenceValues {
  return { readings, timeOfDay: null, date: null, unknown };
}

/** Angles of the hull and its gear are no angles of the rode. */
const OF_THE_RODE = /rode|anchor|line|chain|pull|load/i;

/** Groups of four: type, value, unit, name. A force is type N in newtons; an angle, type A in degrees. */
function transducers(fields: readonly string[]): SentenceValues {
  const readings: ChannelReading[] = [];
  let unknown = 0;
  for (let i = 0; i + 2 < fields.length; i += 4) {
    const [type, value, unit, name] = [fields[i]!, number(fields[i + 1]!), fields[i + 2]!, fields[i + 3] ?? ""];
    if (type === "N" && unit === "N") {
      if (!Number.isNaN(value)) readings.push({ kind: "load", value, from: name.trim() });
    } else if (type === "A" && unit === "D" && OF_THE_RODE.test(name)) readings.push(...some("angle", value * DEGREE));
    else if (type === "N" || (type === "G" && /load|tension|force|pull/i.test(name))) unknown++;
  }
  return said(readings, unknown);
}
