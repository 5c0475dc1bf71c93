/**
 * Tables composed by chance from ways of writing that loggers and spreadsheets have, each with what is true of it and
 * what of it is open. Knows nothing of the reader.
 */
import { Chance, pullOf, two } from "./dice.ts";
import type { Truth } from "./judge.ts";

export interface Composed {
  readonly name: string;
  readonly bytes: Uint8Array;
  /** Must be asked: one of these words. */
  readonly must: readonly RegExp[];
  /** May be asked as well. */
  readonly may: readonly RegExp[];
  readonly told: readonly string[];
  readonly truth: Truth;
  readonly says: readonly RegExp[];
  /** Must be refused, in such words. */
  readonly refused?: RegExp;
}

/** Newtons of a unit, exact by definition, and how it is spelled. */
const UNITS = [
  { size: 1, spell: ["N", "Newton"], digits: [0, 1] },
  { size: 1000, spell: ["kN"], digits: [2, 3] },
  { size: 4.4482216152605, spell: ["lbf", "lbs", "lb"], digits: [0, 1] },
  { size: 9.80665, spell: ["kg", "kgf"], digits: [1, 2] },
  { size: 10, spell: ["daN"], digits: [1] },
] as const;
const NAMES = ["Load", "Force", "Tension", "Pull", "Load cell", "Kraft", "Zugkraft", "Fuerza", "Effort", "Carico"];
const CONTINENTAL = /Kraft|Zugkraft|Fuerza|Effort|Carico/;

interface TimeStyle {
  readonly name: string;
  readonly titles: readonly string[];
  readonly clock: Truth["clock"];
  /** Cells of the time (one or two columns) at t seconds behind the start, and the time that is true. */
  write(start: number, t: number, i: number, decimal: string): readonly string[];
  truth(start: number, t: number, i: number): number;
  readonly wholeSeconds?: true;
  readonly must?: RegExp;
  readonly may?: RegExp;
  readonly told?: readonly string[];
  readonly step?: number;
}

const iso = (s: number) => new Date(Math.round(s * 1000)).toISOString();
const parts = (s: number) => {
  const d = new Date(Math.round(s * 1000));
  return {
    y: d.getUTCFullYear(),
    m: d.getUTCMonth() + 1,
    d: d.getUTCDate(),
    h: d.getUTCHours(),
    min: d.getUTCMinutes(),
    s: d.getUTCSeconds(),
    ms: d.getUTCMilliseconds(),
  };
};
const clockText = (s: number, mark = ".") => {
  const p = parts(s);
  return `${two(p.h)}:${two(p.min)}:${two(p.s)}${mark}${String(p.ms).padStart(3, "0").slice(0, 1)}`;
};
const ofDay = (s: number) => s - Math.floor(s / 86400) * 86400;
const same = (start: number, t: number) => start + t;
const since = (_: number, t: number) => t;

export const TIMES: readonly TimeStyle[] = [
  { name: "iso Z", titles: ["Time"], clock: "utc", write: (s, t) => [iso(s + t)], truth: same },
  {
    name: "iso without zone",
    titles: ["Timestamp"],
    clock: "local",
    write: (s, t) => [
      iso(s + t)
        .slice(0, 23)
        .replace("T", " "),
    ],
    truth: same,
  },
  {
    name: "iso with offset",
    titles: ["timestamp"],
    clock: "utc",
    write: (s, t) => [`${iso(s + t + 7200).slice(0, 23)}+02:00`],
    truth: same,
  },
  {
    name: "zone in the title",
    titles: ["Date Time (GMT-07:00)"],
    clock: "utc",
    write: (s, t) => [
      iso(s + t - 25200)
        .slice(0, 19)
        .replace("T", " "),
    ],
    truth: same,
    wholeSeconds: true,
  },
  {
    name: "named zone",
    titles: ["Time"],
    clock: "utc",
    write: (s, t) => [
      `${iso(s + t + 7200)
        .slice(0, 19)
        .replace("T", " ")} CEST`,
    ],
    truth: same,
    wholeSeconds: true,
  },
  {
    name: "day first with points",
    titles: ["Datum"],
    clock: "local",
    write: (s, t) => {
      const p = parts(s + t);
      return [`${two(p.d)}.${two(p.m)}.${p.y} ${clockText(s + t)}`];
    },
    truth: same,
  },
  {
    name: "month first, am and pm",
    titles: ["Date/Time"],
    clock: "local",
    wholeSeconds: true,
    write: (s, t) => {
      const p = parts(s + t);
      return [`${p.m}/${p.d}/${p.y} ${p.h % 12 || 12}:${two(p.min)}:${two(p.s)} ${p.h < 12 ? "AM" : "PM"}`];
    },
    truth: same,
    may: /day or the month/,
    told: ["--map", "time=1:mdy"],
  },
  {
    name: "date and clock apart",
    titles: ["Date", "Time"],
    clock: "local",
    write: (s, t) => [iso(s + t).slice(0, 10), clockText(s + t)],
    truth: same,
  },
  {
    name: "compact",
    titles: ["Time"],
    clock: "local",
    wholeSeconds: true,
    write: (s, t) => [
      iso(s + t)
        .slice(0, 19)
        .replace(/[-:]/g, ""),
    ],
    truth: same,
  },
  {
    name: "seconds since 1970",
    titles: ["epoch"],
    clock: "utc",
    write: (s, t, _, d) => [(s + t).toFixed(2).replace(".", d)],
    truth: same,
  },
  {
    name: "milliseconds since 1970",
    titles: ["timestamp"],
    clock: "utc",
    write: (s, t) => [String(Math.round((s + t) * 1000))],
    truth: same,
  },
  {
    name: "spreadsheet days",
    titles: ["Date"],
    clock: "local",
    write: (s, t, _, d) => [((s + t) / 86400 + 25569).toFixed(8).replace(".", d)],
    truth: same,
  },
  {
    name: "clock of a day",
    titles: ["Time"],
    clock: "clock",
    write: (s, t) => [clockText(s + t)],
    truth: (s, t) => ofDay(s) + t,
  },
  {
    name: "seconds",
    titles: ["Time (s)"],
    clock: "elapsed",
    write: (_, t, __, d) => [t.toFixed(1).replace(".", d)],
    truth: since,
  },
  {
    name: "seconds, unit by underline",
    titles: ["elapsed_s"],
    clock: "elapsed",
    write: (_, t, __, d) => [t.toFixed(2).replace(".", d)],
    truth: since,
  },
  {
    name: "milliseconds",
    titles: ["Time [ms]"],
    clock: "elapsed",
    write: (_, t) => [String(Math.round(t * 1000))],
    truth: since,
  },
  {
    name: "minutes",
    titles: ["Time (min)"],
    clock: "elapsed",
    write: (_, t, __, d) => [(t / 60).toFixed(6).replace(".", d)],
    truth: since,
  },
  {
    name: "no unit, decimals",
    titles: ["Time"],
    clock: "elapsed",
    write: (_, t, __, d) => [t.toFixed(1).replace(".", d)],
    truth: since,
    may: /without a unit/,
    told: ["--map", "time=1:elapsed-s"],
  },
  {
    name: "no unit, whole hundreds",
    titles: ["Time"],
    clock: "elapsed",
    step: 0.5,
    write: (_, t) => [String(Math.round(t * 1000))],
    truth: since,
    must: /without a unit/,
    told: ["--map", "time=1:elapsed-ms"],
  },
  {
    name: "no unit, whole seconds",
    titles: ["t"],
    clock: "elapsed",
    step: 1,
    write: (_, t) => [String(t)],
    truth: since,
    must: /without a unit/,
    told: ["--map", "time=1:elapsed-s"],
  },
  {
    name: "minutes and seconds",
    titles: ["Time"],
    clock: "elapsed",
    step: 1,
    write: (_, t) => [`${two(Math.floor(t / 60))}:${two(t % 60)}`],
    truth: since,
    must: /minutes and seconds/,
    told: ["--map", "time=1:elapsed-clock"],
  },
  {
    name: "elapsed clock",
    titles: ["Elapsed time"],
    clock: "elapsed",
    step: 1,
    write: (_, t) => [`00:${two(Math.floor(t / 60))}:${two(t % 60)}`],
    truth: since,
  },
];

/** A column beside time and load that is no load. */
const BESIDES: readonly { title: string; cell: (dice: Chance, newtons: number, decimal: string) => string }[] = [
  { title: "Battery (%)", cell: () => "87" },
  { title: "Temp (C)", cell: (dice, _, d) => (18 + dice.next()).toFixed(1).replace(".", d) },
  { title: "Status", cell: () => "OK" },
  { title: "Mode", cell: () => "T" },
  { title: "Wind", cell: () => "N" },
  { title: "Target load (kN)", cell: (_, __, d) => "5.0".replace(".", d) },
  { title: "Max (N)", cell: () => "12000" },
  { title: "Note", cell: (dice) => (dice.chance(0.05) ? "slack now" : "") },
  { title: "Event", cell: (dice) => (dice.chance(0.05) ? "astern" : "") },
  { title: "RSSI", cell: () => "-61" },
];

const FOOTERS = ["Max", "End of record", "Average"];

/** Composes the table of a seed. */
export function composeTable(seed: number): Composed {
  const dice = new Chance(seed);
  const rows = 30 + dice.below(40);
  const style = dice.pick(TIMES);
  const step = style.step ?? dice.pick(style.wholeSeconds ? [1, 2] : [0.1, 0.5, 1]);
  const start = Date.UTC(2023, dice.below(12), 1 + dice.below(28), 8 + dice.below(9), dice.below(59), 5) / 1000;
  const unit = dice.pick(UNITS);
  const spelled = dice.pick(unit.spell);
  const delimiter = dice.pick([",", ";", "\t", "|"]);
  const decimal = delimiter !== "," && dice.chance(0.4) ? "," : ".";
  const digits = dice.pick(unit.digits);
  const grouping =
    unit.size < 1000 && dice.chance(0.2)
      ? dice.pick(decimal === "," ? [".", "\u00a0", "\u202f"] : ["'", "\u00a0", "’"])
      : "";
  const { newtons, loaded } = pullOf(dice, rows);
  const number = (value: number, places = digits) => {
    const [whole, part] = Math.abs(value).toFixed(places).split(".");
    const grouped = grouping === "" ? whole! : whole!.replace(/\B(?=(\d{3})+$)/g, grouping);
    return `${value < 0 ? "-" : ""}${grouped}${part === undefined ? "" : decimal + part}`;
  };
  const loads = newtons.map((load) => Number((load / unit.size).toFixed(digits)));
  const name = dice.pick(NAMES);
  const must: RegExp[] = [];
  const may: RegExp[] = [];
  const told: string[] = [];
  const says: RegExp[] = [];
  const unitAt = dice.pick(["title", "title", "title", "row", "column", "cell", "above", "nowhere"] as const);
  const title =
    unitAt === "title"
      ? dice.pick(
          [
            `${name} (${spelled})`,
            `${name} [${spelled}]`,
            `${name}, ${spelled}`,
            `${name}_${spelled}`,
            `${name} ${spelled}`,
          ].filter((text) => !text.includes(delimiter)),
        )
      : name;
  const besides = [0, 1, 2]
    .filter(() => dice.chance(0.45))
    .map(() => dice.pick(BESIDES))
    .filter((one, i, all) => all.indexOf(one) === i);
  const secondLoad = unitAt === "title" && dice.chance(0.12);
  const titles = [
    ...style.titles,
    title,
    ...(unitAt === "column" ? ["Unit"] : []),
    ...(secondLoad ? [`${name} 2 (${spelled})`] : []),
    ...besides.map((one) => one.title),
  ];
  const loadColumn = style.titles.length + 1;
  const cellOf = (i: number) => (unitAt === "cell" ? `${number(loads[i]!)} ${spelled}` : number(loads[i]!));
  const row = (i: number, load = cellOf(i)) =>
    [
      ...style.write(start, at(i), i, decimal),
      load,
      ...(unitAt === "column" ? [spelled] : []),
      ...(secondLoad ? [number(loads[i]! * 0.3)] : []),
      ...besides.map((one) => one.cell(dice, newtons[i]!, decimal)),
    ].join(delimiter);
  const at = (i: number) => Math.round(i * step * 1000) / 1000;
  const out: string[] = [];
  if (dice.chance(0.3)) out.push(dice.pick(["Quay logger 0042", "# Operator: A", "Pull 3, second of the day"]));
  if (dice.chance(0.2)) out.push(dice.pick(["# Note: wind 12:15, gusty", "Site: the north quay", ""]));
  if (unitAt === "above") out.push(`Units: ${spelled}`);
  out.push(titles.join(delimiter));
  if (unitAt === "row")
    out.push(
      titles
        .map((_, i) => (i === loadColumn - 1 ? spelled : i < style.titles.length ? unitOfTime(style) : "-"))
        .join(delimiter),
    );
  const truth: [number, number][] = [];
  const odd = dice.pick([
    "none",
    "none",
    "OL",
    "missing",
    "standIn",
    "footer",
    "comment",
    "headerAgain",
    "otherUnit",
    "blank",
    "cut",
  ] as const);
  const where = 8 + dice.below(rows - 16);
  let factor = unit.size;
  for (let i = 0; i < rows; i++) {
    if (odd === "comment" && i === where) out.push("# 12:03: throttle up");
    if (odd === "headerAgain" && i === where) out.push(titles.join(delimiter));
    if (odd === "blank" && i === where) out.push("", "");
    if (odd === "otherUnit" && i === where && unitAt === "title" && spelled !== "kN" && title.includes("(")) {
      out.push(
        titles
          .map((text, k) =>
            k === loadColumn - 1 || text === `${name} 2 (${spelled})` ? text.replace(`(${spelled})`, "(kN)") : text,
          )
          .join(delimiter),
      );
      factor = 1000;
      says.push(/header with another unit/);
    }
    if (odd === "OL" && (i === where || i === where + 1)) {
      out.push(row(i, dice.pick(["OL", "OL", "OVER"])));
      if (i === where) says.push(/past (its|their) range/);
    } else if (odd === "missing" && i === where) out.push(row(i, dice.pick(["", "NaN", "---", "#N/A"])));
    else if (odd === "standIn" && i === where && unitAt !== "cell") {
      out.push(row(i, dice.pick(["32767", "-9999", "99999"])));
      says.push(/stands? for no reading/);
    } else {
      out.push(row(i));
      truth.push([style.truth(start, at(i), i), loads[i]! * factor]);
    }
  }
  if (odd === "footer") {
    out.push([dice.pick(FOOTERS), number(Math.max(...loads))].join(delimiter));
    says.push(/not read/);
  }
  let text = out.join(dice.pick(["\n", "\r\n"])) + (odd === "cut" ? "" : "\n");
  if (odd === "headerAgain") says.push(/header met again/);
  if (odd === "comment") says.push(/line of remarks|lines of remarks/);
  if (style.must) must.push(style.must);
  if (style.may) may.push(style.may);
  if (style.told) told.push(...style.told);
  const loadMap = ["--map", `load=${loadColumn}:${spelled}`];
  if (unitAt === "nowhere") {
    must.push(/states no unit/);
    told.push(...loadMap);
  } else if (secondLoad) {
    must.push(/2 columns hold a load/);
    told.push(...loadMap);
  }
  // Nothing but numbers such as 1.122, or points between thousands: open where no other number shows the marks.
  if (loaded || grouping === "." || grouping === ",") {
    may.push(/mark thousands or decimals|both .* occur/);
    told.push("--decimal", decimal === "," ? "comma" : "point");
  }
  if (CONTINENTAL.test(name) || delimiter === ";") may.push(/mark thousands or decimals/);
  let bytes = new TextEncoder().encode(text);
  const coded = dice.pick(["utf-8", "utf-8", "mark", "utf-16", "1252"] as const);
  if (coded === "mark") bytes = new TextEncoder().encode(`\ufeff${text}`);
  // biome-ignore lint/suspicious/noControlCharactersInRegex: the range of Latin-1
  else if (coded === "1252" && /^[\u0000-\u00ff]*$/.test(text)) bytes = Uint8Array.from(text, (c) => c.charCodeAt(0));
  else if (coded === "utf-16") {
    text = `\ufeff${text.replace(/[\u202f’]/g, "\u00a0")}`;
    bytes = new Uint8Array(text.length * 2);
    for (let i = 0; i < text.length; i++) new DataView(bytes.buffer).setUint16(2 * i, text.charCodeAt(i), true);
  }
  return {
    name: `table ${seed}: ${style.name}, unit ${unitAt}, ${JSON.stringify(delimiter)} ${decimal} ${JSON.stringify(grouping)}, ${odd}, ${coded}`,
    bytes,
    must,
    may,
    told,
    truth: { clock: style.clock, load: truth },
    says,
  };
}

const unitOfTime = (style: TimeStyle): string =>
  /ms/.test(style.titles[0]!) ? "ms" : /\(s\)|_s/.test(style.titles[0]!) ? "s" : "-";
