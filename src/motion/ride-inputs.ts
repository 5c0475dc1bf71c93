/** What a ride is asked, as text states it: winds, their changes, gusts, and what is more than anybody would wait for. */
import { formatQuantity, InputError, parseQuantity, quoted } from "../quantity/index.ts";
import type { Rig } from "../rode/index.ts";
import type { Boat, WindSpectrum } from "../sea/index.ts";
import type { WindTurn } from "./wind-in-time.ts";

const spectra = {
  froya: (wind: number): WindSpectrum => ({ kind: "froya", wind, height: 10 }),
  "ochi-shin": (wind: number): WindSpectrum => ({ kind: "ochi-shin", wind }),
  "kaimal-a": (wind: number): WindSpectrum => ({ kind: "kaimal", wind, height: 10, turbulence: "A" }),
  "kaimal-b": (wind: number): WindSpectrum => ({ kind: "kaimal", wind, height: 10, turbulence: "B" }),
  "kaimal-c": (wind: number): WindSpectrum => ({ kind: "kaimal", wind, height: 10, turbulence: "C" }),
} as const;

/** Names of the published spectra of gusts, and `none`. */
export type GustsName = keyof typeof spectra | "none";
/** The gusts a ride may be asked for, by name. */
export const GUSTS: readonly GustsName[] = [...(Object.keys(spectra) as (keyof typeof spectra)[]), "none"];

/** The spectrum of the gusts about a mean wind, m/s; null: steady. */
export function gustSpectrum(name: GustsName, wind: number): WindSpectrum | null {
  return name === "none" ? null : spectra[name](wind);
}

/** Beyond it no mean wind was seen at sea level but in the eye-walls of the strongest storms, m/s. */
const STRONGEST = 60;
const FASTEST_CURRENT = 5;

/** A mean wind. @throws InputError for none, and for one beyond reason */
export function readMeanWind(text: string | number, place: string): number {
  const speed = above(text, "speed", place);
  if (speed > STRONGEST)
    throw new InputError(
      place,
      quoted(text),
      `a mean wind of at most ${formatQuantity(STRONGEST, "speed", { system: "metric" })} is expected`,
    );
  return speed;
}

/** A change of the mean wind: time, speed and angle, such as "20 min, 35 kn, 40 deg". */
export function readWindShift(text: string, place: string): WindTurn {
  const parts = text.split(",").map((part) => part.trim());
  if (parts.length !== 3)
    throw new InputError(
      place,
      quoted(text),
      'a time, a speed and an angle are expected, such as "20 min, 35 kn, 40 deg"',
    );
  return {
    time: above(parts[0]!, "time", place),
    speed: readMeanWind(parts[1]!, place),
    toward: parseQuantity(parts[2]!, "angle", place),
  };
}

/** The changes of a wind one after another; each must come after the one before. */
export function readWindShifts(texts: readonly string[], placeOf: (i: number) => string): WindTurn[] {
  const turns = texts.map((text, i) => readWindShift(text, placeOf(i)));
  turns.forEach((turn, i) => {
    if (i > 0 && turn.time <= turns[i - 1]!.time)
      throw new InputError(placeOf(i), quoted(texts[i]!), "a time after that of the shift before is expected");
  });
  return turns;
}

/** Rows of a measured wind a ride takes: a day at ten a second. */
const MOST_ROWS = 864_000;
/** Rows it needs to say anything. */
const FEWEST_ROWS = 10;

/** A wind that was measured, as the turns a ride goes through. */
export interface MeasuredWind {
  /** Mean first, then every row; 0 s is the first. */
  readonly turns: readonly WindTurn[];
  /** Mean speed, m/s, and length, s. */
  readonly mean: number;
  readonly seconds: number;
}

/**
 * A wind as it was measured: its rows one after another, straight in between, gusts and veers its own. Where directions were
 * measured they count from their mean; where not, the wind blows one way.
 * @param time s, rising; @param speed m/s at 10 m; @param from direction it comes from, rad clockwise from north; NaN: not read
 * @throws InputError for too few rows, and for speeds beyond reason
 */
export function windOfSeries(
  time: ArrayLike<number>,
  speed: ArrayLike<number>,
  from: ArrayLike<number> | null,
  place: string,
): MeasuredWind {
  const rows: { readonly time: number; readonly speed: number; readonly from: number }[] = [];
  for (let i = 0; i < time.length; i++) {
    const v = speed[i]!;
    if (!Number.isFinite(v) || !Number.isFinite(time[i]!)) continue;
    if (v < 0 || v > 1.5 * STRONGEST)
      throw new InputError(place, `${v} m/s`, `wind speeds from none to ${1.5 * STRONGEST} m/s are expected`);
    if (rows.length > 0 && time[i]! <= rows.at(-1)!.time) continue;
    rows.push({ time: time[i]!, speed: v, from: from?.[i] ?? Number.NaN });
  }
  if (rows.length < FEWEST_ROWS || rows.length > MOST_ROWS)
    throw new InputError(
      place,
      `${rows.length} rows of wind`,
      `${FEWEST_ROWS} to ${MOST_ROWS} with times that rise are expected`,
    );
  const start = rows[0]!.time;
  const seconds = rows.at(-1)!.time - start;
  let area = 0;
  let east = 0;
  let north = 0;
  rows.forEach((row, i) => {
    if (i > 0) area += 0.5 * (row.speed + rows[i - 1]!.speed) * (row.time - rows[i - 1]!.time);
    if (Number.isNaN(row.from)) return;
    east += row.speed * Math.sin(row.from);
    north += row.speed * Math.cos(row.from);
  });
  const mean = area / seconds;
  if (!(mean > 0)) throw new InputError(place, "no wind at all", "a wind above zero is expected");
  const middle = Math.atan2(east, north);
  let toward = 0;
  const turns = rows.map((row): WindTurn => {
    // Clockwise from north to counter-clockwise from x; the whole turn nearest to the row before.
    if (!Number.isNaN(row.from)) {
      const off = middle - row.from;
      toward += Math.atan2(Math.sin(off - toward), Math.cos(off - toward));
    }
    return { time: row.time - start, speed: row.speed, toward };
  });
  return { turns: [{ time: -BEFORE, speed: mean, toward: 0 }, ...turns], mean, seconds };
}

/** Seconds over which the mean wind becomes the first row. */
const BEFORE = 60;

/** A current toward the boat, m/s. */
export function readRideCurrent(text: string | number, place: string): number {
  const current = parseQuantity(text, "speed", place);
  if (Math.abs(current) > FASTEST_CURRENT)
    throw new InputError(place, quoted(text), `at most ${FASTEST_CURRENT} m/s is expected`);
  return current;
}

/** A rig a boat can ride to. @throws InputError for a rig in air */
export function afloat(rig: Rig, place: string): Rig {
  if (rig.setting.medium !== "water")
    throw new InputError(place, "a rig in air", "a rig in water, with its depth, is expected");
  return rig;
}

/** A boat the wind can push. @throws InputError for one without windage */
export function withWindage(boat: Boat, place: string): Boat {
  if (boat.windage === undefined) throw new InputError(place, "no windage", "a boat with its windage is expected");
  return boat;
}

/** The rig in another current, m/s toward the boat. */
export const withCurrent = (rig: Rig, current: number): Rig =>
  ({ ...rig, setting: { ...rig.setting, current } }) as Rig;

/** Depth of water over the anchor of a rig, m; without end in air. */
export const depthOf = (rig: Rig): number =>
  rig.setting.medium === "water" ? rig.setting.depth : Number.POSITIVE_INFINITY;

/** Length of a ride, s. @throws InputError outside 0.02 to 48 hours */
export function readHours(hours: number, given: string, place: string): number {
  if (!(hours >= 1 / 60 && hours <= 48))
    throw new InputError(place, given, "a number of hours from 0.02 to 48 is expected");
  return hours * 3600;
}

/** Seconds of one core that an hour of 40 elements takes, a common one: only a hint of what is asked. */
const HOUR_OF_FORTY = 12;
/** Hours of 40 elements that are taken on without a word. */
const MOST_HOURS = 600;

/** Refuses what would run for hours, and says how long. @param hours s */
export function checkRideCost(duration: number, elements: number, place: string): void {
  const hours = duration / 3600;
  const cost = (hours * elements) / 40;
  if (cost > MOST_HOURS)
    throw new InputError(
      place,
      String(elements),
      `${Number(hours.toPrecision(3))} h of them would take about ${Math.round((cost * HOUR_OF_FORTY) / 60)} minutes: fewer elements or hours are expected`,
    );
}

function above(text: string | number, dimension: "speed" | "time", place: string): number {
  const value = parseQuantity(text, dimension, place);
  if (!(value > 0)) throw new InputError(place, quoted(text), `a ${dimension} above zero is expected`);
  return value;
}
