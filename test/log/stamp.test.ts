import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { daysSince1970 } from "../../src/log/calendar.ts";
import { bytesOf } from "../../src/log/encoding.ts";
import { StampReader } from "../../src/log/stamp.ts";
import type { StampFormat } from "../../src/log/stamp-format.ts";
import { guessStampFormat } from "../../src/log/stamp-guess.ts";
import { readTitle } from "../../src/log/title.ts";

const read = (text: string, format: StampFormat, zone = 0) =>
  new StampReader(format, zone).read(bytesOf(text), 0, text.length);
const readUtf8 = (text: string, format: StampFormat) => {
  const bytes = new TextEncoder().encode(text);
  return new StampReader(format, 0).read(bytes, 0, bytes.length);
};
const NOON = Date.UTC(2024, 4, 3, 12, 34, 56) / 1000;

// Milliseconds of JavaScript's own calendar, by ECMA-262, are the reference.
const moment = fc.integer({ min: Date.UTC(1900, 0, 1), max: Date.UTC(2199, 11, 31) });

test("a stamp is the same wherever in a line it stands", () => {
  for (const [text, format] of [
    ["20240503T123456Z", "compact"],
    ["20240503123456", "compact"],
    ["2024-05-03 12:34:56", "ymd"],
    ["3.5.2024 12:34:56,000", "dmy"],
    ["5/3/2024 12:34:56 PM", "mdy"],
    ["1714739696", "epoch-s"],
  ] as const) {
    for (const before of ["", "7,", "1234.5;\t"]) {
      const line = bytesOf(`${before}${text};99`);
      const stamp = new StampReader(format, 0).read(line, before.length, before.length + text.length);
      expect(stamp, `${before}${text}`).toBe(NOON);
    }
  }
});

test("days since 1970 are those of the reference calendar", () => {
  fc.assert(
    fc.property(moment, (ms) => {
      const d = new Date(ms);
      expect(daysSince1970(d.getUTCFullYear(), d.getUTCMonth() + 1, d.getUTCDate())).toBe(Math.floor(ms / 86400000));
    }),
    { seed: 24, numRuns: 2000 },
  );
});

test("every moment written as ISO 8601, day first, month first and compact is that moment", () => {
  fc.assert(
    fc.property(moment, (ms) => {
      const iso = new Date(ms).toISOString();
      const [, y, m, d, clock] = /^(\d{4})-(\d\d)-(\d\d)T(.*)Z$/.exec(iso)!;
      for (const [text, format] of [
        [iso, "ymd"],
        [`${y}/${m}/${d} ${clock}`, "ymd"],
        [`${d}.${m}.${y} ${clock!.replace(".", ",")}`, "dmy"],
        [`${Number(m)}/${Number(d)}/${y} ${clock}`, "mdy"],
        [iso.replaceAll("-", "").replaceAll(":", ""), "compact"],
      ] as const) {
        // A double of seconds of these centuries holds 1e-6 s.
        expect(Math.abs(read(text, format) - ms / 1000), text).toBeLessThanOrEqual(1e-6);
      }
    }),
    { seed: 25, numRuns: 1000 },
  );
});

describe("one moment in many hands", () => {
  test.each<[string, StampFormat]>([
    ["2024-05-03T12:34:56Z", "ymd"],
    ["2024-05-03 12:34:56 UTC", "ymd"],
    ["2024-05-03T14:34:56+02:00", "ymd"],
    ["2024-05-03T14:34:56+0200", "ymd"],
    ["2024-05-03T14:34:56+02", "ymd"],
    ["2024-05-03 09:04:56 -03:30", "ymd"],
    ["2024.05.03, 12:34:56", "ymd"],
    ["3/5/24 12:34:56", "dmy"],
    ["24-05-03 12:34:56", "ymd"],
    ["03-May-2024 12:34:56", "dmy"],
    ["3 May 2024 12:34:56", "dmy"],
    ["May 3, 2024 12:34:56", "mdy"],
    ["5/3/2024 12:34:56 PM", "mdy"],
    ["05/03/24 12:34:56 p.m.", "mdy"],
    ["20240503T123456Z", "compact"],
    ["20240503123456", "compact"],
    ["20240503 123456", "compact"],
    ["20240503_123456", "compact"],
    ["20240503-123456", "compact"],
    ["20240503t123456.0", "compact"],
    ["2024-05-03T12:34:56.000", "ymd"],
    ["2024-05-03 12:34:56:000", "ymd"],
    ["2024-05-03 12:34:56z", "ymd"],
    ["2024-05-03 07:34:56 EST", "ymd"],
    ["2024-05-03 12:34:56 GMT+0000", "ymd"],
    ["2024-05-03 18:04:56 UTC+05:30", "ymd"],
    ["3.5.2024; 12:34:56", "dmy"],
    ["1714739696", "epoch-s"],
    ["1714739696000", "epoch-ms"],
    ["1714739696000000", "epoch-us"],
  ])("%s as %s", (text, format) => expect(read(text, format)).toBe(NOON));

  // 45415 is 3 May 2024 in the 1900 calendar (computed: 25569 days to 1970 and 19846 since).
  test("45415.52425925926 as excel", () => expect(read("45415.52425925926", "excel")).toBeCloseTo(NOON, 5));
  test("12:00:00 AM is midnight and 12:00:00 PM noon", () => {
    expect(read("12:00:00 AM", "clock")).toBe(0);
    expect(read("12:00:00 PM", "clock")).toBe(43200);
  });
  test("a minute without seconds, also in the compact form", () => {
    expect(read("2024-05-03 12:34", "ymd")).toBe(NOON - 56);
    expect(read("20240503T1234", "compact")).toBe(NOON - 56);
    expect(read("20240503T123456.25", "compact")).toBe(NOON + 0.25);
  });
  test("years of two digits are of 1970 to 2069", () => {
    expect(read("01/01/70", "dmy")).toBe(0);
    expect(read("01/01/69", "dmy")).toBe(Date.UTC(2069, 0, 1) / 1000);
  });
  test("a stamp without a zone is of the column's", () => expect(read("2024-05-03 14:34:56", "ymd", 7200)).toBe(NOON));
  test("100:00:01.5 has elapsed", () => expect(read("100:00:01.5", "elapsed-clock")).toBe(360001.5));
  test("75:30 has elapsed", () => expect(read("75:30", "elapsed-clock")).toBe(4530));
});

// Names of months by the Unicode locale data that the runtime carries (ICU): what programs of these languages write.
describe.each(["en", "de", "fr", "es", "it", "nl", "pt"])("months as %s names them", (language) => {
  test.each(["short", "long"] as const)("%s, in UTF-8", (month) => {
    for (let m = 0; m < 12; m++) {
      const parts = new Intl.DateTimeFormat(language, { day: "numeric", month, year: "numeric", timeZone: "UTC" });
      const name = parts.formatToParts(Date.UTC(2024, m, 3)).find(({ type }) => type === "month")!.value;
      for (const text of [`3 ${name} 2024 12:34:56`, `03-${name}-2024 12:34:56`])
        expect([text, readUtf8(text, "dmy")]).toEqual([text, Date.UTC(2024, m, 3, 12, 34, 56) / 1000]);
    }
  });
});

test.each<[string, StampFormat]>([
  ["2024-02-30", "ymd"],
  ["2023-02-29", "ymd"],
  ["2024-13-01", "ymd"],
  ["31/04/2024", "dmy"],
  ["2024-05-03T25:00:00", "ymd"],
  ["2024-05-03T12:60:00", "ymd"],
  ["2024-05-03T12:34:56+25:00", "ymd"],
  ["2024-05-03x", "ymd"],
  ["2024-05-03 12:34:56 xyz", "ymd"],
  ["24:99:00", "clock"],
  ["13:00 PM", "clock"],
  ["12", "clock"],
  ["20241301", "compact"],
  ["20240503x123456", "compact"],
  ["20240503:123456", "compact"],
  ["20240503/123456", "compact"],
  ["20240503T", "compact"],
  ["2024050T123456", "compact"],
  ["12a", "elapsed-s"],
  ["", "ymd"],
  ["2024-05-03T12:34:56+02:5", "ymd"],
  ["2024-05-03T12:34:56+02:60", "ymd"],
  ["2024-05-03T12:34:56+15", "ymd"],
  ["2024-05-03T12:34:56+123", "ymd"],
  ["2024-05-03T12:34:61", "ymd"],
  ["2024-05-03 12:34:56.", "ymd"],
  ["2024-05-03_12:34:56", "ymd"],
  ["24:01:00.5 AM", "clock"],
  ["00:30:00 AM", "clock"],
  ["10:20.5", "clock"],
  ["10:20,5", "clock"],
  ["123:00:00", "clock"],
  ["10:123:00", "clock"],
  ["10:20:123", "clock"],
  ["1234567:00:00", "elapsed-clock"],
  ["1:75:30", "elapsed-clock"],
  ["20240503T1260", "compact"],
  ["20240503T123461", "compact"],
  ["20240503T2434", "compact"],
  ["20240503x1234", "compact"],
  ["20240503T123", "compact"],
  ["2024050", "compact"],
  ["3 Xyz 2024", "dmy"],
  ["3 Ma 2024", "dmy"],
  ["3-5/2024", "dmy"],
  ["12345-05-03", "ymd"],
])("%s is no stamp as %s", (text, format) => expect(read(text, format)).toBeNaN());

describe("the guess of a format", () => {
  const guess = (cells: string[], title = "Time", delimiter: "," | ";" = ",") =>
    guessStampFormat(cells, readTitle(title), { delimiter, decimal: delimiter === ";" ? "," : "." });
  test("a day past 12 proves the order", () => {
    expect(guess(["13/05/2024 10:00:00", "13/05/2024 10:00:01"])).toMatchObject({ value: "dmy", confidence: 1 });
    expect(guess(["05/13/2024 10:00:00", "05/13/2024 10:00:01"])).toMatchObject({ value: "mdy", confidence: 1 });
  });
  test("midnight proves the order", () => {
    expect(guess(["03/05/2024 23:59:59", "04/05/2024 00:00:00"])).toMatchObject({ value: "dmy", confidence: 0.95 });
    expect(guess(["05/03/2024 23:59:59", "05/04/2024 00:00:00"])).toMatchObject({ value: "mdy", confidence: 0.95 });
  });
  test("the title proves the order", () =>
    expect(guess(["03/05/2024"], "Date (dd/mm/yyyy)")).toMatchObject({ value: "dmy", confidence: 1 }));
  test("without proof it is doubted", () =>
    expect(guess(["03/05/2024 10:00:00", "03/05/2024 10:00:01"])?.confidence).toBeLessThan(0.6));
  test("points between are day first", () =>
    expect(guess(["03.05.2024 10:00:00"], "Datum", ";")).toMatchObject({ value: "dmy", confidence: 0.9 }));
  test("a year of two digits may stand at either end", () => {
    expect(guess(["24/05/23 10:00:00", "24/05/23 10:00:01"])).toMatchObject({ confidence: 0.5, open: ["dmy", "ymd"] });
    expect(guess(["03/05/24 10:00:00", "03/05/24 10:00:01"])).toMatchObject({
      confidence: 0.5,
      open: ["dmy", "mdy", "ymd"],
    });
    expect(guess(["05/23/24 10:00:00"])).toMatchObject({ value: "mdy", confidence: 1 });
    expect(guess(["99/12/31 10:00:00"])).toMatchObject({ value: "ymd", confidence: 1 });
    expect(guess(["24/05/23"], "Date (yy/mm/dd)")).toMatchObject({ value: "ymd", confidence: 1 });
    expect(guess(["24/05/23 23:59:59", "24/05/24 00:00:00"])).toMatchObject({ value: "ymd", confidence: 0.95 });
  });
  test("numbers are told by their size", () => {
    expect(guess(["1714739696", "1714739697"])?.value).toBe("epoch-s");
    expect(guess(["1714739696123", "1714739697123"])?.value).toBe("epoch-ms");
    expect(guess(["45415.52401", "45415.52402"])?.value).toBe("excel");
    expect(guess(["45415.524", "45415.525"])?.open).toEqual(["elapsed-s", "excel"]);
    expect(guess(["0.0", "0.1"])?.value).toBe("elapsed-s");
    expect(guess(["0", "100"], "Time (ms)")?.value).toBe("elapsed-ms");
  });
  test("words are none", () => expect(guess(["open", "closed"])).toBeNull());
});
