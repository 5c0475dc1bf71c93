/**
 * Further ways of writing, thought of after the reader was written and tried on it unseen: quoting, order, spelling,
 * damage, odd units and clocks, other layouts of deltas, sentences and tracks. Knows nothing of the reader.
 */
import type { Composed } from "./composed-tables.ts";
import { Chance, pullOf, two } from "./dice.ts";
import type { Truth } from "./judge.ts";

const START = Date.UTC(2023, 7, 19, 10, 20, 0) / 1000;
const iso = (t: number) => new Date(Math.round((START + t) * 1000)).toISOString();
const clock = (t: number) => iso(t).slice(11, 19);
const sentence = (body: string, low = false) => {
  let sum = 0;
  for (const c of body) sum ^= c.charCodeAt(0);
  const hex = sum.toString(16).padStart(2, "0");
  return `$${body}*${low ? hex : hex.toUpperCase()}`;
};

interface Made {
  readonly lines: readonly string[];
  readonly clock: Truth["clock"];
  readonly load?: readonly (readonly [number, number])[];
  readonly more?: Truth["more"];
  readonly must?: RegExp;
  readonly may?: RegExp;
  readonly told?: readonly string[];
  readonly says?: RegExp;
  readonly refused?: RegExp;
  readonly end?: string;
  readonly bytes?: (text: string) => Uint8Array;
}

interface Kit {
  readonly dice: Chance;
  readonly n: number;
  /** Loads of the pull in kN to three digits. */
  readonly kn: readonly number[];
  /** Truth of those at a second each, since the start or as moments. */
  readonly since: readonly (readonly [number, number])[];
  readonly moments: readonly (readonly [number, number])[];
}

const comma = (x: number | string) => String(x).replace(".", ",");
const LBF = 4.4482216152605;

export const WAYS: Readonly<Record<string, (kit: Kit) => Made>> = {
  "all in quotes, decimal commas": ({ kn, since }) => ({
    lines: ['"Temps (s)","Charge (kN)"', ...kn.map((x, i) => `"${comma(i.toFixed(1))}","${comma(x.toFixed(3))}"`)],
    clock: "elapsed",
    load: since,
    may: /thousands or decimals/,
    told: ["--decimal", "comma"],
  }),
  "a line that names the delimiter": ({ kn, since }) => ({
    lines: ["sep=;", "Time (s);Load (kN)", ...kn.map((x, i) => `${i};${x}`)],
    clock: "elapsed",
    load: since,
  }),
  "cells as formulas": ({ kn, since }) => ({
    lines: ["Time (s),Load (kN)", ...kn.map((x, i) => `="${i}",="${x}"`)],
    clock: "elapsed",
    load: since,
    refused: /cells are formulas.*save their values/,
  }),
  "milliseconds behind a colon": ({ kn }) => ({
    lines: ["Time,Load (kN)", ...kn.map((x, i) => `${clock(i)}:500,${x}`)],
    clock: "clock",
    load: kn.map((x, i) => [37200.5 + i, x * 1000]),
  }),
  "a delimiter at the end of each row": ({ kn, since }) => ({
    lines: ["Time (s);Load (kN);", ...kn.map((x, i) => `${i};${x};`)],
    clock: "elapsed",
    load: since,
  }),
  "load first, time last": ({ kn, moments }) => ({
    lines: ["Load (kN),Battery (V),Time", ...kn.map((x, i) => `${x},12.4,${iso(i)}`)],
    clock: "utc",
    load: moments,
  }),
  exponents: ({ kn, since }) => ({
    lines: [
      "Time (s)\tForce (N)",
      ...kn.map((x, i) => `${i.toExponential(6)}\t${(x * 1000).toExponential(6).toUpperCase()}`),
    ],
    clock: "elapsed",
    load: since,
  }),
  "a factor in the unit": ({ kn, since }) => ({
    lines: ["Time (s),Load (x9.80665 N)", ...kn.map((x, i) => `${i},${((x * 1000) / 9.80665).toFixed(3)}`)],
    clock: "elapsed",
    load: since,
    must: /unit|holds the load/,
    told: ["--map", "load=2:kgf"],
  }),
  "two columns of one title": ({ kn, since }) => ({
    lines: ["Time (s),Load (kN),Load (kN)", ...kn.map((x, i) => `${i},${x},${(x / 2).toFixed(3)}`)],
    clock: "elapsed",
    load: since,
    must: /2 columns hold a load/,
    told: ["--map", "load=2:kN"],
  }),
  "days with two digits of the year": ({ kn, moments }) => ({
    lines: ["Datum;Zeit;Kraft (kN)", ...kn.map((x, i) => `19.08.23;${clock(i)};${comma(x.toFixed(2))}`)],
    clock: "local",
    load: moments,
  }),
  "months in letters, other languages": ({ kn, moments, dice }) => ({
    lines: [
      "Datum;Zugkraft (kN)",
      ...kn.map((x, i) => `19. ${dice.pick(["August", "Aug."])} 2023 ${clock(i)};${comma(x.toFixed(2))}`),
    ],
    clock: "local",
    load: moments,
  }),
  "month in letters first": ({ kn, moments }) => ({
    lines: ["Time\tLoad (lbf)", ...kn.map((x, i) => `Aug 19 2023 ${clock(i)}\t${((x * 1000) / LBF).toFixed(2)}`)],
    clock: "local",
    load: moments,
  }),
  "half days with points": ({ kn, moments }) => ({
    lines: ["Time,Load (kN)", ...kn.map((x, i) => `08/19/2023 10:${clock(i).slice(3)} a.m.,${x}`)],
    clock: "local",
    load: moments,
  }),
  "microseconds since 1970": ({ kn, moments }) => ({
    lines: ["ts,Load (kN)", ...kn.map((x, i) => `${(START + i) * 1e6},${x}`)],
    clock: "utc",
    load: moments,
  }),
  "units shouted": ({ kn, since, dice }) => ({
    lines: [`TIME (S),LOAD (${dice.pick(["KN", "Kn"])})`, ...kn.map((x, i) => `${i},${x}`)],
    clock: "elapsed",
    load: since,
  }),
  "pounds shouted": ({ kn, since }) => ({
    lines: ["TIME (SEC),LOAD (LBS)", ...kn.map((x, i) => `${i},${((x * 1000) / LBF).toFixed(2)}`)],
    clock: "elapsed",
    load: since,
  }),
  "least, greatest and mean of each row": ({ kn, since }) => ({
    lines: [
      "Time (s),Load min (kN),Load max (kN),Load avg (kN)",
      ...kn.map((x, i) => `${i},${(x * 0.9).toFixed(3)},${(x * 1.1).toFixed(3)},${x}`),
    ],
    clock: "elapsed",
    load: since,
  }),
  "big-endian UTF-16": ({ kn, since }) => ({
    lines: ["Time (s);Load (kN)", ...kn.map((x, i) => `${i};${x.toFixed(2)}`)],
    clock: "elapsed",
    load: since,
    bytes: (text) => {
      const out = new Uint8Array(text.length * 2 + 2);
      out.set([0xfe, 0xff]);
      for (let i = 0; i < text.length; i++) new DataView(out.buffer).setUint16(2 * i + 2, text.charCodeAt(i), false);
      return out;
    },
  }),
  "units in brackets below": ({ kn, since }) => ({
    lines: ["Time,Load,Temp", "(s),(kN),(°C)", ...kn.map((x, i) => `${i},${x},18.2`)],
    clock: "elapsed",
    load: since,
  }),
  "remarks behind two slashes": ({ kn, since }) => ({
    lines: [
      "// pull 4: quay",
      "Time (s),Load (kN)",
      ...kn.flatMap((x, i) => (i === 9 ? ["// throttle: up", `${i},${x}`] : [`${i},${x}`])),
    ],
    clock: "elapsed",
    load: since,
    says: /line of remarks/,
  }),
  "a damaged line": ({ kn, since }) => ({
    lines: ["Time (s),Load (kN)", ...kn.map((x, i) => (i === 12 ? "1@,\u0000\u0001x" : `${i},${x}`))],
    clock: "elapsed",
    load: since.filter((_, i) => i !== 12),
    says: /line not read|reading left out/,
  }),
  "three carriage returns and feeds": ({ kn, since }) => ({
    lines: ["Time (s),Load (kN)", ...kn.map((x, i) => `${i},${x}`)],
    clock: "elapsed",
    load: since,
    end: "\r\r\n",
  }),
  "numbers with a plus, blanks, no whole part": ({ kn, since }) => ({
    lines: ["Time (s) , Load (kN)", ...kn.map((x, i) => ` ${i} , +${x.toFixed(3).replace(/^0/, "")} `)],
    clock: "elapsed",
    load: since,
  }),
  "a range in the title": ({ kn, since }) => ({
    lines: ["Time (s),Load cell (0-50 kN) [kN]", ...kn.map((x, i) => `${i},${x}`)],
    clock: "elapsed",
    load: since,
  }),
  "words behind the unit": ({ kn, since }) => ({
    lines: ["Time (s);Load (kN) filtered", ...kn.map((x, i) => `${i};${x.toFixed(2)}`)],
    clock: "elapsed",
    load: since,
    may: /states no unit/,
    told: ["--map", "load=2:kN"],
  }),
  "unit before the name": ({ kn, since }) => ({
    lines: ["Time (s),kN Load", ...kn.map((x, i) => `${i},${x}`)],
    clock: "elapsed",
    load: since,
    may: /states no unit|holds the load/,
    told: ["--map", "load=2:kN"],
  }),
  "a share of the range": ({ kn, since }) => ({
    lines: ["Time (s),Load (%)", ...kn.map((x, i) => `${i},${x}`)],
    clock: "elapsed",
    load: since,
    must: /unit|holds the load/,
    told: ["--map", "load=2:kN"],
  }),
  "tonnes beside kilonewtons": ({ kn, since }) => ({
    lines: ["Time (s),Load (kN),Load (t)", ...kn.map((x, i) => `${i},${x},${(x / 9.80665).toFixed(4)}`)],
    clock: "elapsed",
    load: since,
  }),
  "unit in the cells, and another from the middle on": ({ kn, since }) => ({
    lines: ["Time (s);Load", ...kn.map((x, i) => `${i};${i < 15 ? `${x} kN` : `${(x * 1000).toFixed(0)} N`}`)],
    clock: "elapsed",
    load: since,
  }),
  "a day above the table, day first": ({ kn }) => ({
    lines: ["Date: 19.08.2023", "Time;Load (kN)", ...kn.map((x, i) => `${clock(i)};${x.toFixed(2)}`)],
    clock: "clock",
    load: kn.map((x, i) => [37200 + i, x * 1000]),
  }),
  "winter time ends within the log": ({ kn }) => ({
    lines: [
      "Time,Load (kN)",
      ...kn.map((x, i) => `2023-10-29 ${i < 10 ? `02:59:${50 + i} CEST` : `02:00:${two(i - 10)} CET`},${x}`),
    ],
    clock: "utc",
    load: kn.map((x, i) => [Date.UTC(2023, 9, 29, 0, 59, 50) / 1000 + i, x * 1000]),
  }),
  "sample numbers beside stamps": ({ kn, moments }) => ({
    lines: ["No;Time (UTC);Load (kN)", ...kn.map((x, i) => `${i + 1};${iso(i).slice(0, 19)};${x.toFixed(2)}`)],
    clock: "utc",
    load: moments,
  }),
  "a flag of overload": ({ kn, since }) => ({
    lines: ["Time (s),Load (kN),Overload", ...kn.map((x, i) => `${i},${x},${i === 12 ? 1 : 0}`)],
    clock: "elapsed",
    load: since,
  }),
  "a sensor without a reading before it starts": ({ kn, since }) => ({
    lines: ["Time (s),Load (N)", ...kn.map((x, i) => `${i},${i < 4 ? 65535 : Math.round(x * 1000)}`)],
    clock: "elapsed",
    load: since.slice(4),
    says: /4 numbers that stand for no reading/,
  }),
  "one place in one column": ({ kn, moments }) => ({
    lines: [
      "Time (UTC);Position;Load (kN)",
      ...kn.map((x, i) => `${iso(i).slice(0, 19)};50°12.30'N 004°30.60'W;${x.toFixed(2)}`),
    ],
    clock: "utc",
    load: moments,
  }),
  "speed in kilometres an hour": ({ kn, moments }) => ({
    lines: ["Time (UTC),Load (kN),SOG (km/h)", ...kn.map((x, i) => `${iso(i).slice(0, 19)},${x},3.6`)],
    clock: "utc",
    load: moments,
    more: { speed: kn.map((_, i) => [START + i, 1]) },
  }),
  "sentences without checksums behind stamps": ({ kn, moments }) => ({
    lines: kn.map((x, i) => `${iso(i)} $YXXDR,N,${Math.round(x * 1000)},N,CELL`),
    clock: "utc",
    load: moments,
  }),
  "sentences with small checksums, date by ZDA": ({ kn, moments }) => ({
    lines: kn.flatMap((x, i) => [
      sentence(`GPZDA,${clock(i).replaceAll(":", "")}.00,19,08,2023,00,00`, true),
      sentence(`GPGGA,${clock(i).replaceAll(":", "")}.00,4130.000,N,00210.000,E,1,08,0.9,5.0,M,,M,,`, true),
      sentence(`YXXDR,N,${Math.round(x * 1000)},N,CELL`, true),
    ]),
    clock: "utc",
    load: moments,
    more: { latitude: moments.map(([t]) => [t, 41.5]) },
  }),
  "sentences at ten a second, stamps to whole seconds": ({ kn }) => ({
    lines: kn.flatMap((x, i) =>
      (i % 10 === 0
        ? [sentence(`GPRMC,${clock(i / 10).replaceAll(":", "")},A,4130.0,N,00210.0,E,0,0,190823,,,A`)]
        : []
      ).concat(sentence(`YXXDR,N,${Math.round(x * 1000)},N,CELL`)),
    ),
    clock: "utc",
    load: kn.map((x, i) => [START + Math.floor(i / 10), x * 1000]),
  }),
  "deltas as one array": ({ kn, moments }) => ({
    lines: [
      JSON.stringify(
        kn.map((x, i) => ({
          updates: [{ timestamp: iso(i), values: [{ path: "anchor.rode.load", value: x * 1000 }] }],
        })),
      ),
    ],
    clock: "utc",
    load: moments,
    refused: /JSON array: one message a line/,
  }),
  "deltas with zones and without values": ({ kn, moments }) => ({
    lines: kn.flatMap((x, i) => [
      JSON.stringify({
        context: "vessels.self",
        updates: [
          {
            timestamp: iso(i + 7200).replace("Z", "+02:00"),
            values: [
              { path: "anchor.rode.load", value: x * 1000 },
              { path: "navigation.position", value: null },
            ],
          },
        ],
      }),
      JSON.stringify({ context: "vessels.self", updates: [{ timestamp: iso(i), meta: [{ path: "a", value: {} }] }] }),
    ]),
    clock: "utc",
    load: moments,
  }),
  "deltas of a station on land": ({ kn, moments }) => ({
    lines: kn.flatMap((x, i) => [
      JSON.stringify({
        context: "vessels.self",
        updates: [
          {
            $source: "a",
            timestamp: iso(i),
            values: [
              { path: "anchor.rode.load", value: x * 1000 },
              { path: "navigation.position", value: { latitude: 41, longitude: 2 } },
            ],
          },
        ],
      }),
      JSON.stringify({
        context: "atons.urn:mrn:imo:mmsi:992351000",
        updates: [
          {
            $source: "b",
            timestamp: iso(i),
            values: [{ path: "navigation.position", value: { latitude: 44, longitude: 2 } }],
          },
        ],
      }),
    ]),
    clock: "utc",
    load: moments,
    more: { latitude: moments.map(([t]) => [t, 41]) },
  }),
  "a track of GPX 1.0 in Latin-1 with waypoints": ({ kn }) => ({
    lines: [
      '<?xml version="1.0" encoding="ISO-8859-1"?>',
      '<gpx version="1.0"><wpt lat="1" lon="2"><name>Qu\u00e9</name></wpt><trk><name>\u00e9</name><trkseg>',
      ...kn.map(
        (_, i) =>
          `<trkpt lat="41.5" lon="2.25"><time>${iso(i + 7200).replace("Z", "+02:00")}</time><speed>0.5</speed></trkpt>${i === 9 ? "</trkseg><trkseg>" : ""}`,
      ),
      "</trkseg></trk></gpx>",
    ],
    clock: "utc",
    more: { latitude: kn.map((_, i) => [START + i, 41.5]), speed: kn.map((_, i) => [START + i, 0.5]) },
    bytes: (text) => Uint8Array.from(text, (c) => c.charCodeAt(0)),
  }),
  "fixed columns of blanks with units below": ({ kn, since }) => ({
    lines: [
      "   Time      Load",
      "    (s)      (kN)",
      ...kn.map((x, i) => `${i.toFixed(2).padStart(7)} ${x.toFixed(3).padStart(9)}`),
    ],
    clock: "elapsed",
    load: since,
  }),
  "a header every ten rows": ({ kn, since }) => ({
    lines: kn.flatMap((x, i) =>
      i % 10 === 0 ? ["Time (s);Load (kN)", `${i};${x.toFixed(2)}`] : [`${i};${x.toFixed(2)}`],
    ),
    clock: "elapsed",
    load: since,
    says: /headers? met again/,
  }),
  "the time is missing in a row": ({ kn, moments }) => ({
    lines: ["Time,Load (kN)", ...kn.map((x, i) => `${i === 12 ? "" : iso(i)},${x}`)],
    clock: "utc",
    load: moments.filter((_, i) => i !== 12),
    says: /line not read/,
  }),
  "a range above the table is no unit": ({ kn, since }) => ({
    lines: [
      "Range: 50 kN",
      "Capacity 5000 kg",
      "Time (s),Load (lbf)",
      ...kn.map((x, i) => `${i},${((x * 1000) / LBF).toFixed(2)}`),
    ],
    clock: "elapsed",
    load: since,
  }),
  "a minus behind the number": ({ kn, since }) => ({
    lines: ["Time (s),Load (kN)", ...kn.map((x, i) => (i === 5 ? `${i},0.012-` : `${i},${x}`))],
    clock: "elapsed",
    load: since.filter((_, i) => i !== 5),
    says: /left out|not read/,
  }),
};

/** Composes a log of one of the ways above. */
export function composeFurther(seed: number): Composed {
  const dice = new Chance(seed);
  const names = Object.keys(WAYS);
  const name = names[seed % names.length]!;
  const n = 24 + dice.below(25);
  const kn = pullOf(dice, n).newtons.map((load) => Number((load / 1000).toFixed(name.includes("kN") ? 3 : 2)));
  const since = kn.map((x, i) => [i, x * 1000] as const);
  const made = WAYS[name]!({ dice, n, kn, since, moments: since.map(([t, x]) => [START + t, x] as const) });
  const text = made.lines.join(made.end ?? "\n") + (made.end ?? "\n");
  return {
    name: `further ${seed}: ${name}`,
    bytes: made.bytes?.(text) ?? new TextEncoder().encode(text),
    must: made.must ? [made.must] : [],
    may: made.may ? [made.may] : [],
    told: made.told ?? [],
    truth: { clock: made.clock, ...(made.load ? { load: made.load } : {}), ...(made.more ? { more: made.more } : {}) },
    says: made.says ? [made.says] : [],
    ...(made.refused ? { refused: made.refused } : {}),
  };
}
