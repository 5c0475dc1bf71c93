import fc from "fast-check";
import { XMLParser } from "fast-xml-parser";
import { describe, expect, test } from "vitest";
import { GpxReader, readGpx } from "../../src/log/gpx.ts";
import { readMarkTable, readWebVtt } from "../../src/log/time-marks.ts";

// The document of the GPX 1.1 schema's own shape: topografix.com/GPX/1/1 (recalled), places and times invented.
const gpx = (points: string) => `<?xml version="1.0" encoding="UTF-8"?>
<gpx version="1.1" creator="test" xmlns="http://www.topografix.com/GPX/1/1">
<wpt lat="1" lon="2"/><trk><name>drift</name><trkseg>${points}</trkseg></trk></gpx>`;
const point = (lat: string, lon: string, time: string, more = "") =>
  `<trkpt lat="${lat}" lon="${lon}">${time === "" ? "" : `<time>${time}</time>`}${more}</trkpt>`;

describe("a GPX track", () => {
  test("keeps every digit of its places", () => {
    const track = readGpx(gpx(point("12.3456789012345", "-45.6789012345678", "2024-05-23T10:20:30.250Z")), "t.gpx");
    expect([track.time[0], track.latitude[0], track.longitude[0]]).toEqual([
      1716459630.25, 12.3456789012345, -45.6789012345678,
    ]);
    expect(track).toMatchObject({ rows: 1, speed: null, course: null });
  });
  test("speed and course of GPX 1.0 are taken, in m/s and radians", () => {
    const track = readGpx(
      gpx(point("1", "2", "2024-05-23T10:20:30Z", "<course>90</course><speed>1.5</speed>")),
      "t.gpx",
    );
    expect([track.speed![0], track.course![0]]).toEqual([1.5, Math.PI / 2]);
  });
  test("prefixes of a namespace change nothing", () => {
    const text = gpx(point("1", "2", "2024-05-23T10:20:30Z"))
      .replace(/<(\/?)(gpx|trk|trkseg|trkpt|time|name|wpt)\b/g, "<$1g:$2")
      .replace("xmlns=", "xmlns:g=");
    expect(readGpx(text, "t.gpx").rows).toBe(1);
  });
  test("points that cannot be read are told by their line", () => {
    const track = readGpx(
      gpx(
        [
          point("1", "2", "2024-05-23T10:20:30Z"),
          point("91", "2", "2024-05-23T10:20:31Z"),
          point("1", "2", ""),
          point("1", "2", "noon"),
          point("", "2", "2024-05-23T10:20:31Z"),
          point("1", " ", "2024-05-23T10:20:31Z"),
        ].join("\n"),
      ),
      "t.gpx",
    );
    expect(track.rows).toBe(1);
    expect(track.troubles.first.map(({ line, value }) => [line, value])).toEqual([
      [4, 'lat "91", lon "2"'],
      [5, "no time"],
      [6, "noon"],
      // Nothing written is no 0.
      [7, 'lat "", lon "2"'],
      [8, 'lat "1", lon " "'],
    ]);
  });
  test("entities are not expanded", () => {
    const bomb = `<?xml version="1.0"?><!DOCTYPE gpx [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;&a;&a;">]>${gpx(
      point("1", "2", "2024-05-23T10:20:30Z"),
    )
      .replace(/<\?xml.*\?>/, "")
      .replace("drift", "&b;")}`;
    expect(readGpx(bomb, "t.gpx").rows).toBe(1);
    // Nor where they would be read: then it is no time, told as it stands.
    const timed = bomb.replace("2024-05-23T10:20:30Z", "&b;");
    expect(() => readGpx(timed, "t.gpx")).toThrow(
      't.gpx: line 3: "&b;"; a point with a time such as 2024-05-03T12:34:56Z is expected',
    );
  });
  test.each([
    ["<gpx>", /^t\.gpx: line 1: /],
    [`<gpx>${"<a>".repeat(100_000)}`, /^t\.gpx: line 1: nested too deeply; a whole XML document is expected$/],
    [`<gpx><!--${"x".repeat(5_000_000)}--></gpx>`, /^t\.gpx: line 1: more than 4000000 characters without an element/],
    [`<gpx a="${"x".repeat(9_000_000)}"/>`, /^t\.gpx: line 1: more than 4000000 characters without an element/],
    ["<gpx></gpx><gpx></gpx>", /^t\.gpx: line 1: /],
    ["<kml/>", /^t\.gpx: no GPX document; an element gpx with tracks is expected$/],
    [gpx(""), /^t\.gpx: 1 waypoints and 0 routes, no track; /],
    [gpx(point("1", "2", "")), /^t\.gpx: line 3: "no time"; a point with a time such as /],
  ])("%j is refused in one line", (text, line) => expect(() => readGpx(text, "t.gpx")).toThrow(line));
});

// fast-xml-parser 5.12.1 reads the whole document into a tree: the same points must come out of both.
test("documents of any form hold the points that a reader of trees finds in them", () => {
  const parser = new XMLParser({
    ignoreAttributes: false,
    attributeNamePrefix: "",
    parseTagValue: false,
    parseAttributeValue: false,
    processEntities: false,
    removeNSPrefix: true,
    isArray: (name) => ["trk", "trkseg", "trkpt"].includes(name),
  });
  interface Tree {
    gpx: { trk?: ({ trkseg?: ({ trkpt?: { lat: string; lon: string; time: string }[] } | "")[] } | "")[] } | "";
  }
  const lat = fc.double({ min: -90, max: 90, noNaN: true, noDefaultInfinity: true });
  const stray = fc.constantFrom("", "\n  ", "<!-- <trkpt/> -->", "<extensions><trkpt lat='1' lon='2'/></extensions>");
  const onePoint = fc
    .tuple(lat, lat, fc.integer({ min: 0, max: 2e9 }), stray)
    .map(
      ([a, o, t, more]) =>
        `<trkpt lon='${o}'\n lat="${a}">${more}<time> <![CDATA[${new Date(t * 1000).toISOString()}]]></time></trkpt>`,
    );
  const within = (name: string, of: fc.Arbitrary<string>) =>
    fc.tuple(fc.array(of, { maxLength: 4 }), stray).map(([all, s]) => `<${name}>${s}${all.join(s)}</${name}>`);
  fc.assert(
    fc.property(
      within("gpx", within("trk", within("trkseg", onePoint))),
      fc.integer({ min: 1, max: 40 }),
      (xml, size) => {
        const { gpx } = parser.parse(xml) as Tree;
        const tracks = gpx === "" ? [] : (gpx.trk ?? []);
        const segments = tracks.flatMap((trk) => (trk === "" ? [] : (trk.trkseg ?? [])));
        const points = segments.flatMap((seg) => (seg === "" ? [] : (seg.trkpt ?? [])));
        const reader = new GpxReader("t.gpx");
        for (let at = 0; at < xml.length; at += size) reader.write(xml.slice(at, at + size));
        const { time, values } = reader.take();
        expect([...time]).toEqual(points.map((p) => Date.parse(p.time.trim()) / 1000));
        expect([...values[0]!]).toEqual(points.map((p) => Number(p.lat)));
        expect([...values[1]!]).toEqual(points.map((p) => Number(p.lon)));
      },
    ),
  );
});

describe("WebVTT", () => {
  // Cue forms of W3C WebVTT 1: hours may be left out, identifiers and settings stand beside, notes and styles between.
  test("takes cues whatever stands between them", () => {
    const text =
      "\ufeffWEBVTT Some title\n\nSTYLE\n::cue { color: red }\n\nNOTE a note\nof two lines\n\nintro\n00:01.000 --> 00:02.500 align:start line:0\n<v Tester>slack</v>\nstill\n\n100:00:00.000 --> 100:00:01.000\nfar\n";
    expect(readWebVtt(text, "m.vtt").marks).toEqual([
      { from: 1, to: 2.5, text: "slack still" },
      { from: 360000, to: 360001, text: "far" },
    ]);
  });
  test("a cue that ends before it begins is told", () => {
    const read = readWebVtt("WEBVTT\n\n00:03.000 --> 00:02.000\na\n\n00:04.000 --> 00:05.000\nb\n", "m.vtt");
    expect(read.marks.length).toBe(1);
    expect(read.troubles).toMatchObject([{ line: 3 }]);
  });
});

describe("a table of marks", () => {
  test("with dates is of the calendar", () =>
    expect(readMarkTable("time,mark\n2024-05-23T10:20:30Z,set\n")).toMatchObject({
      clock: "utc",
      marks: [{ from: 1716459630, to: null, text: "set" }],
    }));
  test("with ends", () =>
    expect(readMarkTable("start\tend\tlabel\n0:10\t0:20\tpull\n")?.marks).toEqual([
      { from: 10, to: 20, text: "pull" },
    ]));
  test("of readings is none", () => expect(readMarkTable("time,load\n0,1\n")).toBeNull());
});
