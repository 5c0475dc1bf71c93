import nmeaPackage from "@signalk/nmea0183-signalk";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { ChannelKind } from "../../../src/pull/log/channel.ts";
import { guessNmea, nmeaReader } from "../../../src/pull/log/nmea.ts";
import { checksum, prefixTime, readSentence } from "../../../src/pull/log/nmea-sentence.ts";
import { sentenceValues } from "../../../src/pull/log/nmea-values.ts";
import { pathReadings } from "../../../src/pull/log/signalk.ts";
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

test("says what the package @signalk/nmea0183-signalk says of the same sentences", () => {
  const bodies = fc.oneof(
    fc
      .tuple(decimals(0, 359, 1), decimals(0, 60, 1), fc.constantFrom("K", "M", "N"))
      .map(([a, s, u]) => `WIMWV,${a},R,${s},${u},A`),
    fc.tuple(decimals(1, 90, 1), decimals(1, 3, 1)).map(([d, o]) => `SDDPT,${d},${o}`),
    decimals(1, 90, 1).map((m) => `SDDBT,,f,${m},M,,F`),
    decimals(0, 359, 1).map((h) => `HCHDM,${h},M`),
    decimals(0, 359, 1).map((h) => `HEHDT,${h},T`),
    fc.tuple(decimals(0, 359, 1), decimals(0, 20, 1)).map(([h, v]) => `HCHDG,${h},0.0,E,${v},E`),
    fc
      .tuple(
        fc.integer({ min: 0, max: 89 }),
        decimals(10, 59, 3),
        fc.constantFrom("N", "S"),
        fc.integer({ min: 0, max: 179 }),
        decimals(10, 59, 3),
        fc.constantFrom("E", "W"),
        decimals(0, 9, 1),
        decimals(1, 359, 1),
      )
      .map(
        ([a, b, n, c, d, e, s, t]) =>
          `GPRMC,102030.00,A,${String(a).padStart(2, "0")}${b},${n},${String(c).padStart(3, "0")}${d},${e},${s},${t},230524,,`,
      ),
  );
  const Parser = nmeaPackage as unknown as new () => {
    parse(text: string): { updates: { values: { path: string; value: unknown }[] }[] } | null;
  };
  fc.assert(
    fc.property(bodies, (body) => {
      const text = sentence(body);
      const ours = said(text);
      const theirs: Partial<Record<ChannelKind, number>> = {};
      for (const update of new Parser().parse(text)?.updates ?? [])
        for (const { path, value } of update.values)
          for (const reading of pathReadings(path, value)) theirs[reading.kind] ??= reading.value;
      for (const [kind, value] of Object.entries(theirs)) {
        // The package's own factors are rounded: knots in both directions to some 3e-6 relative.
        const scale = Math.max(1e-3, Math.abs(value));
        const turn = kind.startsWith("heading")
          ? Math.abs(Math.abs(ours[kind as ChannelKind]! - value) - 2 * Math.PI)
          : Number.POSITIVE_INFINITY;
        expect(
          Math.min(Math.abs(ours[kind as ChannelKind]! - value), turn) / scale,
          `${text} ${kind}`,
        ).toBeLessThanOrEqual(1e-5);
      }
      expect(Object.keys(theirs).length).toBeGreaterThan(0);
    }),
    { seed: 20, numRuns: 300 },
  );
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
