/** Small logs as generic loggers and spreadsheets write them, typed by hand, each with what is true of it. */
import type { LogCase } from "./judge.ts";

const at = (...moment: [number, number, number, number, number, number]) =>
  Date.UTC(moment[0], moment[1] - 1, moment[2], moment[3], moment[4], moment[5]) / 1000;
const NOON = at(2024, 5, 23, 12, 0, 0);
/** Loads at one a second from a moment on, in a unit of so many newtons. */
const each = (from: number, step: number, loads: readonly number[], unit = 1): [number, number][] =>
  loads.map((load, i) => [from + i * step, load * unit]);
const KN = 1000;
const LBF = 4.4482216152605;
const KGF = 9.80665;
const PULL = [0.12, 0.35, 1.08, 2.41, 2.4, 2.39, 0.2];
const lines = (...all: readonly string[]) => `${all.join("\n")}\n`;

/** Rows of the clock from 12:00:00 on, a second apart. */
const clock = (i: number) => `12:00:${String(i).padStart(2, "0")}`;
const rows = (row: (load: number, i: number) => string, loads: readonly number[] = PULL) => loads.map(row);

export const tables: readonly LogCase[] = [
  {
    name: "port, starboard and their total: asked, the total guessed",
    bytes: lines(
      "Time (s),Port (kN) load,Starboard load (kN),Total load (kN)".replace("Port (kN) load", "Port load (kN)"),
      ...rows((x, i) => `${i},${(x * 0.6).toFixed(3)},${(x * 0.4).toFixed(3)},${x.toFixed(3)}`),
    ),
    asks: /3 columns hold a load.*Total load.*sum of the others.*--map load=4:kN/,
    told: ["--map", "load=4:kN"],
    truth: { clock: "elapsed", load: each(0, 1, PULL, KN) },
  },
  {
    name: "two cells added up",
    bytes: lines(
      "Time (s);Cell A (N);Cell B (N)",
      ...rows((x, i) => `${i};${Math.round(x * 600)};${Math.round(x * 400)}`).map((r) => r),
      "",
    )
      .replaceAll("Cell A", "Force A")
      .replaceAll("Cell B", "Force B"),
    asks: /2 columns hold a load.*--loads sum/,
    told: ["--loads", "sum"],
    truth: { clock: "elapsed", load: each(0, 1, [120, 350, 1080, 2410, 2400, 2390, 200]) },
  },
  {
    name: "two cells kept each",
    bytes: lines("Time (s);Force A (N);Force B (N)", "0;10;20", "1;110;120", "2;210;220", "3;110;90"),
    asks: /2 columns hold a load/,
    told: ["--loads", "each"],
    truth: {
      clock: "elapsed",
      load: each(0, 1, [10, 110, 210, 110]),
      more: { "load-2": each(0, 1, [20, 120, 220, 90]) },
    },
  },
  {
    name: "a target beside the load is no load",
    bytes: lines("Time (s),Target load (kN),Load (kN)", ...rows((x, i) => `${i},2.500,${x.toFixed(3)}`)),
    truth: { clock: "elapsed", load: each(0, 1, PULL, KN) },
  },
  {
    name: "a setpoint in German is no load",
    bytes: lines("Zeit (s);Sollkraft (kN);Kraft (kN)", ...rows((x, i) => `${i};2,5;${String(x).replace(".", ",")}`)),
    truth: { clock: "elapsed", load: each(0, 1, PULL, KN) },
  },
  {
    name: "the same load in two units is one load",
    bytes: lines(
      "Time (s),Load (kN),Load (lbf)",
      ...rows((x, i) => `${i},${x.toFixed(3)},${((x * KN) / LBF).toFixed(1)}`),
    ),
    truth: { clock: "elapsed", load: each(0, 1, PULL, KN) },
  },
  {
    name: "a peak hold beside the load is no load",
    bytes: lines("Time (s),Peak (kN),Load (kN)", ...rows((x, i) => `${i},2.41,${x}`)),
    truth: { clock: "elapsed", load: each(0, 1, PULL, KN) },
  },
  {
    name: "a second header with another unit: read on in that unit, and told",
    bytes: lines(
      "Time (s),Load (lbf)",
      "0,100",
      "1,200",
      "2,300",
      "3,310",
      "Time (s),Load (kN)",
      "4,1.5",
      "5,1.6",
      "6,0.2",
    ),
    truth: { clock: "elapsed", load: [...each(0, 1, [100, 200, 300, 310], LBF), ...each(4, 1, [1.5, 1.6, 0.2], KN)] },
    says: [/1 header with another unit/],
  },
  {
    name: "a second header of other columns ends the reading, and is told",
    bytes: lines("Time (s),Load (kN)", "0,0.1", "1,1.2", "2,1.3", "3,0.2", "Time (s),Depth (m)", "0,5.1", "1,5.2"),
    truth: { clock: "elapsed", load: each(0, 1, [0.1, 1.2, 1.3, 0.2], KN) },
    says: [/ended at line 6: another header/],
  },
  {
    name: "the same header after a restart is passed over",
    bytes: lines("Time (s),Load (kN)", "0,0.1", "1,1.2", "2,1.3", "Time (s),Load (kN)", "0,0.2", "1,1.4"),
    truth: { clock: "elapsed", load: [...each(0, 1, [0.1, 1.2, 1.3], KN), ...each(0, 1, [0.2, 1.4], KN)] },
    says: [/header met again/, /restart/],
  },
  {
    name: "OL is past the range, and no peak",
    bytes: lines("Time (s),Load (kN)", "0,0.1", "1,4.8", "2,OL", "3,OL", "4,4.7", "5,0.2"),
    truth: {
      clock: "elapsed",
      load: [
        [0, 100],
        [1, 4800],
        [4, 4700],
        [5, 200],
      ],
    },
    says: [/2 cells past their range/, /highest load is not known/],
  },
  {
    name: "past the range as >50",
    bytes: lines("Time (s),Load (kN)", "0,0.1", "1,48.8", "2,>50", "3,49.1", "4,0.2"),
    truth: {
      clock: "elapsed",
      load: [
        [0, 100],
        [1, 48800],
        [3, 49100],
        [4, 200],
      ],
    },
    says: [/1 cell past its range/],
  },
  {
    name: "32767 stands for no reading",
    bytes: lines("Time (s),Load (N)", "0,120", "1,2400", "2,32767", "3,32767", "4,2390", "5,150"),
    truth: {
      clock: "elapsed",
      load: [
        [0, 120],
        [1, 2400],
        [4, 2390],
        [5, 150],
      ],
    },
    says: [/2 numbers that stand for no reading/],
  },
  {
    name: "-9999 stands for no reading, also at the start",
    bytes: lines("Time (s),Load (lbf)", "0,-9999", "1,-9999", "2,240.5", "3,812.0", "4,-9999", "5,15.0"),
    truth: {
      clock: "elapsed",
      load: [
        [2, 240.5 * LBF],
        [3, 812 * LBF],
        [5, 15 * LBF],
      ],
    },
    says: [/3 numbers that stand for no reading/],
  },
  {
    name: "99999.9 stands for no reading",
    bytes: lines("Time (s);Load (kg)", "0;12.5", "1;99999.9", "2;250.5", "3;260.5", "4;11.0"),
    truth: {
      clock: "elapsed",
      load: [
        [0, 12.5 * KGF],
        [2, 250.5 * KGF],
        [3, 260.5 * KGF],
        [4, 11 * KGF],
      ],
    },
    says: [/1 number that stands for no reading/],
  },
  {
    name: "a load that climbs through 32767 is a load",
    bytes: lines("Time (s),Load (N)", "0,30000", "1,31500", "2,32767", "3,33900", "4,32000"),
    truth: { clock: "elapsed", load: each(0, 1, [30000, 31500, 32767, 33900, 32000]) },
  },
  {
    name: "a glitch of three readings is kept and told",
    bytes: lines(
      "Time (s),Load (kN)",
      ...[0.1, 0.3, 0.5, 0.8, 1.0, 1.2, 1.3, 1.5, 1.6, 1.7, 1.8, 1.9, 31.2, 31.3, 30.9, 1.9, 2.0, 2.0].map(
        (x, i) => `${i},${x}`,
      ),
    ),
    truth: {
      clock: "elapsed",
      load: each(
        0,
        1,
        [0.1, 0.3, 0.5, 0.8, 1.0, 1.2, 1.3, 1.5, 1.6, 1.7, 1.8, 1.9, 31.2, 31.3, 30.9, 1.9, 2.0, 2.0],
        KN,
      ),
    },
    says: [/load jumps away and back.*1 place, first in line 14/],
  },
  {
    name: "a top cut off is told",
    bytes: lines(
      "Time (s),Load (kN)",
      ...[0.11, 0.52, 1.33, 2.94, 4.31, 5, 5, 5, 5, 5, 5, 5, 5, 4.71, 3.12, 1.03].map((x, i) => `${i},${x}`),
    ),
    truth: {
      clock: "elapsed",
      load: each(0, 1, [0.11, 0.52, 1.33, 2.94, 4.31, 5, 5, 5, 5, 5, 5, 5, 5, 4.71, 3.12, 1.03], KN),
    },
    says: [/stands at its highest.*8 readings on end/],
  },
  {
    name: "a footer of sums is no load",
    bytes: lines("Time (s),Load (kN)", "0,0.1", "1,1.2", "2,1.3", "3,0.2", "Max,1.3", "Mean,0.7", "End of record"),
    truth: { clock: "elapsed", load: each(0, 1, [0.1, 1.2, 1.3, 0.2], KN) },
    says: [/3 lines not read/],
  },
  {
    name: "a footer table of statistics is no load",
    bytes: lines(
      "Time (s),Load (kN),Status",
      "0,0.1,ok",
      "1,1.2,ok",
      "2,1.3,ok",
      "3,0.2,ok",
      "",
      "Channel,Minimum,Maximum",
      "1,0.1,1.3",
    ),
    truth: { clock: "elapsed", load: each(0, 1, [0.1, 1.2, 1.3, 0.2], KN) },
    says: [/ended at line 7/],
  },
  {
    name: "N and S of a latitude are no unit of the load",
    bytes: lines("Time,Load,Lat,N/S,Lon,E/W", ...rows((x, i) => `${clock(i)},${x},33.5001,S,70.2001,W`)),
    asks: /"Load" states no unit/,
    told: ["--map", "load=2:kN"],
    truth: {
      clock: "clock",
      load: each(43200, 1, PULL, KN),
      more: {
        latitude: each(
          43200,
          1,
          PULL.map(() => -33.5001),
        ),
        longitude: each(
          43200,
          1,
          PULL.map(() => -70.2001),
        ),
      },
    },
  },
  {
    name: "the wind's N is no unit of the load",
    bytes: lines("Time (s),Load,Wind", ...rows((x, i) => `${i},${x},N`)),
    asks: /"Load" states no unit/,
    told: ["--map", "load=2:kN"],
    truth: { clock: "elapsed", load: each(0, 1, PULL, KN) },
  },
  {
    name: "a mode T is no unit of the load",
    bytes: lines("Time (s),Load,Mode", ...rows((x, i) => `${i},${x},T`)),
    asks: /"Load" states no unit/,
    told: ["--map", "load=2:kN"],
    truth: { clock: "elapsed", load: each(0, 1, PULL, KN) },
  },
  {
    name: "a column of units is one",
    bytes: lines("Time (s),Load,Unit", ...rows((x, i) => `${i},${x},kN`)),
    truth: { clock: "elapsed", load: each(0, 1, PULL, KN) },
  },
  {
    name: "without titles a letter behind the number may be its unit or something else: asked",
    bytes: lines(...rows((x, i) => `${clock(i)},${(x * 1000).toFixed(0)},N`)),
    asks: /column 2 states no unit/,
    told: ["--map", "load=2:N"],
    truth: { clock: "clock", load: each(43200, 1, PULL, KN) },
  },
  {
    name: "south and west in columns of their own",
    bytes: lines(
      "Time (UTC),Latitude,N/S,Longitude,E/W,Load (kN)",
      ...rows((x, i) => `2024-05-23 ${clock(i)},41.123456,S,071.654321,W,${x}`),
    ),
    truth: {
      clock: "utc",
      load: each(NOON, 1, PULL, KN),
      more: {
        latitude: each(
          NOON,
          1,
          PULL.map(() => -41.123456),
        ),
        longitude: each(
          NOON,
          1,
          PULL.map(() => -71.654321),
        ),
      },
    },
  },
  {
    name: "west in the title",
    bytes: lines("Time (UTC),Lat (N),Lon (W),Load (kN)", ...rows((x, i) => `2024-05-23 ${clock(i)},41.5,71.25,${x}`)),
    truth: {
      clock: "utc",
      load: each(NOON, 1, PULL, KN),
      more: {
        latitude: each(
          NOON,
          1,
          PULL.map(() => 41.5),
        ),
        longitude: each(
          NOON,
          1,
          PULL.map(() => -71.25),
        ),
      },
    },
  },
  {
    name: "degrees and minutes with their marks",
    bytes: lines(
      "Time (UTC);Latitude;Longitude;Load (kN)",
      ...rows((x, i) => `2024-05-23 ${clock(i)};50°12.300'N;004°30.600'W;${x}`),
    ),
    truth: {
      clock: "utc",
      load: each(NOON, 1, PULL, KN),
      more: {
        latitude: each(
          NOON,
          1,
          PULL.map(() => 50.205),
        ),
        longitude: each(
          NOON,
          1,
          PULL.map(() => -4.51),
        ),
      },
    },
  },
  {
    name: "degrees and minutes in one number",
    bytes: lines(
      "Time (UTC),Latitude,NS,Longitude,EW,Load (kN)",
      ...rows((x, i) => `2024-05-23 ${clock(i)},5012.300,N,00430.600,W,${x}`),
    ),
    truth: {
      clock: "utc",
      load: each(NOON, 1, PULL, KN),
      more: {
        latitude: each(
          NOON,
          1,
          PULL.map(() => 50.205),
        ),
        longitude: each(
          NOON,
          1,
          PULL.map(() => -4.51),
        ),
      },
    },
  },
  {
    name: "degrees, minutes and seconds",
    bytes: lines(
      "Time (UTC),Lat,Lon,Load (kN)",
      ...rows((x, i) => `2024-05-23 ${clock(i)},S 33 30 36.0,E 018 15 18.0,${x}`),
    ),
    truth: {
      clock: "utc",
      load: each(NOON, 1, PULL, KN),
      more: {
        latitude: each(
          NOON,
          1,
          PULL.map(() => -33.51),
        ),
        longitude: each(
          NOON,
          1,
          PULL.map(() => 18.255),
        ),
      },
    },
  },
  {
    name: "0, 0 is no place",
    bytes: lines(
      "Time (UTC),Lat,Lon,Load (kN)",
      "2024-05-23 12:00:00,0.0,0.0,0.1",
      "2024-05-23 12:00:01,41.5,-71.2,1.2",
      "2024-05-23 12:00:02,41.5,-71.2,0.3",
    ),
    truth: {
      clock: "utc",
      load: each(NOON, 1, [0.1, 1.2, 0.3], KN),
      more: { latitude: each(NOON + 1, 1, [41.5, 41.5]) },
    },
    says: [/stands? for no reading/],
  },
  {
    name: "a zone in the title of the time",
    bytes: lines(
      '"#","Date Time, GMT-07:00","Load, kN (LGR S/N: 123, SEN S/N: 456)"',
      ...rows((x, i) => `${i + 1},05/23/24 05:00:0${i},${x}`),
    ),
    truth: { clock: "utc", load: each(NOON, 1, PULL, KN) },
  },
  {
    name: "a zone in brackets",
    bytes: lines("Time (UTC+02:00),Load (kN)", ...rows((x, i) => `2024-05-23 14:00:0${i},${x}`)),
    truth: { clock: "utc", load: each(NOON, 1, PULL, KN) },
  },
  {
    name: "a zone above the table",
    bytes: lines("# Time zone: UTC+1", "Time,Load (kN)", ...rows((x, i) => `2024-05-23 13:00:0${i},${x}`)),
    truth: { clock: "utc", load: each(NOON, 1, PULL, KN) },
  },
  {
    name: "an export's moment in UTC above the table says nothing of its clock",
    bytes: lines("Exported 2024-05-24 08:00 UTC", "Time,Load (kN)", ...rows((x, i) => `2024-05-23 12:00:0${i},${x}`)),
    truth: { clock: "local", load: each(NOON, 1, PULL, KN) },
  },
  {
    name: "CEST behind each stamp",
    bytes: lines("Time,Load (kN)", ...rows((x, i) => `2024-05-23 14:00:0${i} CEST,${x}`)),
    truth: { clock: "utc", load: each(NOON, 1, PULL, KN) },
  },
  {
    name: "EDT behind each stamp, months in letters",
    bytes: lines(
      "Time,Load (lbf)",
      ...rows((x, i) => `May 23, 2024 08:00:0${i} EDT;`.replace(";", `,${x}`)).map(
        (r) => `"${r.slice(0, r.lastIndexOf(","))}"${r.slice(r.lastIndexOf(","))}`,
      ),
    ),
    truth: { clock: "utc", load: each(NOON, 1, PULL, LBF) },
  },
  {
    name: "CST is the name of several zones",
    bytes: lines("Time,Load (kN)", ...rows((x, i) => `2024-05-23 06:00:0${i} CST,${x}`)),
    asks: /CST.*several zones.*--zone/,
    told: ["--zone", "-06:00"],
    truth: { clock: "utc", load: each(NOON, 1, PULL, KN) },
  },
  {
    name: "points between thousands in a German file",
    bytes: lines("Zeit;Kraft (N)", "12:00:00;1.122", "12:00:01;1.350", "12:00:02;2.410", "12:00:03;2.395"),
    asks: /point before three digits may mark thousands or decimals.*--decimal/,
    told: ["--decimal", "comma"],
    truth: { clock: "clock", load: each(43200, 1, [1122, 1350, 2410, 2395]) },
  },
  {
    name: "points between thousands beside whole hundreds",
    bytes: lines("Time (s),Load (N)", "0,122", "1,987", "2,1.350", "3,2.410", "4,850"),
    asks: /speaks for thousands/,
    told: ["--decimal", "comma"],
    truth: { clock: "elapsed", load: each(0, 1, [122, 987, 1350, 2410, 850]) },
  },
  {
    name: "thousands that come late in a file of whole numbers end the reading",
    bytes: lines(
      "Time (s);Load (N)",
      ...Array.from({ length: 600 }, (_, i) => `${i};${100 + (i % 50)}`),
      "600;1.122",
      "601;1.300",
    ),
    truth: { clock: "elapsed", load: Array.from({ length: 600 }, (_, i): [number, number] => [i, 100 + (i % 50)]) },
    says: [/ended at line 602: .*1\.122.*--decimal/],
  },
  {
    name: "decimal commas and points between thousands",
    bytes: lines("Zeit (s);Kraft (N)", "0;12,5", "1;987,0", "2;1.122,5", "3;2.410,0"),
    truth: { clock: "elapsed", load: each(0, 1, [12.5, 987, 1122.5, 2410]) },
  },
  {
    name: "no-break blanks between thousands",
    bytes: lines("Temps (s);Effort (N)", "0;12,5", "1;987,0", "2;1\u00a0122,5", "3;2\u202f410,0"),
    truth: { clock: "elapsed", load: each(0, 1, [12.5, 987, 1122.5, 2410]) },
  },
  {
    name: "no-break blanks in windows-1252",
    bytes: Uint8Array.from(
      lines(
        "Temps (s);Effort (N);Température (°C)",
        "0;12,5;20",
        "1;987,0;20",
        "2;1\u00a0122,5;20",
        "3;2\u00a0410,0;20",
      ),
      (c) => c.charCodeAt(0),
    ),
    truth: { clock: "elapsed", load: each(0, 1, [12.5, 987, 1122.5, 2410]) },
  },
  {
    name: "apostrophes between thousands, and a printer's minus",
    bytes: lines("Zeit (s);Kraft (N)", "0;−12.5", "1;987.0", "2;1’122.5", "3;2'410.0"),
    truth: { clock: "elapsed", load: each(0, 1, [-12.5, 987, 1122.5, 2410]) },
  },
  {
    name: "a number without a unit, with decimals, is taken as seconds aloud",
    bytes: lines("Time,Load (kN)", ...rows((x, i) => `${(i * 0.1).toFixed(1)},${x}`)),
    truth: { clock: "elapsed", load: each(0, 0.1, PULL, KN) },
    says: [/a number without a unit is taken as seconds/],
  },
  {
    name: "whole numbers that go on by a hundred are asked",
    bytes: lines("Time,Load (kN)", ...rows((x, i) => `${i * 100},${x}`)),
    asks: /without a unit may be a time in several units.*milliseconds.*--map time=1:elapsed-ms/,
    told: ["--map", "time=1:elapsed-ms"],
    truth: { clock: "elapsed", load: each(0, 0.1, PULL, KN) },
  },
  {
    name: "whole numbers that go on by one are asked",
    bytes: lines("Time,Load (kN)", ...rows((x, i) => `${i},${x}`)),
    asks: /without a unit/,
    told: ["--map", "time=1:elapsed-s"],
    truth: { clock: "elapsed", load: each(0, 1, PULL, KN) },
  },
  {
    name: "00:00 to 00:06 may be minutes and seconds or hours and minutes",
    bytes: lines("Time,Load (kN)", ...rows((x, i) => `00:0${i},${x}`)),
    asks: /minutes and seconds.*--map time=1:elapsed-clock or --map time=1:clock/,
    told: ["--map", "time=1:elapsed-clock"],
    truth: { clock: "elapsed", load: each(0, 1, PULL, KN) },
  },
  {
    name: "mm:ss in the title",
    bytes: lines("Time (mm:ss),Load (kN)", ...rows((x, i) => `01:0${i},${x}`)),
    truth: { clock: "elapsed", load: each(60, 1, PULL, KN) },
  },
  {
    name: "minutes and seconds with tenths are no time of day",
    bytes: lines("Time,Load (kN)", ...rows((x, i) => `01:0${i}.5,${x}`)),
    truth: { clock: "elapsed", load: each(60.5, 1, PULL, KN) },
  },
  {
    name: "30000.000 is no spreadsheet's day",
    bytes: lines("Time,Load (kN)", ...rows((x, i) => `${(30000 + i * 0.1).toFixed(3)},${x}`)),
    truth: { clock: "elapsed", load: each(30000, 0.1, PULL, KN) },
    says: [/without a unit/],
  },
  {
    name: "45000.5 may be a spreadsheet's day",
    bytes: lines("Time,Load (kN)", ...rows((x, i) => `${(45000 + i * 0.1).toFixed(1)},${x}`)),
    asks: /spreadsheet's day number or seconds/,
    told: ["--map", "time=1:elapsed-s"],
    truth: { clock: "elapsed", load: each(45000, 0.1, PULL, KN) },
  },
  {
    name: "a spreadsheet's days",
    bytes: lines("Date;Load (kN)", ...rows((x, i) => `${((NOON + i) / 86400 + 25569).toFixed(8)};${x}`)),
    truth: { clock: "local", load: each(NOON, 1, PULL, KN) },
  },
  {
    name: "a column of notes makes no marks of a log",
    bytes: lines("Time,Load (kN),Note", ...rows((x, i) => `${clock(i)},${x},${i === 3 ? "anchor set" : ""}`)),
    truth: { clock: "clock", load: each(43200, 1, PULL, KN) },
  },
  {
    name: "a column of events makes no marks of a log",
    bytes: lines("Time;Event;Load (lbf)", ...rows((x, i) => `${clock(i)};${i === 2 ? "astern" : ""};${x}`)),
    truth: { clock: "clock", load: each(43200, 1, PULL, LBF) },
  },
  {
    name: "comment lines with colons above the table",
    bytes: lines(
      "# Operator: A",
      "# Start: 12:00:00",
      "# Note: wind 12:15 kn",
      "Time (s),Load (kN)",
      ...rows((x, i) => `${i},${x}`),
    ),
    truth: { clock: "elapsed", load: each(0, 1, PULL, KN) },
  },
  {
    name: "comment lines among the rows are told, and are no trouble",
    bytes: lines("Time (s),Load (kN)", "0,0.1", "1,1.2", "# 12:03: throttle up", "2,1.3", "# note: slack", "3,0.2"),
    truth: { clock: "elapsed", load: each(0, 1, [0.1, 1.2, 1.3, 0.2], KN) },
    says: [/2 lines of remarks/],
  },
  {
    name: "title rows above the header",
    bytes: lines(
      "Pull 3 at the quay,,",
      "23 May 2024,,",
      ",,",
      "Time (s),Load (kN),Angle (deg)",
      ...rows((x, i) => `${i},${x},5.0`),
    ),
    truth: { clock: "elapsed", load: each(0, 1, PULL, KN) },
  },
  {
    name: "a block of a header with its end marked, units by channel",
    bytes: lines(
      "Writer_Version\t2",
      "Separator\tTab",
      "Decimal_Separator\t.",
      "Multi_Headings\tNo",
      "X_Columns\tOne",
      "Time_Pref\tRelative",
      "Date\t2024/05/23",
      "Time\t12:00:00.0000000",
      "***End_of_Header***\t",
      "",
      "Channels\t1\t\t",
      "Samples\t7\t\t",
      "Date\t2024/05/23\t\t",
      "Time\t12:00:00.0000000\t\t",
      "Y_Unit_Label\tkN\t\t",
      "X_Dimension\tTime\t\t",
      "X0\t0.0000000000000000E+0\t\t",
      "Delta_X\t0.100000\t\t",
      "***End_of_Header***\t\t\t",
      "X_Value\tForce\tComment\t",
      ...rows((x, i) => `${(i * 0.1).toFixed(6)}\t${x.toFixed(6)}\t\t`),
    ),
    truth: { clock: "elapsed", load: each(0, 0.1, PULL, KN) },
  },
  {
    name: "two units stated for one load",
    bytes: lines("Units: lbf", "Time (s),Load (kN)", ...rows((x, i) => `${i},${x}`)),
    asks: /says kN and "Units: lbf" above it lbf/,
    told: ["--map", "load=2:kN"],
    truth: { clock: "elapsed", load: each(0, 1, PULL, KN) },
  },
  {
    name: "a load in kilograms is told to be a weight",
    bytes: lines("Time (s),Load (kg)", ...rows((x, i) => `${i},${x}`)),
    truth: { clock: "elapsed", load: each(0, 1, PULL, KGF) },
    says: [/weight of those kilograms/],
  },
  {
    name: "an angle without a unit is told to be taken as degrees",
    bytes: lines("Time (s),Load (kN),Angle", ...rows((x, i) => `${i},${x},${i}`)),
    truth: {
      clock: "elapsed",
      load: each(0, 1, PULL, KN),
      more: {
        angle: each(
          0,
          1,
          PULL.map((_, i) => (i * Math.PI) / 180),
        ),
      },
    },
    says: [/Angle: no unit stated/],
  },
];

/** Files that are no text, or no log. */
export const refusals: readonly LogCase[] = [
  { name: "a workbook", bytes: Uint8Array.from([0x50, 0x4b, 3, 4, 20, 0, 6, 0, 8, 0]), refused: /zip archive/ },
  {
    name: "an old spreadsheet",
    bytes: Uint8Array.from([0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1]),
    refused: /save the sheet as CSV/,
  },
  {
    name: "a binary measurement file",
    bytes: new TextEncoder().encode("TDSm\u000e\u0000\u0000\u0000"),
    refused: /export it as CSV/,
  },
  { name: "a document", bytes: new TextEncoder().encode("%PDF-1.7 ..."), refused: /PDF/ },
  { name: "a letter", bytes: "Dear all,\nthe pull went well.\n", refused: /no rows of numbers/ },
  { name: "nothing", bytes: "", refused: /no lines of text/ },
];
