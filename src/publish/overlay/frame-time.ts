/**
 * Frames and seconds, exactly: a frame lasts `per/rate` seconds, whole numbers both (1001/30000), and nothing is added up,
 * so that the last frame of an hour lies where the first would have it.
 */
import { InputError, quoted } from "../../quantity/index.ts";

/** Frames a second as a fraction. */
export interface FrameRate {
  readonly frames: bigint;
  /** s */
  readonly per: bigint;
}

/** Rates that are written short and meant as 1000/1001 of a round one (SMPTE ST 12-1; recalled). */
const SHORT: Readonly<Record<string, readonly [frames: bigint, per: bigint]>> = {
  "23.976": [24000n, 1001n],
  "23.98": [24000n, 1001n],
  "29.97": [30000n, 1001n],
  "47.952": [48000n, 1001n],
  "59.94": [60000n, 1001n],
  "119.88": [120000n, 1001n],
};

/** @param place where it was given, for the line that refuses it */
export function readFrameRate(text: string, place: string): FrameRate {
  const given = text.trim();
  const short = SHORT[given];
  if (short !== undefined) return { frames: short[0], per: short[1] };
  const [, whole, part, under] = /^(\d{1,6})(?:\.(\d{1,3})|\/(\d{1,6}))?$/.exec(given) ?? [];
  const rate =
    whole === undefined
      ? null
      : under !== undefined
        ? { frames: BigInt(whole), per: BigInt(under) }
        : { frames: BigInt(`${whole}${part ?? ""}`), per: 10n ** BigInt(part?.length ?? 0) };
  // One in ten seconds to a thousand a second: what cameras make.
  if (rate === null || rate.per === 0n || rate.frames * 10n < rate.per || rate.frames > 1000n * rate.per)
    throw new InputError(
      place,
      quoted(text),
      "frames a second from 0.1 to 1000 are expected, such as 25 or 30000/1001",
    );
  return reduced(rate);
}

function reduced({ frames, per }: FrameRate): FrameRate {
  let [a, b] = [frames, per];
  while (b !== 0n) [a, b] = [b, a % b];
  return { frames: frames / a, per: per / a };
}

/** As ffmpeg and film people write it: `25` or `30000/1001`. */
export const rateText = ({ frames, per }: FrameRate): string => (per === 1n ? String(frames) : `${frames}/${per}`);

const BILLION = 1_000_000_000n;

/** When a frame begins, ns from frame 0, rounded to the nearest. */
export function nanosecondsOf(frame: number, { frames, per }: FrameRate): bigint {
  const exact = BigInt(frame) * per * BILLION;
  return (2n * exact + (exact < 0n ? -frames : frames)) / (2n * frames);
}

/**
 * The frame that a time stamp of a clip's own is of, the nearest: containers round stamps, to the millisecond and coarser
 * than that never.
 * @param seconds from frame 0
 */
export function frameOfStamp(seconds: number, { frames, per }: FrameRate): number {
  const under = per * BILLION;
  const twice = 2n * BigInt(Math.round(seconds * 1e9)) * frames + under;
  // Division of whole numbers goes towards zero; below it the floor is one less.
  const whole = twice / (2n * under);
  return Number(twice < 0n && whole * 2n * under !== twice ? whole - 1n : whole);
}

/** How many frames begin before so many seconds are over. @param ns nanoseconds, not below zero */
export function framesWithin(ns: bigint, { frames, per }: FrameRate): number {
  const under = per * BILLION;
  return Number((ns * frames + under - 1n) / under);
}

/** Seconds with nine decimals, exact to the nanosecond: `3599.996400000`. */
export function secondsText(ns: bigint): string {
  const size = ns < 0n ? -ns : ns;
  return `${ns < 0n ? "-" : ""}${size / BILLION}.${String(size % BILLION).padStart(9, "0")}`;
}

/** A stretch of the clip that is in the film, frames, the last not among them. */
export interface Cut {
  readonly from: number;
  readonly to: number;
}

/** `0..250,900..1200`: stretches of the clip in the order of the film. @param place where they were given */
export function readCuts(text: string, place: string): Cut[] {
  return text.split(",").map((part) => {
    const [, from, to] = /^\s*(\d{1,8})\s*\.\.\s*(\d{1,8})\s*$/.exec(part) ?? [];
    if (from === undefined || Number(to) <= Number(from))
      throw new InputError(
        place,
        quoted(part.trim()),
        "stretches of the clip as FROM..TO in frames are expected, the last not among them, such as 0..250,900..1200",
      );
    return { from: Number(from), to: Number(to) };
  });
}

/** Frames of the film by the frame of the clip each shows. */
export function* clipFrames(cuts: readonly Cut[]): Generator<number> {
  for (const { from, to } of cuts) for (let frame = from; frame < to; frame++) yield frame;
}
