/**
 * Makes logs of an invented pull, all from one known load over time, so that what a reader makes of them can be checked.
 *
 *   node --import tsx scripts/make-log.ts --examples data/examples/logs    one small file a dialect
 *   node --import tsx scripts/make-log.ts --rows 10000000 --out big.csv     a large one, with seeded noise
 */
import { createWriteStream } from "node:fs";
import { mkdir, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { parseArgs } from "node:util";
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";

/** Load of the invented pull at a time since its start, N: slack, a ramp, a hold with a slow ripple, a release. */
export function loadAt(t: number): number {
  if (t < 3) return 40;
  if (t < 9) return 40 + (t - 3) * 400;
  if (t < 16) return 2440 + 60 * Math.sin(t * 1.7);
  return Math.max(40, 2440 - (t - 16) * 900);
}

/** One fixture: its bytes, and what must come out of them. */
export interface ExampleLog {
  readonly file: string;
  readonly bytes: Uint8Array;
  /** Times of its rows, s on its own clock. */
  readonly times: readonly number[];
  /** Loads written, N: the true ones rounded to the file's digits. */
  readonly loads: readonly number[];
  readonly clock: "utc" | "local" | "elapsed" | "clock";
  /** What must be told before it can be read: options of the command. */
  readonly told?: readonly string[];
}

/** Newtons in one of each unit, exact by definition (pound and standard gravity). */
const SIZE = { N: 1, daN: 10, kN: 1000, lbf: 4.4482216152605, kgf: 9.80665 } as const;
type Unit = keyof typeof SIZE;

const START = Date.UTC(2024, 4, 23, 10, 20, 30) / 1000;
const AMBIGUOUS = Date.UTC(2024, 4, 3, 10, 20, 30) / 1000;

interface Shape {
  readonly unit: Unit;
  readonly digits: number;
  /** Seconds from the start at which each row was read. */
  readonly at: readonly number[];
}

const steady = (rows: number, step: number, from = 0): number[] =>
  Array.from({ length: rows }, (_, i) => from + Math.round(i * step * 1000) / 1000);

const written = (t: number, { unit, digits }: Pick<Shape, "unit" | "digits">): string =>
  (loadAt(t) / SIZE[unit]).toFixed(digits);

function example(
  file: string,
  shape: Shape,
  clock: ExampleLog["clock"],
  origin: number,
  lines: (cells: readonly { t: number; load: string; i: number }[]) => string | Uint8Array,
  more: { told?: readonly string[]; keep?: (i: number) => boolean } = {},
): ExampleLog {
  const cells = shape.at.map((t, i) => ({ t, load: written(t, shape), i }));
  const kept = cells.filter(({ i }) => more.keep?.(i) ?? true);
  const made = lines(cells);
  return {
    file,
    bytes: typeof made === "string" ? new TextEncoder().encode(made) : made,
    times: kept.map(({ t }) => origin + t),
    loads: kept.map(({ load }) => Number(load) * SIZE[shape.unit]),
    clock,
    ...(more.told === undefined ? {} : { told: more.told }),
  };
}

const two = (n: number) => String(n).padStart(2, "0");
const iso = (s: number, zone = "Z") => `${new Date(Math.round(s * 1000)).toISOString().slice(0, 23)}${zone}`;
const day = (s: number) => new Date(Math.round(s * 1000));
const clockOf = (s: number, fraction = 3, mark = ".") => {
  const ms = Math.round(s * 1000);
  const whole = Math.floor(ms / 1000);
  const tail =
    fraction === 0
      ? ""
      : `${mark}${String(ms % 1000)
          .padStart(3, "0")
          .slice(0, fraction)}`;
  return `${two(Math.floor(whole / 3600) % 24)}:${two(Math.floor(whole / 60) % 60)}:${two(whole % 60)}${tail}`;
};
const ofDay = (s: number) => s - Math.floor(s / 86400) * 86400;
const dmy = (s: number, mark: string) =>
  `${two(day(s).getUTCDate())}${mark}${two(day(s).getUTCMonth() + 1)}${mark}${day(s).getUTCFullYear()}`;
const mdy = (s: number, mark: string) =>
  `${day(s).getUTCMonth() + 1}${mark}${day(s).getUTCDate()}${mark}${day(s).getUTCFullYear()}`;
const comma = (text: string) => text.replace(".", ",");
const join_ = (lines: readonly string[], end = "\n") => lines.join(end) + end;

function utf16(text: string, little: boolean, mark: boolean): Uint8Array {
  const units = (mark ? "\ufeff" : "") + text;
  const bytes = new Uint8Array(units.length * 2);
  const view = new DataView(bytes.buffer);
  for (let i = 0; i < units.length; i++) view.setUint16(2 * i, units.charCodeAt(i), little);
  return bytes;
}

function latin1(text: string): Uint8Array {
  return Uint8Array.from(text, (c) => c.charCodeAt(0));
}

const SLOW: Shape = { unit: "lbf", digits: 1, at: steady(40, 0.5) };
const KN: Shape = { unit: "kN", digits: 3, at: steady(40, 0.5) };
const NEWTON: Shape = { unit: "N", digits: 0, at: steady(40, 0.5) };
const MIDNIGHT = Date.UTC(2024, 4, 3, 23, 59, 50) / 1000;

/** Every dialect, one small file each. The place, the boat and the pull are invented. */
export function exampleLogs(): ExampleLog[] {
  return [
    example("comma-iso.csv", SLOW, "utc", START, (c) =>
      join_(["Time,Load (lbf)", ...c.map(({ t, load }) => `${iso(START + t)},${load}`)]),
    ),
    example("iso-with-offset.csv", SLOW, "utc", START, (c) =>
      join_(["timestamp,tension_lbf", ...c.map(({ t, load }) => `${iso(START + t + 7200, "+02:00")},${load}`)]),
    ),
    example("iso-without-zone.txt", KN, "local", START, (c) =>
      join_([
        "DateTime|Force, kN|Battery %",
        ...c.map(({ t, load }) => `${iso(START + t, "").replace("T", " ")}|${load}|87`),
      ]),
    ),
    example("semicolon-decimal-comma.csv", KN, "local", START, (c) =>
      join_(
        [
          "Datum;Kraft [kN]",
          ...c.map(({ t, load }) => `${dmy(START + t, ".")} ${clockOf(ofDay(START + t), 1, ",")};${comma(load)}`),
        ],
        "\r\n",
      ),
    ),
    example("tab-epoch-ms.tsv", NEWTON, "utc", START, (c) =>
      join_([
        "timestamp\tforce_N\tpeak_N",
        ...c.map(({ t, load }) => `${Math.round((START + t) * 1000)}\t${load}\t2500`),
      ]),
    ),
    example("epoch-seconds.csv", KN, "utc", START, (c) =>
      join_(["t,F [kN]", ...c.map(({ t, load }) => `${(START + t).toFixed(2)},${load}`)]),
    ),
    example("blanks.txt", NEWTON, "elapsed", 0, (c) =>
      join_(["# t/s F/N", ...c.map(({ t, load }) => `${t.toFixed(3).padStart(9)}  ${load.padStart(7)}`)]),
    ),
    example("quoted-decimal-comma.csv", KN, "elapsed", 0, (c) =>
      join_(
        [
          '"Temps (s)","Force (kN)","Note"',
          ...c.map(
            ({ t, load, i }) =>
              `"${comma(t.toFixed(1))}","${comma(load)}","${i === 7 ? 'said ""slack"", then\r\nwent on' : ""}"`,
          ),
        ],
        "\r\n",
      ),
    ),
    example("row-of-units.csv", KN, "elapsed", 0, (c) =>
      join_(["Zeit;Zugkraft;Status", "s;kN;-", ...c.map(({ t, load }) => `${comma(t.toFixed(2))};${comma(load)};OK`)]),
    ),
    example("unit-column.csv", SLOW, "local", START, (c) =>
      join_([
        "Date,Time,Reading,Units",
        ...c.map(({ t, load }) => `${mdy(START + t, "/")},${clockOf(ofDay(START + t), 1)},${load},lbf`),
      ]),
    ),
    unitsChange(),
    example("units-in-cells.csv", SLOW, "clock", ofDay(START), (c) =>
      join_(["Time,Tension", ...c.map(({ t, load }) => `${clockOf(ofDay(START + t))},${load} lbf`)]),
    ),
    example("am-pm.csv", { ...SLOW, at: steady(40, 1) }, "local", START, (c) =>
      join_([
        "Timestamp,Load lbs",
        ...c.map(
          ({ t, load }) =>
            `${mdy(START + t, "/")} ${Number(clockOf(ofDay(START + t)).slice(0, 2)) % 12 || 12}${clockOf(ofDay(START + t), 0).slice(2)} AM,${load}`,
        ),
      ]),
    ),
    example(
      "day-or-month.csv",
      SLOW,
      "local",
      AMBIGUOUS,
      (c) =>
        join_([
          "Time,Load (lbf)",
          ...c.map(({ t, load }) => `${dmy(AMBIGUOUS + t, "/")} ${clockOf(ofDay(AMBIGUOUS + t), 1)},${load}`),
        ]),
      { told: ["--map", "time=1:dmy"] },
    ),
    example("day-or-month-midnight.csv", { ...SLOW, at: steady(40, 0.5) }, "local", MIDNIGHT, (c) =>
      join_([
        "Time,Load (lbf)",
        ...c.map(({ t, load }) => `${dmy(MIDNIGHT + t, "/")} ${clockOf(ofDay(MIDNIGHT + t), 1)},${load}`),
      ]),
    ),
    example("clock-over-midnight.csv", SLOW, "clock", ofDay(MIDNIGHT), (c) =>
      join_(["Time,Load (lbf)", ...c.map(({ t, load }) => `${clockOf(ofDay(MIDNIGHT + t))},${load}`)]),
    ),
    example("month-in-letters.csv", SLOW, "local", AMBIGUOUS, (c) =>
      join_([
        "Date,Time,Load (lbf)",
        ...c.map(({ t, load }) => `03-May-2024,${clockOf(ofDay(AMBIGUOUS + t), 1)},${load}`),
      ]),
    ),
    example("compact-stamps.csv", KN, "utc", START, (c) =>
      join_([
        "UTC;Load (kN)",
        ...c.map(
          ({ t, load }) =>
            `${iso(START + t, "")
              .replaceAll("-", "")
              .replaceAll(":", "")
              .slice(0, 17)};${load}`,
        ),
      ]),
    ),
    example("preamble-elapsed.csv", SLOW, "elapsed", 0, (c) =>
      join_([
        "Quayside logger, serial 0042",
        "Date: 2024-05-23",
        "Units: lbf",
        "Sample rate: 2 Hz",
        "",
        "Elapsed (s),Value",
        ...c.map(({ t, load }) => `${t.toFixed(1)},${load}`),
      ]),
    ),
    example("elapsed-ms.csv", KN, "elapsed", 0, (c) =>
      join_(["Time (ms),Load (kN)", ...c.map(({ t, load }) => `${Math.round(t * 1000)},${load}`)]),
    ),
    example("elapsed-clock.csv", KN, "elapsed", 0, (c) =>
      join_(["Elapsed time;Load (kN)", ...c.map(({ t, load }) => `${clockOf(t)};${load}`)]),
    ),
    example("spreadsheet-days.csv", KN, "local", START, (c) =>
      join_(["Date;Load (kN)", ...c.map(({ t, load }) => `${((START + t) / 86400 + 25569).toFixed(10)};${load}`)]),
    ),
    example("sample-numbers.csv", { unit: "kgf", digits: 2, at: steady(60, 0.1) }, "elapsed", 0.1, (c) =>
      join_(["Sample rate: 10 Hz", "Sample,Load (kg)", ...c.map(({ load, i }) => `${i + 1},${load}`)]),
    ),
    example(
      "readings-only.txt",
      { unit: "N", digits: 0, at: steady(40, 0.2) },
      "elapsed",
      0,
      (c) => join_(c.map(({ load }) => load)),
      { told: ["--rate", "5", "--map", "load=1:N"] },
    ),
    example("no-header.csv", KN, "elapsed", 0, (c) => join_(c.map(({ t, load }) => `${t.toFixed(1)},${load}`)), {
      told: ["--map", "load=2:kN"],
    }),
    example("utf16-tab.txt", KN, "elapsed", 0, (c) =>
      utf16(
        join_(["Time (s)\tLoad (kN)\tNotiz ‰", ...c.map(({ t, load }) => `${t.toFixed(1)}\t${load}\t`)], "\r\n"),
        true,
        true,
      ),
    ),
    example("utf16-big-end.txt", KN, "elapsed", 0, (c) =>
      utf16(join_(["Time (s),Load (kN)", ...c.map(({ t, load }) => `${t.toFixed(1)},${load}`)]), false, false),
    ),
    example("byte-order-mark.csv", KN, "elapsed", 0, (c) =>
      join_(["\ufeffTime (s),Load (kN)", ...c.map(({ t, load }) => `${t.toFixed(1)},${load}`)], "\r\n"),
    ),
    example("windows-1252.csv", { ...KN, unit: "daN", digits: 1 }, "elapsed", 0, (c) =>
      latin1(
        join_([
          "Zeit (s);Zugkraft (daN);Winkel (\u00b0)",
          ...c.map(({ t, load }) => `${comma(t.toFixed(1))};${comma(load)};${comma((t / 2).toFixed(1))}`),
        ]),
      ),
    ),
    example("bare-cr.csv", KN, "elapsed", 0, (c) =>
      join_(["Time (s),Load (kN)", ...c.map(({ t, load }) => `${t.toFixed(1)},${load}`)], "\r"),
    ),
    example("thousands.csv", { ...NEWTON, digits: 1 }, "elapsed", 0, (c) =>
      join_([
        "Time (s),Load (N)",
        ...c.map(({ t, load }) => `${t.toFixed(1)},"${Number(load) < 1000 ? load : `${load[0]},${load.slice(1)}`}"`),
      ]),
    ),
    example(
      "gaps.csv",
      { ...KN, at: [...steady(20, 0.5), ...steady(20, 0.5, 40), ...steady(10, 0.5, 120)] },
      "utc",
      START,
      (c) => join_(["Time,Load (kN)", ...c.map(({ t, load }) => `${iso(START + t)},${load}`)]),
    ),
    example(
      "restarts.csv",
      { ...KN, at: [...steady(20, 0.5), ...steady(20, 0.5), ...steady(10, 0.5)] },
      "elapsed",
      0,
      (c) =>
        join_(
          c.flatMap(({ t, load, i }) => [
            ...(i === 0 || i === 20 || i === 40 ? ["Time (s),Load (kN)"] : []),
            `${t.toFixed(1)},${load}`,
          ]),
        ),
    ),
    example("repeated-rows.csv", KN, "utc", START, (c) =>
      join_([
        "Time,Load (kN)",
        ...c.flatMap(({ t, load, i }) =>
          Array.from({ length: i % 10 === 3 ? 2 : 1 }, () => `${iso(START + t)},${load}`),
        ),
      ]),
    ),
    example("whole-seconds.csv", { ...KN, at: steady(60, 0.2).map(Math.floor) }, "utc", START, (c) =>
      join_(["Time,Load (kN)", ...c.map(({ t, load }) => `${iso(START + t).slice(0, 19)}Z,${load}`)]),
    ),
    example(
      "trailing-junk.csv",
      KN,
      "elapsed",
      0,
      (c) =>
        `${join_([
          "Time (s),Load (kN)",
          ...c.map(({ t, load }) => `${t.toFixed(1)},${load}`),
          "",
          "Max;2,5 kN",
          "End of test",
          "\u0000\u0000\u0000",
        ])}20.0`,
    ),
    example(
      "no-reading.csv",
      SLOW,
      "elapsed",
      0,
      (c) =>
        join_([
          "Time (s),Load (lbf)",
          ...c.map(({ t, load, i }) => `${t.toFixed(1)},${["OL", "---", "", "NaN"][i - 10] ?? load}`),
        ]),
      { keep: (i) => i < 10 || i > 13 },
    ),
    example(
      "two-cells-and-place.csv",
      KN,
      "utc",
      START,
      (c) =>
        join_([
          "Time (UTC),Load 1 (kN),Load 2 (kN),Angle (deg),Lat,Lon,SOG (kn)",
          ...c.map(({ t, load }) => `${iso(START + t, "")},${load},${load},7.5,12.345678,-45.678901,0.4`),
        ]),
      { told: ["--map", "load=2:kN"] },
    ),
    otherUnitBelow(),
  ];
}

/** A logger that was set to another unit in the middle. */
function otherUnitBelow(): ExampleLog {
  const at = steady(40, 0.5);
  const rows = at.map((t, i) => {
    const unit: Unit = i < 20 ? "kN" : "lbf";
    return { t, unit, load: written(t, { unit, digits: unit === "kN" ? 3 : 1 }) };
  });
  const lines = rows.map(({ t, load }) => `${t.toFixed(1)},${load}`);
  return {
    file: "other-unit-below.csv",
    bytes: new TextEncoder().encode(
      join_(["Time (s),Load (kN)", ...lines.slice(0, 20), "Time (s),Load (lbf)", ...lines.slice(20)]),
    ),
    times: at,
    loads: rows.map(({ unit, load }) => Number(load) * SIZE[unit]),
    clock: "elapsed",
  };
}

/** A cell that shows pounds-force and, past a limit, kilonewtons: the unit stands in a column of its own. */
function unitsChange(): ExampleLog {
  const at = steady(40, 0.5);
  const rows = at.map((t) => {
    const unit: Unit = loadAt(t) > 1000 ? "kN" : "lbf";
    return { t, unit, load: written(t, { unit, digits: unit === "kN" ? 3 : 1 }) };
  });
  return {
    file: "unit-changes.csv",
    bytes: new TextEncoder().encode(
      join_(["Elapsed (s);Reading;Unit", ...rows.map(({ t, unit, load }) => `${t.toFixed(1)};${load};${unit}`)]),
    ),
    times: at,
    loads: rows.map(({ unit, load }) => Number(load) * SIZE[unit]),
    clock: "elapsed",
  };
}

/** Writes a log of so many rows at 100 a second, noise and all, without holding it in memory. @returns bytes written */
export async function writeLargeLog(path: string, rows: number, seed: number): Promise<number> {
  const random = xoroshiro128plus(seed);
  const out = createWriteStream(path, { highWaterMark: 1 << 20 });
  let bytes = 0;
  let text = "Time,Load (lbf),Angle (deg)\n";
  for (let i = 0; i < rows; i++) {
    const t = i / 100;
    // Two 32-bit draws make a noise of some 3 lbf that nobody mistakes for the load.
    const noise = (random.next() + random.next()) / 2 ** 31;
    const ms = Math.round((START + t) * 1000);
    text += `${ms / 1000 === Math.floor(ms / 1000) ? `${ms / 1000}.00` : (ms / 1000).toFixed(2)},${(loadAt(t % 20) / SIZE.lbf + noise).toFixed(2)},${(7 + (i % 400) / 100).toFixed(1)}\n`;
    if (text.length > 1 << 19) {
      bytes += text.length;
      if (!out.write(text)) await new Promise<void>((done) => out.once("drain", () => done()));
      text = "";
    }
  }
  bytes += text.length;
  await new Promise<void>((done, fail) => out.on("error", fail).end(text, done));
  return bytes;
}

if (process.argv[1] !== undefined && import.meta.url === pathToFileURL(process.argv[1]).href) {
  const { values } = parseArgs({
    options: {
      examples: { type: "string" },
      rows: { type: "string" },
      out: { type: "string" },
      seed: { type: "string", default: "1" },
    },
  });
  if (values.examples !== undefined) {
    await mkdir(values.examples, { recursive: true });
    for (const { file, bytes } of exampleLogs()) await writeFile(join(values.examples, file), bytes);
  } else if (values.out !== undefined && Number(values.rows) > 0) {
    const bytes = await writeLargeLog(values.out, Number(values.rows), Number(values.seed));
    process.stdout.write(`${values.rows} rows, ${bytes} bytes\n`);
  } else {
    process.stderr.write("make-log: --examples FOLDER, or --rows N and --out FILE, is expected\n");
    process.exitCode = 2;
  }
}
