import { Command } from "commander";
import { channelKinds } from "../log/index.ts";
import {
  afloat,
  checkRideCost,
  depthOf,
  gustSpectrum,
  type MeasuredWind,
  type Ride,
  type RideQuestion,
  type RideSeries,
  readHours,
  readMeanWind,
  readRideCurrent,
  readWindShifts,
  ride,
  rideAnswer,
  windOfSeries,
  withCurrent,
  withWindage,
} from "../motion/index.ts";
import { DEGREES, InputError, parseQuantity, quoted } from "../quantity/index.ts";
import {
  CALM_SURROUNDINGS,
  OPEN_WATER,
  readBoat,
  readSea,
  steadyLoad,
  toReferenceHeight,
  USUAL_AIR,
} from "../sea/index.ts";
import { brokeOffWords } from "../words/index.ts";
import type { Io } from "./io.ts";
import { logRows } from "./log-input.ts";
import { answerJson, placeOf, rigAt, type Shown, shown } from "./options.ts";
import { rideDocument } from "./ride-document.ts";
import { type RideOptions, withRideOptions } from "./ride-options.ts";
import { rideText } from "./ride-text.ts";
import { noAnswer } from "./settle.ts";
import { type Speeds, speedUnit, withSpeeds } from "./speeds.ts";

interface Options extends RideOptions, Speeds {
  readonly storm: string;
  readonly trace?: string;
}

export function rideCommand(io: Io): Command {
  return shown(
    withRideOptions(withSpeeds(new Command("ride")))
      .option("--storm <time>", "length of the storm whose largest load is told", "3 h")
      .option("--trace <file>", "writes the loads and places over time, .csv or .parquet"),
  ).action(async (path: string, options: Options) => {
    if (options.trace !== undefined && !/\.(csv|parquet)$/.test(options.trace))
      throw new InputError("--trace", quoted(options.trace), "a file that ends in .csv or .parquet is expected");
    const given = await rideQuestion(path, options, io);
    const { under, series, stopped } = await ridden(given, options, io);
    if (options.trace !== undefined) await writeTrace(options.trace, series, io);
    const storm = above(options.storm, "time", "--storm");
    const answer = rideAnswer(under, storm);
    const windageU = windageUOf(given);
    if (options.json) answerJson(io, rideDocument(under, answer, windageU, stopped));
    else io.out(rideText(under, answer, windageU, stopped, options.units, speedUnit(options, options.wind)));
  });
}

/** Relative standard uncertainty of the boat's windage, which all loads of a ride share. */
export function windageUOf({ boat, wind, air }: RideQuestion): number {
  const steady = steadyLoad(boat, { value: wind[0]!.speed, u: 0 }, { ...CALM_SURROUNDINGS, air });
  return steady.value > 0 ? steady.u / steady.value : 0;
}

/** Samples an answer needs: a minute. */
const FEWEST = 600;
/** Seconds of the ride between looks at the clock and at ctrl-c. */
const STRIDE = 10;

/** A terminal's line is drawn anew so often, ms; elsewhere a line tells every tenth of a ride of an hour and more. */
const REDRAWN = 250;
const LONG = 3600;

/** A ride ridden. @throws NoAnswer without equilibrium, InputError where it ended within a minute */
export async function ridden(
  given: RideQuestion,
  { units }: Shown,
  io: Io,
): Promise<{ readonly under: Ride; readonly series: RideSeries; readonly stopped: boolean }> {
  const under = ride(given);
  if ("kind" in under) throw noAnswer(given.rig, under, units);
  const stopped = await rideOut(under, io);
  const series = under.series();
  const brokeOffAt = under.brokeOffAt();
  if (series.time.length < FEWEST)
    throw new InputError(
      "ride",
      brokeOffAt === null ? `stopped after ${series.time.length} samples` : brokeOffWords(brokeOffAt),
      "a ride of a minute at least is expected",
    );
  return { under, series, stopped };
}

/** Rides to the end or until ctrl-c. @returns whether it was stopped */
async function rideOut(under: Ride, io: Io): Promise<boolean> {
  const began = Date.now();
  const whole = under.question.duration;
  let drawnAt = began;
  let tenths = 0;
  while (under.goOn(STRIDE)) {
    if (io.stop.aborted) break;
    const now = Date.now();
    const done = under.counted();
    const tell = io.isTerminal ? now - drawnAt >= REDRAWN : whole >= LONG && Math.floor((10 * done) / whole) > tenths;
    if (tell) {
      drawnAt = now;
      tenths = Math.floor((10 * done) / whole);
      const left = done > 0 ? `, some ${Math.ceil(((now - began) * (whole - done)) / done / 1000)} s to go` : "";
      const text = `ride: ${Math.floor((100 * done) / whole)} %${left}; ctrl-c ends it and keeps what was ridden`;
      io.err(io.isTerminal ? `\r\u001b[K${text}` : `${text}\n`);
    }
    await new Promise((resolve) => setImmediate(resolve));
  }
  if (io.isTerminal) io.err("\r\u001b[K");
  return io.stop.aborted;
}

export async function rideQuestion(path: string, options: RideOptions, io: Io): Promise<RideQuestion> {
  const plain = afloat(await rigAt(path, io), placeOf(path));
  const boat = withWindage(readBoat(await io.read(options.boat), placeOf(options.boat)), placeOf(options.boat));
  const rig = options.current === undefined ? plain : withCurrent(plain, readRideCurrent(options.current, "--current"));
  const measured = await measuredFrom(options, io);
  const speed = measured?.mean ?? readMeanWind(options.wind!, "--wind");
  const duration =
    options.hours === undefined && measured !== null
      ? readHours(measured.seconds / 3600, `${Math.round(measured.seconds)} s of wind`, "--wind-log")
      : readHours(Number(options.hours ?? 1), quoted(options.hours), "--hours");
  if (measured !== null && duration > measured.seconds + 1)
    throw new InputError(
      "--hours",
      quoted(options.hours),
      `at most the ${Math.round(measured.seconds)} s that were measured are expected`,
    );
  const elements = whole(options.elements, "--elements", 5, 2000);
  checkRideCost(duration, elements, "--elements");
  return {
    rig,
    boat,
    air: USUAL_AIR,
    wind: measured?.turns ?? [
      { time: 0, speed, toward: 0 },
      ...readWindShifts(options.shift ?? [], (i) => `--shift ${i + 1}`),
    ],
    ...(measured === null ? {} : { measuredWind: true as const }),
    gusts: measured === null ? gustSpectrum(options.gusts, speed) : null,
    sea: options.sea === undefined ? null : readSea(options.sea, options.spectrum, depthOf(rig), "--sea"),
    duration,
    seed: whole(options.seed, "--seed", 0, 2 ** 31),
    elements,
  };
}

/** The wind of a log; null where a mean is stated. */
async function measuredFrom(options: RideOptions, io: Io): Promise<MeasuredWind | null> {
  const { wind, windLog, windHeight, shift } = options;
  if ((wind === undefined) === (windLog === undefined))
    throw new InputError(
      "--wind",
      wind === undefined ? "" : quoted(wind),
      "either a mean wind, such as --wind 25kn, or a --wind-log is expected",
    );
  if (windLog === undefined) {
    if (windHeight !== undefined)
      throw new InputError("--wind-height", quoted(windHeight), "a --wind-log is expected with it");
    return null;
  }
  if (shift !== undefined)
    throw new InputError("--shift", quoted(shift[0]), "a --wind is expected with it: a log has its own");
  const place = placeOf(windLog);
  const { channels, values, time } = await logRows(windLog, io, {}, channelKinds);
  const of = (kind: string): Float64Array | null => values[channels.findIndex((one) => one.kind === kind)] ?? null;
  const speeds = of("trueWindSpeed") ?? of("windSpeed");
  if (speeds === null)
    throw new InputError(
      place,
      channels.map(({ name }) => name).join(", "),
      "a channel of wind speeds is expected, such as a column named wind with its unit",
    );
  const height = windHeight === undefined ? 10 : parseQuantity(windHeight, "length", "--wind-height");
  if (!(height >= 1 && height <= 100))
    throw new InputError("--wind-height", quoted(windHeight), "a height from 1 m to 100 m is expected");
  const at10 = speeds.map((v) => (v > 0 ? toReferenceHeight(OPEN_WATER, v, height) : v));
  return windOfSeries(time, at10, of("windDirection"), place);
}

function above(text: string, dimension: "time", place: string): number {
  const value = parseQuantity(text, dimension, place);
  if (!(value > 0)) throw new InputError(place, quoted(text), `a ${dimension} above zero is expected`);
  return value;
}

function whole(text: string, place: string, least: number, most: number): number {
  const value = Number(text);
  if (!(Number.isInteger(value) && value >= least && value <= most))
    throw new InputError(place, quoted(text), `a whole number from ${least} to ${most} is expected`);
  return value;
}

const columns = (series: RideSeries) =>
  [
    ["time_s", series.time, 1],
    ["anchor_N", series.anchorLoad, 1],
    ["anchorAngle_deg", series.anchorAngle, DEGREES],
    ["bow_N", series.bowLoad, 1],
    ["bowAngle_deg", series.bowAngle, DEGREES],
    ["x_m", series.x, 1],
    ["y_m", series.y, 1],
    ["heading_deg", series.heading, DEGREES],
  ] as const;

async function writeTrace(path: string, series: RideSeries, io: Io): Promise<void> {
  const all = columns(series);
  if (path.endsWith(".parquet")) {
    const columnData = all.map(([name, data, times]) => ({
      name,
      data: Array.from(data, (v) => v * times),
      type: "DOUBLE" as const,
    }));
    const { parquetWriteBuffer } = await import("hyparquet-writer");
    await io.write(path, new Uint8Array(parquetWriteBuffer({ columnData })));
    return;
  }
  const lines = [all.map(([name]) => name).join(",")];
  for (let i = 0; i < series.time.length; i++)
    lines.push(all.map(([, data, times]) => String(Number((data[i]! * times).toPrecision(8)))).join(","));
  await io.write(path, `${lines.join("\n")}\n`);
}
