/** What a line of `trace` says, read: the rig in its water, the protocol, the hold rule. */
import type { PlannedStep, ReadAt, SettingsChange, Span } from "../pull/index.ts";
import { InputError, parseQuantity, quoted } from "../quantity/index.ts";
import type { Rig } from "../rode/index.ts";
import { asFiled, type Deployment, deploymentOf } from "../study/index.ts";
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
  readonly bearing?: string;
  readonly tare?: string;
  readonly calibration?: string;
  readonly trackClock?: string;
  readonly video?: string;
  readonly videoStart?: string;
  readonly corrections?: string;
}

/** The hold rule and how the pull was made, as stated on the line. @throws InputError for what is not above zero */
export function settingsFrom(options: TraceOptions): SettingsChange {
  const { holdFor, holdWithin, slackLoad, ahead, bearing } = options;
  const above = (value: number, place: string, given: string, what: string): number => {
    if (!(value > 0)) throw new InputError(place, quoted(given), `${what} above zero is expected`);
    return value;
  };
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
    ...(slackLoad === undefined ? {} : { slack: { load: parseQuantity(slackLoad, "force", "--slack-load") } }),
    ...(bearing === undefined ? {} : { bearing: parseQuantity(bearing, "angle", "--bearing") }),
    ...(ahead === true ? { pulls: "ahead" as const } : {}),
  };
}

/** What the cell shows with nothing on it, N, and what the load truly is for each newton above it; 0 and 1 where nothing is told. */
export function cellFrom({ tare, calibration }: TraceOptions): { readonly tare: number; readonly factor: number } {
  const factor = calibration === undefined ? 1 : Number(calibration);
  if (!(factor > 0.1 && factor < 10))
    throw new InputError("--calibration", quoted(calibration), "a factor from 0.1 to 10 is expected, such as 1.02");
  return { tare: tare === undefined ? 0 : parseQuantity(tare, "force", "--tare"), factor };
}

/** Where the zero of the video's clock lies on the log's, s; null where nothing is told. @param first the log's first time, s */
export function videoStartFrom({ video, videoStart }: TraceOptions, first: number): number | null {
  if (videoStart === undefined) return null;
  if (video === undefined)
    throw new InputError("--video-start", quoted(videoStart), "marks of the video are expected with it: --video FILE");
  return first + parseQuantity(videoStart, "time", "--video-start");
}

/** What is added to the times of the track's file, s; 0 where nothing is told. */
export function trackClockFrom({ trackClock, track }: TraceOptions): number {
  if (trackClock === undefined) return 0;
  if (track === undefined)
    throw new InputError("--track-clock", quoted(trackClock), "a track whose clock it is is expected: --track FILE");
  return parseQuantity(trackClock, "time", "--track-clock");
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
