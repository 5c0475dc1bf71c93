/** Small logs of sentences, deltas and tracks, typed by hand, each with what is true of it. */
import { checksum } from "../../../src/log/nmea-sentence.ts";
import type { LogCase } from "./judge.ts";

const MIDDAY = Date.UTC(2024, 4, 23, 12, 0, 0) / 1000;
const sentence = (body: string) => `$${body}*${checksum(body).toString(16).toUpperCase().padStart(2, "0")}`;
const lines = (...all: readonly string[]) => `${all.join("\n")}\n`;
const two = (n: number) => String(n).padStart(2, "0");
const rmc = (talker: string, i: number, north: string, east: string) =>
  sentence(`${talker}RMC,1200${two(i)}.00,A,${north},N,${east},E,0.1,90.0,230524,,,A`);
const cell = (newtons: number, name = "RODE") => sentence(`YXXDR,N,${newtons},N,${name}`);
const stamp = (i: number) => `2024-05-23T12:00:${two(i)}.000Z`;
const delta = (i: number, values: object, more: object = {}, source: string | null = "gps.1") =>
  JSON.stringify({
    ...more,
    updates: [
      {
        ...(source === null ? {} : { $source: source }),
        timestamp: stamp(i),
        values: Object.entries(values).map(([path, value]) => ({ path, value })),
      },
    ],
  });
const place = (latitude: number, longitude: number) => ({ "navigation.position": { latitude, longitude } });
const seconds = Array.from({ length: 14 }, (_, i) => i);
const each = <T>(make: (i: number) => T): T[] => seconds.map(make);
const trk = (i: number, latitude: number, longitude: number) =>
  `<trkpt lat="${latitude}" lon="${longitude}"><time>${stamp(i)}</time></trkpt>`;

export const messages: readonly LogCase[] = [
  {
    name: "other vessels' places are not the boat's own",
    bytes: lines(
      ...each((i) =>
        delta(i, { ...place(41.5, -71.2), "anchor.rode.load": 1000 + i }, { context: "vessels.self" }),
      ).flatMap((own, i) => [
        own,
        delta(i, place(42 + i / 10, -70), { context: "vessels.urn:mrn:imo:mmsi:230999999" }, "ais.1"),
      ]),
    ),
    truth: {
      clock: "utc",
      load: each((i) => [MIDDAY + i, 1000 + i]),
      more: { latitude: each((i) => [MIDDAY + i, 41.5]), longitude: each((i) => [MIDDAY + i, -71.2]) },
    },
    says: [/other vessels/, /readings of other sources left out/],
  },
  {
    name: "the server's hello says which vessel is the boat",
    bytes: lines(
      JSON.stringify({ name: "server", version: "2.0.0", self: "vessels.urn:mrn:imo:mmsi:230000001" }),
      ...each((i) => delta(i, place(41.5, -71.2), { context: "vessels.urn:mrn:imo:mmsi:230000001" })),
      ...each((i) => delta(i, place(43, -70), { context: "vessels.urn:mrn:imo:mmsi:230999999" }, "ais.1")),
    ),
    truth: { clock: "utc", more: { latitude: each((i) => [MIDDAY + i, 41.5]) } },
  },
  {
    name: "two vessels and nobody says which is the boat: asked",
    bytes: lines(
      ...each((i) =>
        delta(i, { ...place(41.5, -71.2), "anchor.rode.load": 5 }, { context: "vessels.urn:mrn:imo:mmsi:230000001" }),
      ),
      ...each((i) => delta(i, place(43, -70), { context: "vessels.urn:mrn:imo:mmsi:230999999" }, "ais.1")),
    ),
    asks: /2 vessels speak.*230000001.*2 quantities.*--context/,
    told: ["--context", "vessels.urn:mrn:imo:mmsi:230000001"],
    truth: { clock: "utc", load: each((i) => [MIDDAY + i, 5]), more: { latitude: each((i) => [MIDDAY + i, 41.5]) } },
  },
  {
    name: "two receivers of deltas: asked",
    bytes: lines(
      ...each((i) => [delta(i, place(41.5, -71.2)), delta(i, place(41.5001, -71.2001), {}, "gps.2")]).flat(),
    ),
    asks: /navigation\.position comes from 2 sources, gps\.1, gps\.2.*--source gps\.1 or --source gps\.2/,
    told: ["--source", "gps.2"],
    truth: { clock: "utc", more: { latitude: each((i) => [MIDDAY + i, 41.5001]) } },
    says: [/other sources left out/],
  },
  {
    name: "a source as label and talker",
    bytes: lines(
      ...each((i) =>
        ["GP", "GN"].map((talker, k) =>
          JSON.stringify({
            updates: [
              {
                source: { label: "bus", talker },
                timestamp: stamp(i),
                values: [{ path: "navigation.position", value: { latitude: 41 + k, longitude: 2 } }],
              },
            ],
          }),
        ),
      ).flat(),
    ),
    asks: /bus\.GP, bus\.GN/,
    told: ["--source", "bus.GN"],
    truth: { clock: "utc", more: { latitude: each((i) => [MIDDAY + i, 42]) } },
  },
  {
    name: "a panel's load is none of the rode's",
    bytes: lines(...each((i) => delta(i, { "electrical.solar.1.load": 55, "anchor.rode.load": 1200 + i }, {}, null))),
    truth: { clock: "utc", load: each((i) => [MIDDAY + i, 1200 + i]) },
  },
  {
    name: "only a panel's load: no load at all",
    bytes: lines(...each((i) => delta(i, { "electrical.solar.1.load": 55, ...place(41, 2) }, {}, null))),
    truth: { clock: "utc", none: ["load"], more: { latitude: each((i) => [MIDDAY + i, 41]) } },
  },
  {
    name: "a load that may be of anything: asked",
    bytes: lines(...each((i) => delta(i, { "rigging.forestay.load": 900 + i }, {}, null))),
    asks: /rigging\.forestay\.load may or may not be the load of the rode.*--load-path rigging\.forestay\.load/,
    told: ["--load-path", "rigging.forestay.load"],
    truth: { clock: "utc", load: each((i) => [MIDDAY + i, 900 + i]) },
  },
  {
    name: "two paths of loads: asked",
    bytes: lines(...each((i) => delta(i, { "bow.port.load": 500 + i, "bow.starboard.load": 400 + i }, {}, null))),
    asks: /2 paths hold a load, bow\.port\.load, bow\.starboard\.load.*--load-path bow\.port\.load/,
    told: ["--loads", "sum"],
    truth: { clock: "utc", load: each((i) => [MIDDAY + i, 900 + 2 * i]) },
  },
  {
    name: "two cells of XDR: asked, then one",
    bytes: lines(
      ...each((i) => [rmc("GP", i, "4130.000", "00210.000"), cell(1000 + i, "PORT"), cell(700 + i, "STBD")]).flat(),
    ),
    asks: /2 transducers hold a load, PORT, STBD.*--load-path PORT/,
    told: ["--load-path", "STBD"],
    truth: { clock: "utc", load: each((i) => [MIDDAY + i, 700 + i]) },
    says: [/14 readings of other sources left out/],
  },
  {
    name: "two cells of one XDR: each its channel",
    bytes: lines(
      ...each((i) => [
        rmc("GP", i, "4130.000", "00210.000"),
        sentence(`YXXDR,N,${1000 + i},N,PORT,N,${700 + i},N,STBD`),
      ]).flat(),
    ),
    asks: /2 transducers/,
    told: ["--loads", "each"],
    truth: {
      clock: "utc",
      load: each((i) => [MIDDAY + i, 1000 + i]),
      more: { "load-2": each((i) => [MIDDAY + i, 700 + i]) },
    },
  },
  {
    name: "two cells of XDR added up",
    bytes: lines(
      ...each((i) => [rmc("GP", i, "4130.000", "00210.000"), cell(1000 + i, "PORT"), cell(700 + i, "STBD")]).flat(),
    ),
    asks: /--loads sum/,
    told: ["--loads", "sum"],
    truth: { clock: "utc", load: each((i) => [MIDDAY + i, 1700 + 2 * i]) },
  },
  {
    name: "two receivers of sentences by their talkers: asked",
    bytes: lines(...each((i) => [rmc("GP", i, "4130.000", "00210.000"), rmc("GN", i, "4130.600", "00210.600")]).flat()),
    asks: /position comes from 2 sources, GP, GN.*--source GP or --source GN/,
    told: ["--source", "GN"],
    truth: { clock: "utc", more: { latitude: each((i) => [MIDDAY + i, 41.51]) } },
  },
  {
    name: "an autopilot that repeats the place is another source: asked",
    bytes: lines(
      ...each((i) => [
        rmc("GP", i, "4130.000", "00210.000"),
        sentence(`IIGLL,4130.300,N,00210.300,E,1200${two(i)}.00,A,A`),
      ]).flat(),
    ),
    asks: /position comes from 2 sources, GP, II/,
    told: ["--source", "GP"],
    truth: { clock: "utc", more: { latitude: each((i) => [MIDDAY + i, 41.5]) } },
  },
  {
    name: "one receiver with several talkers of satellites is one",
    bytes: lines(...each((i) => [rmc("GN", i, "4130.000", "00210.000"), sentence("GPGSV,1,1,01,01,40,083,46")]).flat()),
    truth: { clock: "utc", more: { latitude: each((i) => [MIDDAY + i, 41.5]) } },
  },
  {
    name: "two receivers of one talker that nothing parts: asked",
    bytes: lines(...each((i) => [rmc("GP", i, "4130.000", "00210.000"), rmc("GP", i, "4130.060", "00210.060")]).flat()),
    refused: /two receivers of one name/,
  },
  {
    name: "two receivers by the sources of tag blocks: asked",
    bytes: lines(
      ...each((i) => [
        `\\s:MAST*00\\${rmc("GP", i, "4130.000", "00210.000")}`,
        `\\s:HELM*00\\${rmc("GP", i, "4130.600", "00210.600")}`,
      ]).flat(),
    ),
    asks: /2 sources, MAST, HELM/,
    told: ["--source", "MAST"],
    truth: { clock: "utc", more: { latitude: each((i) => [MIDDAY + i, 41.5]) } },
  },
  {
    name: "other vessels' reports among the sentences are passed over",
    bytes: lines(
      ...each((i) => [
        rmc("GP", i, "4130.000", "00210.000"),
        "!AIVDM,1,1,,A,13u?etPv2;0n:dDPwUM1U1Cb069D,0*24",
        cell(900 + i),
      ]).flat(),
    ),
    truth: {
      clock: "utc",
      load: each((i) => [MIDDAY + i, 900 + i]),
      more: { latitude: each((i) => [MIDDAY + i, 41.5]) },
    },
  },
  {
    name: "32767 of a transducer stands for no reading",
    bytes: lines(...each((i) => [rmc("GP", i, "4130.000", "00210.000"), cell(i === 7 ? 32767 : 900 + i)]).flat()),
    truth: { clock: "utc", load: each((i): [number, number] => [MIDDAY + i, 900 + i]).filter((_, i) => i !== 7) },
    says: [/1 number that stands for no reading/],
  },
  {
    name: "a load without a unit among the transducers is told",
    bytes: lines(...each((i) => [rmc("GP", i, "4130.000", "00210.000"), sentence(`YXXDR,G,${900 + i},,LOAD`)]).flat()),
    truth: { clock: "utc", none: ["load"], more: { latitude: each((i) => [MIDDAY + i, 41.5]) } },
    says: [/14 readings left out/],
  },
  {
    name: "south and west of sentences",
    bytes: lines(...each((i) => sentence(`GPRMC,1200${two(i)}.00,A,3330.000,S,07015.000,W,0.1,90.0,230524,,,A`))),
    truth: {
      clock: "utc",
      more: { latitude: each((i) => [MIDDAY + i, -33.5]), longitude: each((i) => [MIDDAY + i, -70.25]) },
    },
  },
  {
    name: "a track cut off gives what it holds, and says so",
    bytes: `<?xml version="1.0"?>\n<gpx><trk><trkseg>\n${each((i) => trk(i, 41.5, -71.2)).join("\n")}\n<trkpt lat="41.`,
    truth: { clock: "utc", more: { latitude: each((i) => [MIDDAY + i, 41.5]) } },
    says: [/ended at line 1\d: the document is cut off or broken/],
  },
  {
    name: "a track cut off between two points",
    bytes: `<gpx><trk><trkseg>\n${each((i) => trk(i, 41.5, -71.2)).join("\n")}\n`,
    truth: { clock: "utc", more: { latitude: each((i) => [MIDDAY + i, 41.5]) } },
    says: [/cut off/],
  },
  {
    name: "a track broken by garbage in the middle",
    bytes: `<gpx><trk><trkseg>\n${each((i) => trk(i, 41.5, -71.2)).join("\n")}\n<<<< &&&\n${trk(30, 41, 2)}</trkseg></trk></gpx>`,
    truth: { clock: "utc", more: { latitude: each((i) => [MIDDAY + i, 41.5]) } },
    says: [/ended at line/],
  },
  {
    name: "0, 0 of a track is no place",
    bytes: `<gpx><trk><trkseg>${trk(0, 0, 0)}${each((i) => trk(i + 1, 41.5, -71.2)).join("")}</trkseg></trk></gpx>`,
    truth: { clock: "utc", more: { latitude: each((i) => [MIDDAY + i + 1, 41.5]) } },
    says: [/1 number that stands for no reading/],
  },
  {
    name: "a track without an end at all",
    bytes: "<gpx><trk><trkseg>",
    refused: /no track|whole XML/,
  },
];
