/**
 * What a line keeps of its stretch over a cycle, beside the law of its stretch: unloading, it pulls less than it did
 * loading, and the loop between is energy lost. With T_s the tension of the law at the line's stretch,
 *
 *     viscous   T = T_s + t dT_s/dt                              loss a cycle grows with how fast it is worked
 *     Maxwell   T = T_s + Q,   dQ/dt = r dT_s/dt − Q/t           greatest at a period of 2πt; stiffer by r worked quickly
 *
 * In small cycles of angular frequency ω the stiffness is that of the law times 1 + iωt, and 1 + r iωt/(1 + iωt).
 */
import * as z from "zod";
import { InputError, parseQuantity, quoted } from "../quantity/index.ts";

/** A line's loop; times in s, `stiffer` as a share of the law's stiffness. */
export type LineLoop =
  | { readonly kind: "viscous"; readonly time: number }
  | { readonly kind: "maxwell"; readonly stiffer: number; readonly time: number };

/** Longest time and largest share that make a rope and not a mistaken unit. */
const LONGEST = 3600;
const STIFFEST = 10;

const quantity = z.union([z.string(), z.number()]);
const expected = "a loop is expected: { viscous: 0.1 s } or { maxwell: { stiffer: 20 %, time: 1 s } }";

/** A loop as it stands in a file. */
export const loopText = z.union(
  [
    z.strictObject({ viscous: quantity }),
    z.strictObject({ maxwell: z.strictObject({ stiffer: quantity, time: quantity }) }),
  ],
  { error: expected },
);

/** A loop as a file states it. */
export type LoopText = z.infer<typeof loopText>;

/** @throws InputError naming the field, what stands there and what was expected */
export function readLoop(text: LoopText, place: string): LineLoop {
  if ("viscous" in text) return { kind: "viscous", time: time(text.viscous, `${place}.viscous`) };
  const { stiffer: given } = text.maxwell;
  const at = `${place}.maxwell.stiffer`;
  const stiffer = parseQuantity(given, "ratio", at);
  if (!(stiffer > 0 && stiffer <= STIFFEST))
    throw new InputError(at, quoted(given), 'a share above zero, at most 10, is expected, such as "20 %"');
  return { kind: "maxwell", stiffer, time: time(text.maxwell.time, `${place}.maxwell.time`) };
}

function time(given: string | number, place: string): number {
  const value = parseQuantity(given, "time", place);
  if (!(value > 0 && value <= LONGEST))
    throw new InputError(place, quoted(given), 'a time above zero, at most an hour, is expected, such as "1 s"');
  return value;
}

/** The loop as a file states it. */
export function writtenLoop(loop: LineLoop): LoopText {
  if (loop.kind === "viscous") return { viscous: `${loop.time} s` };
  return { maxwell: { stiffer: loop.stiffer, time: `${loop.time} s` } };
}
