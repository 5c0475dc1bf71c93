/** What a line of `trace` says, read: the rig in its water, the protocol, the hold rule. */
import { readPlaceText } from "../log/index.ts";
import type { PlannedStep, ReadAt, Span } from "../pull/index.ts";
import { InputError, parseQuantity, quoted } from "../quantity/index.ts";
import type { Rig } from "../rode/index.ts";
import { asFiled, type Deployment, deploymentOf, type HowPulled } from "../study/index.ts";
import type { LogOptions } from "./log-options.ts";
import type { Shown } from "./options.ts";

export interface TraceOptions extends Shown, LogOptions {
  readonly readAt?: ReadAt;
  readonly book?: string;
  readonly keep?: true;
  readonly who?: string;
  readonly channel?: string;
  readonly part?: string;
  readonly track?: string;
  readonly rig?: string;
  readonly depth?: string;
  readonly scope?: string;
  readonly paidOut?: string;
  readonly steps?: string;
  readonly slack?: string;
  readonly slackLoad?: string;
  readonly holdFor?: string;
  readonly holdWithin?: string;
  readonly ahead?: true;
  readonly astern?: true;
  readonly bearing?: string;
  readonly anchorAt?: string;
  readonly tare?: string;
  readonly calibration?: string;
  readonly trackClock?: string;
  readonly video?: string;
  readonly videoStart?: string;
  readonly corrections?: string;
}

/** The hold rule, the cell, and how the pull was made, as stated on the line. @throws InputError for what makes no sense */
export function howFrom(options: TraceOptions): HowPulled {
  const { holdFor, holdWithin, slackLoad, ahead, astern, bearing, tare, calibration, anchorAt } = options;
  const above = (value: number, place: string, given: string, what: string): number => {
    if (!(value > 0)) throw new InputError(place, quoted(given), `${what} above zero is expected`);
    return value;
  };
  if (ahead === true && astern === true)
    throw new InputError("--astern", "with --ahead", "one of them is expected: the way the boat pulled");
  return {
    ...(holdFor === undefined
      ? {}
      : { heldFor: above(parseQuantity(holdFor, "time", "--hold-for"), "--hold-for", holdFor, "a time") }),
    ...(holdWithin === undefined
      ? {}
      : {
          heldWithin: above(
            parseQuantity(holdWithin, "length", "--hold-within"),
            "--hold-within",
            holdWithin,
            "a length",
          ),
        }),
    ...(slackLoad === undefined ? {} : { slackLoad: parseQuantity(slackLoad, "force", "--slack-load") }),
    ...(tare === undefined ? {} : { tare: parseQuantity(tare, "force", "--tare") }),
    ...(calibration === undefined ? {} : { calibration: factorOf(calibration) }),
    ...(bearing === undefined ? {} : { bearing: parseQuantity(bearing, "angle", "--bearing") }),
    ...(anchorAt === undefined ? {} : { anchorAt: placeAt(anchorAt) }),
    ...(ahead === true ? { pulls: "ahead" as const } : astern === true ? { pulls: "astern" as const } : {}),
    ...trackClockFrom(options),
  };
}

/** True load for each newton read. */
function factorOf(text: string): number {
  const factor = Number(text);
  if (!(factor >= 0.1 && factor <= 10))
    throw new InputError("--calibration", quoted(text), "a factor from 0.1 to 10 is expected, such as 1.02");
  return factor;
}

/** `48.1234, -5.0678` or `48°07.404'N, 5°04.068'W`: latitude, longitude, degrees. */
function placeAt(text: string): { readonly latitude: number; readonly longitude: number } {
  const parts = text.split(",");
  const [latitude, longitude] = [90, 180].map((most, k) => readPlaceText(parts[k] ?? "", "text", "", ".", most)) as [
    number,
    number,
  ];
  if (parts.length !== 2 || Number.isNaN(latitude) || Number.isNaN(longitude))
    throw new InputError(
      "--anchor-at",
      quoted(text),
      'latitude and longitude in degrees are expected, such as "48.1234, -5.0678"',
    );
  return { latitude, longitude };
}

/** Where the zero of the video's clock lies on the log's, s; null where nothing is told. @param first the log's first time, s */
export function videoStartFrom({ video, videoStart }: TraceOptions, first: number): number | null {
  if (videoStart === undefined) return null;
  if (video === undefined)
    throw new InputError("--video-start", quoted(videoStart), "marks of the video are expected with it: --video FILE");
  return first + parseQuantity(videoStart, "time", "--video-start");
}

/** The clock of the track is to be told by load and track themselves. */
export const AUTO = "auto";

/** What is added to the times of the track's file, s; nothing where nothing is told. */
function trackClockFrom({ trackClock, track, book }: TraceOptions): Pick<HowPulled, "trackClock"> {
  if (trackClock === undefined) return {};
  const auto = trackClock === AUTO;
  if (track === undefined && book === undefined)
    throw new InputError("--track-clock", quoted(trackClock), "a track whose clock it is is expected: --track FILE");
  return auto ? {} : { trackClock: parseQuantity(trackClock, "time", "--track-clock") };
}

/** The rig in the water told of; as its file has it where nothing is told. */
export function deploymentFrom(rig: Rig | null, options: TraceOptions): Deployment | null {
  const length = (text: string | undefined, place: string) =>
    text === undefined ? null : parseQuantity(text, "length", place);
  const record = {
    depth: length(options.depth, "--depth"),
    paidOut: length(options.paidOut, "--paid-out"),
    scope: options.scope === undefined ? null : scopeOf(options.scope),
  };
  const told = (["depth", "paidOut", "scope"] as const).find((name) => record[name] !== null);
  if (told === undefined) return rig && asFiled(rig);
  if (rig === null) {
    const place = { depth: "--depth", paidOut: "--paid-out", scope: "--scope" }[told];
    throw new InputError(place, quoted(options[told]!), "a rig is expected with it: --rig FILE");
  }
  for (const name of ["depth", "paidOut"] as const)
    if (record[name] !== null && !(record[name] > 0))
      throw new InputError(
        name === "depth" ? "--depth" : "--paid-out",
        quoted(options[name]!),
        "a length above 0 m is expected",
      );
  return deploymentOf(rig, record);
}

/** `5` or `5:1` */
function scopeOf(text: string): number {
  const scope = Number(text.trim().replace(/\s*:\s*1$/, ""));
  if (!(scope > 1 && scope < 1000))
    throw new InputError("--scope", quoted(text), "a number above 1 is expected, such as 5");
  return scope;
}

/** `500lbf:30s,1000lbf:30s` */
export function stepsOf(text: string): PlannedStep[] {
  return text.split(",").map((step) => {
    const parts = step.split(":");
    if (parts.length !== 2) throw new InputError("--steps", quoted(step), "LOAD:TIME is expected, such as 500lbf:30s");
    const load = parseQuantity(parts[0]!, "force", "--steps");
    const hold = parseQuantity(parts[1]!, "time", "--steps");
    if (!(load > 0)) throw new InputError("--steps", quoted(step), "a load above zero is expected");
    if (!(hold >= 0)) throw new InputError("--steps", quoted(step), "a time not below zero is expected");
    return { load, hold };
  });
}

/** `0..12,300..320`, s from the first reading. */
export function spansOf(text: string, start: number): Span[] {
  return text.split(",").map((span) => {
    const [from, to] = span.split("..").map(Number);
    if (from === undefined || to === undefined || !(to > from))
      throw new InputError("--slack", quoted(span), "FROM..TO in seconds is expected, such as 0..12");
    return { from: start + from, to: start + to };
  });
}

export function counted(text: string, place: string): number {
  const n = Number(text);
  if (!Number.isInteger(n) || n < 1) throw new InputError(place, quoted(text), "a whole number from 1 is expected");
  return n;
}
