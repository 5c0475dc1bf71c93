import nmeaPackage from "@signalk/nmea0183-signalk";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { ChannelKind } from "../../src/log/channel.ts";
import { guessNmea, nmeaReader } from "../../src/log/nmea.ts";
import { checksum, prefixTime, readSentence } from "../../src/log/nmea-sentence.ts";
import { sentenceValues } from "../../src/log/nmea-values.ts";
import { pathReadings } from "../../src/log/signalk.ts";
import { readLines } from "./read-lines.ts";

const DEG = Math.PI / 180;
const KN = 1852 / 3600;

function said(text: string): Partial<Record<ChannelKind, number>> {
  const sentence = readSentence(text);
  if (sentence?.kind !== "sentence") throw new Error(`not read: ${text}`);
  return Object.fromEntries((sentenceValues(sentence)?.readings ?? []).map(({ kind, value }) => [kind, value]));
}

const close = (a: number | undefined, b: number) =>
  expect(Math.abs((a ?? Number.NaN) - b)).toBeLessThanOrEqual(1e-12 * Math.max(1, Math.abs(b)));

describe("published sentences (gpsd project, NMEA Revealed, seen)", () => {
  test("GGA: $GNGGA,001043.00,4404.14036,N,12118.85961,W,…*47", () => {
    const got = said("$GNGGA,001043.00,4404.14036,N,12118.85961,W,1,12,0.98,1113.0,M,-21.3,M,,*47");
    close(got.latitude, 44 + 4.14036 / 60);
    close(got.longitude, -(121 + 18.85961 / 60));
  });
  test("RMC: $GNRMC,001031.00,A,4404.13993,N,…,0.146,,100117,,,A*7B", () => {
    const text = "$GNRMC,001031.00,A,4404.13993,N,12118.86023,W,0.146,,100117,,,A*7B";
    const sentence = readSentence(text)!;
    const values = sentenceValues(sentence as never)!;
    expect(values.timeOfDay).toBe(10 * 60 + 31);
    expect(values.date! * 86400).toBe(Date.UTC(2017, 0, 10) / 1000);
    const got = said(text);
    close(got.speed, 0.146 * KN);
    expect(got.course).toBeUndefined();
  });
  test("GLL: $GNGLL,4404.14012,N,12118.85993,W,001037.00,A,A*67", () => {
    close(said("$GNGLL,4404.14012,N,12118.85993,W,001037.00,A,A*67").latitude, 44 + 4.14012 / 60);
  });
  test("VTG: $GPVTG,220.86,T,,M,2.550,N,4.724,K,A*34", () => {
    const got = said("$GPVTG,220.86,T,,M,2.550,N,4.724,K,A*34");
    close(got.course, 220.86 * DEG);
    close(got.speed, 2.55 * KN);
  });
  test("DBT: 2.4 m below the transducer", () => close(said("$SDDBT,7.8,f,2.4,M,1.3,F*0D").depthBelowTransducer, 2.4));
  test("DPT: $INDPT,2.3,0.0*46", () => {
    const got = said("$INDPT,2.3,0.0*46");
    close(got.depthBelowTransducer, 2.3);
    expect(got.depth).toBeUndefined();
  });
  test("HDT: $GPHDT,274.07,T*03", () => close(said("$GPHDT,274.07,T*03").headingTrue, 274.07 * DEG));
});

describe("published sentences (drivers' manuals and parsers of other projects, seen)", () => {
  test("HDG: $HCHDG,98.3,0.0,E,12.6,W*57 is 98.3° magnetic and 85.7° true", () => {
    const got = said("$HCHDG,98.3,0.0,E,12.6,W*57");
    close(got.heading, 98.3 * DEG);
    close(got.headingTrue, 85.7 * DEG);
  });
  test("MWV: $WIMWV,214.8,R,0.1,K,A*28 is 0.1 km/h", () => {
    const got = said("$WIMWV,214.8,R,0.1,K,A*28");
    close(got.windAngle, 214.8 * DEG);
    close(got.windSpeed, 0.1 / 3.6);
  });
  test("MWV with status V says nothing: $WIMWV,214.8,R,0.1,K,V*3F", () =>
    expect(said("$WIMWV,214.8,R,0.1,K,V*3F")).toEqual({}));
  test("MWV: $WIMWV,041.1,R,01.0,N,A*16 is one knot (docs of the nmea crate)", () =>
    close(said("$WIMWV,041.1,R,01.0,N,A*16").windSpeed, KN));
  test("VTG: $GPVTG,054.7,T,034.4,M,005.5,N,010.2,K*48", () =>
    close(said("$GPVTG,054.7,T,034.4,M,005.5,N,010.2,K*48").speed, 5.5 * KN));
  test("MWD: $WIMWD,270.0,T,265.5,M,10.2,N,5.3,M*6E", () => {
    const got = said("$WIMWD,270.0,T,265.5,M,10.2,N,5.3,M*6E");
    close(got.windDirection, 270 * DEG);
    close(got.trueWindSpeed, 5.3);
  });
  test("DPT with an offset to the water line: $SDDPT,17.9,0.5*6D is 18.4 m deep", () =>
    close(said("$SDDPT,17.9,0.5*6D").depth, 18.4));
  test("RMC: $GPRMC,123519,A,4807.038,N,01131.000,E,022.4,084.4,230394,003.1,W*6A", () => {
    const got = said("$GPRMC,123519,A,4807.038,N,01131.000,E,022.4,084.4,230394,003.1,W*6A");
    close(got.latitude, 48 + 7.038 / 60);
    close(got.longitude, 11 + 31 / 60);
    close(got.speed, 22.4 * KN);
    close(got.course, 84.4 * DEG);
  });
});

describe("transducers (XDR, types as in the association's 2019 update: N force in newtons, A angle in degrees)", () => {
  const sum = (body: string) => `$${body}*${checksum(body).toString(16).toUpperCase().padStart(2, "0")}`;
  test("a force is a load", () => close(said(sum("YXXDR,N,1234.5,N,Cell#1")).load, 1234.5));
  test("an angle of the rode is an angle, one of the hull is none", () => {
    const got = said(sum("YXXDR,A,7.5,D,RodeAngle,A,-2.1,D,Pitch"));
    close(got.angle, 7.5 * DEG);
    expect(Object.keys(got)).toEqual(["angle"]);
  });
});

test("a wrong checksum is told with the right one", () => {
  expect(readSentence("$INDPT,2.3,0.0*47")).toEqual({
    kind: "bad",
    expected: "the checksum *46 of these bytes is expected",
  });
  expect(readSentence("$INDPT,2.3,0.0*4")).toMatchObject({ kind: "bad" });
  expect(readSentence("$INDPT,2.3,0.0")).toMatchObject({ kind: "sentence", summed: false });
});

test("what a logger writes before a sentence is its time", () => {
  expect(prefixTime("2024-05-23T10:20:30.500Z")).toBe(Date.UTC(2024, 4, 23, 10, 20, 30, 500) / 1000);
  expect(prefixTime("2024-05-23 12:20:30 +02:00")).toBe(Date.UTC(2024, 4, 23, 10, 20, 30) / 1000);
  expect(prefixTime("1716459630500;A;")).toBe(1716459630.5);
  expect(prefixTime("1716459630.25")).toBe(1716459630.25);
  // NMEA 0183 4.0 tag block: c is the UNIX time.
  expect(prefixTime("\\s:gps,c:1716459630*0F\\")).toBe(1716459630);
  expect(prefixTime("[gps]")).toBeNaN();
});

/** A sentence with its checksum. */
const sentence = (body: string) => `$${body}*${checksum(body).toString(16).toUpperCase().padStart(2, "0")}`;
const decimals = (low: number, high: number, digits: number) =>
  fc.integer({ min: low * 10 ** digits, max: high * 10 ** digits }).map((n) => (n / 10 ** digits).toFixed(digits));
/** Now and then a field is left empty. */
const orBlank = (field: fc.Arbitrary<string>) => fc.oneof({ weight: 5, arbitrary: field }, fc.constant(""));

const bearing = orBlank(decimals(0, 359, 1));
const speed = decimals(0, 60, 1);
const ofTheBow = decimals(0, 180, 0);
const sides = fc.constantFrom("L", "R");
const latitude = fc
  .tuple(fc.integer({ min: 0, max: 89 }), decimals(10, 59, 3))
  .map(([degrees, minutes]) => `${String(degrees).padStart(2, "0")}${minutes}`);
const longitude = fc
  .tuple(fc.integer({ min: 0, max: 179 }), decimals(10, 59, 3))
  .map(([degrees, minutes]) => `${String(degrees).padStart(3, "0")}${minutes}`);
const place = fc
  .tuple(latitude, fc.constantFrom("N", "S"), longitude, fc.constantFrom("E", "W"))
  .map((fields) => fields.join(","));
/** One speed in up to three units, at least one of them written. */
const inThreeUnits = fc.tuple(speed, fc.integer({ min: 1, max: 7 })).map(([knots, written]) => {
  const [n, m, k] = [knots, (Number(knots) * KN).toFixed(9), (Number(knots) * 1.852).toFixed(9)];
  return `${written & 1 ? n : ""},N,${written & 2 ? m : ""},M,${written & 4 ? k : ""},K`;
});

/** Sentences of every type that is read, hemispheres, sides, units and empty fields as they come. */
const bodies: Readonly<Record<string, fc.Arbitrary<string>>> = {
  RMC: fc
    .tuple(place, orBlank(speed), bearing)
    .map(([where, knots, course]) => `GPRMC,102030.00,A,${where},${knots},${course},230524,,`),
  GGA: place.map((where) => `GPGGA,102030.00,${where},1,08,0.9,5.0,M,40.0,M,,`),
  GLL: place.map((where) => `GPGLL,${where},102030.00,A,A`),
  GNS: fc
    .tuple(place, fc.constantFrom("AN", "NA", "DD", "ANN"))
    .map(([where, mode]) => `GNGNS,102030.00,${where},${mode},12,0.9,5.0,40.0,,`),
  VTG: fc.tuple(decimals(0, 359, 1), speed).map(([course, knots]) => `GPVTG,${course},T,,M,${knots},N,,K,A`),
  MWV: fc
    .tuple(decimals(0, 359, 1), fc.constantFrom("R", "T"), speed, fc.constantFrom("K", "M", "N"))
    .map(([a, reference, s, unit]) => `WIMWV,${a},${reference},${s},${unit},A`),
  MWD: fc.tuple(decimals(0, 359, 1), speed).map(([a, s]) => `WIMWD,${a},T,,M,${s},N,,M`),
  VWR: fc.tuple(ofTheBow, sides, inThreeUnits).map(([a, side, s]) => `IIVWR,${a},${side},${s}`),
  VWT: fc.tuple(ofTheBow, sides, inThreeUnits).map(([a, side, s]) => `IIVWT,${a},${side},${s}`),
  MDA: fc
    .tuple(decimals(0, 359, 1), orBlank(speed))
    .map(([a, s]) => `WIMDA,30.0,I,1.01,B,20.1,C,18.2,C,50,,10.0,C,${a},T,,M,${s},N,,M`),
  DPT: fc.tuple(decimals(1, 90, 1), decimals(-3, 3, 1)).map(([d, offset]) => `SDDPT,${d},${offset}`),
  DBT: fc
    .tuple(decimals(1, 90, 1), fc.integer({ min: 1, max: 7 }))
    .map(
      ([m, written]) =>
        `SDDBT,${written & 1 ? (Number(m) / 0.3048).toFixed(3) : ""},f,${written & 2 ? m : ""},M,${written & 4 ? (Number(m) / 1.8288).toFixed(3) : ""},F`,
    ),
  DBS: decimals(1, 90, 1).map((m) => `SDDBS,,f,${m},M,,F`),
  HDG: fc
    .tuple(decimals(0, 359, 1), decimals(0, 20, 1), fc.constantFrom("E", "W"))
    .map(([h, v, side]) => `HCHDG,${h},0.0,E,${v},${side}`),
  HDM: decimals(0, 359, 1).map((h) => `HCHDM,${h},M`),
  HDT: decimals(0, 359, 1).map((h) => `HEHDT,${h},T`),
  VHW: fc.tuple(bearing, bearing, orBlank(speed)).map(([t, m, s]) => `VWVHW,${t},T,${m},M,${s},N,,K`),
};

describe("what the package @signalk/nmea0183-signalk says of the same sentences", () => {
  const Parser = nmeaPackage as unknown as new () => {
    parse(text: string): { updates: { values: { path: string; value: unknown }[] }[] } | null;
  };
  function theirs(text: string): Partial<Record<ChannelKind, number>> {
    const found: Partial<Record<ChannelKind, number>> = {};
    for (const update of new Parser().parse(text)?.updates ?? [])
      for (const { path, value } of update.values)
        for (const reading of pathReadings(path, value)) found[reading.kind] ??= reading.value;
    return found;
  }
  const turning = /^(heading|headingTrue|course|windAngle|trueWindAngle|windDirection)$/;

  test.each(Object.keys(bodies))("is said of %s", (type) => {
    let compared = 0;
    fc.assert(
      fc.property(bodies[type]!, (body) => {
        const text = sentence(body);
        const ours = said(text);
        for (const [kind, value] of Object.entries(theirs(text)) as [ChannelKind, number][]) {
          compared++;
          const mine = ours[kind];
          expect(mine, `${text} ${kind}`).toBeDefined();
          const off = Math.abs(mine! - value);
          const near = turning.test(kind) ? Math.min(off, Math.abs(off - 2 * Math.PI)) : off;
          // The package's own factors are rounded: knots in both directions to some 3e-6 relative.
          expect(near / Math.max(1e-3, Math.abs(value)), `${text} ${kind}`).toBeLessThanOrEqual(1e-5);
        }
      }),
      { seed: 20, numRuns: 200 },
    );
    expect(compared).toBeGreaterThan(100);
  });
});

describe("hemispheres, sides and units (sentence layouts of NMEA 0183, recalled)", () => {
  test("south and west are negative", () => {
    const got = said(sentence("GPGLL,3330.000,S,07015.000,W,102030,A"));
    close(got.latitude, -33.5);
    close(got.longitude, -70.25);
  });
  test("VWR counts from the bow to each side: 30° on the port bow is 330° clockwise", () => {
    const got = said(sentence("IIVWR,030,L,10.0,N,5.1,M,18.5,K"));
    close(got.windAngle, 330 * DEG);
    close(got.windSpeed, 10 * KN);
    expect(said(sentence("IIVWR,030,,,N,5.0,M,,K"))).toEqual({ windSpeed: 5 });
    expect(said(sentence("IIVWR,190,L,,N,,M,18.0,K"))).toEqual({ windSpeed: 5 });
  });
  test("VWT is the same of the true wind", () => {
    const got = said(sentence("IIVWT,090,R,,N,,M,36.0,K"));
    close(got.trueWindAngle, 90 * DEG);
    close(got.trueWindSpeed, 10);
  });
  test("MDA gives the wind's direction and speed alone", () => {
    const got = said(sentence("WIMDA,30.0,I,1.01,B,20.1,C,18.2,C,50,,10.0,C,225.0,T,220.0,M,12.0,N,6.2,M"));
    expect(Object.keys(got).sort()).toEqual(["trueWindSpeed", "windDirection"]);
    close(got.windDirection, 225 * DEG);
    close(got.trueWindSpeed, 12 * KN);
  });
  test("VHW gives headings, and no speed over ground", () => {
    const got = said(sentence("VWVHW,245.1,T,241.0,M,3.5,N,6.5,K"));
    expect(Object.keys(got).sort()).toEqual(["heading", "headingTrue"]);
    close(got.headingTrue, 245.1 * DEG);
  });
  test("a fix of no constellation is none", () =>
    expect(said(sentence("GNGNS,102030.00,3330.000,S,07015.000,W,NN,00,,,,,"))).toEqual({}));
  test("another vessel's place is not the boat's own", () =>
    // A position report of AIS as it is published everywhere (recalled).
    expect(said("!AIVDM,1,1,,A,13u?etPv2;0n:dDPwUM1U1Cb069D,0*24")).toEqual({}));
});

test("no line, however bent, throws or gives a number that cannot be", () => {
  const bent = fc
    .tuple(
      fc.oneof(...Object.values(bodies), fc.constant("YXXDR,N,1234.5,N,Cell#1,A,7.5,D,RodeAngle")),
      fc.array(
        fc.tuple(
          fc.nat(90),
          fc.constantFrom(
            "",
            ",",
            "-",
            "*",
            "$",
            "e9",
            "Infinity",
            "NaN",
            "0x10",
            "9999999999",
            " ",
            "\u0000",
            "é",
            "N",
            ".",
          ),
        ),
        { maxLength: 4 },
      ),
      fc.boolean(),
    )
    .map(([body, cuts, drop]) => {
      let text = body;
      for (const [at, put] of cuts) text = text.slice(0, at) + put + text.slice(at + (drop ? 3 : 0));
      return sentence(text);
    });
  let read = 0;
  fc.assert(
    fc.property(bent, (text) => {
      const taken = readSentence(text);
      if (taken?.kind !== "sentence") return;
      for (const { kind, value } of sentenceValues(taken)?.readings ?? []) {
        read++;
        expect(Number.isFinite(value), `${text} ${kind}`).toBe(true);
        if (kind === "latitude") expect(Math.abs(value)).toBeLessThanOrEqual(90);
        if (kind === "longitude") expect(Math.abs(value)).toBeLessThanOrEqual(180);
      }
    }),
    { seed: 21, numRuns: 3000 },
  );
  expect(read).toBeGreaterThan(1000);
});

describe("a log of sentences", () => {
  const lines = [
    "$WIMWV,214.8,R,0.1,K,A*28",
    sentence("GPRMC,235958.00,A,1230.000,N,04530.000,W,0.5,90.0,230524,,"),
    sentence("WIMWV,40.0,R,10.0,N,A"),
    sentence("WIMWV,41.0,R,11.0,N,A"),
    "$INDPT,2.3,0.0*47",
    sentence("GPGGA,235959.00,1230.001,N,04530.000,W,1,08,0.9,5.0,M,,M,,"),
    "garbage",
    sentence("GPGGA,000000.00,1230.002,N,04530.000,W,1,08,0.9,5.0,M,,M,,"),
    sentence("YXXDR,N,1500,N,Cell"),
  ];
  const text = `${lines.join("\r\n")}\r\n`;

  test("is known by its sentences and takes its dates from RMC", () => {
    expect(guessNmea(text)).toMatchObject({
      kind: "nmea",
      times: "dated",
      clock: "utc",
      types: { MWV: 3, RMC: 1, GGA: 2, XDR: 1 },
    });
    expect(guessNmea("Time,Load (kN)\n1,2\n")).toBeNull();
  });

  test.each([[1], [17], [4096]])(
    "is one row a moment, carried over midnight, handed over %i bytes at a time",
    (piece) => {
      const read = readLines(text, nmeaReader("dated"), piece);
      const midnight = Date.UTC(2024, 4, 24) / 1000;
      expect(read.times).toEqual([midnight - 2, midnight - 2, midnight - 1, midnight]);
      expect(read.column("windSpeed")).toEqual([10 * KN, 11 * KN, Number.NaN, Number.NaN]);
      expect(read.column("latitude").map((v) => Math.round(v * 1e7) / 1e7)).toEqual([
        12.5,
        Number.NaN,
        12.5000167,
        12.5000333,
      ]);
      expect(read.column("load")).toEqual([Number.NaN, Number.NaN, Number.NaN, 1500]);
      expect(read.troubles).toMatchObject({ rejected: 2, unreadable: 2 });
      expect(read.troubles.first.map((t) => [t.line, t.expected])).toEqual([
        [1, "a sentence with the time is expected before the first reading"],
        [5, "the checksum *46 of these bytes is expected"],
        [7, "a sentence that begins with $ or ! is expected"],
      ]);
    },
  );
});

describe("a clock without a date", () => {
  const at = (clock: string) => `$GPGGA,${clock},1230.0000,N,00000.0000,E,1,08,1.0,0.0,M,,M,,`;
  const days = (...clocks: string[]) => {
    const start = "$GPZDA,120000,23,05,2024,00,00";
    const { times } = readLines([start, ...clocks.map(at)].join("\n"), nmeaReader("dated"), 4096);
    return times.map((time) => Math.floor(time / 86400) - Date.UTC(2024, 4, 23) / 86400000);
  };
  test("that steps back by minutes or hours is of the same day", () =>
    expect(days("120001", "115959", "090000", "180000")).toEqual([0, 0, 0, 0]));
  test("that steps back by more than half a day is of the next", () =>
    expect(days("233000", "003000")).toEqual([0, 1]));
  test("that steps on by more than half a day is of the day before, told late", () =>
    expect(days("233000", "003000", "235959", "003001")).toEqual([0, 1, 0, 1]));
});

test.each([
  ["without a fix", "0", false],
  ["that does not say", "", false],
  ["by satellites", "1", true],
  ["by a differential fix", "2", true],
])("a GGA %s (quality %j) gives a place: %s", (_, quality, placed) => {
  const got = said(`$GPGGA,120000,1230.0000,N,01000.0000,W,${quality},08,1.0,0.0,M,,M,,`);
  expect(got.latitude !== undefined && got.longitude !== undefined).toBe(placed);
});
