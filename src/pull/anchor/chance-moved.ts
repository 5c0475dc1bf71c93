import { normalBelow } from "../../statistics/index.ts";
import type { Measured } from "../trace/trace.ts";

/** Chance, before any fix is looked at, that an anchor moves in a stretch that is asked about. */
const MOVES = 0.3;
/** How far one that moves goes in the mean, m: exponential, so that far ways are not ruled out. */
const FAR = 3;

/**
 * Chance that the anchor moved by more than `over` metres, its movement having been measured as m ± u. Before, it is
 * taken to have stayed with a chance of seven in ten, and else to have gone some way, three metres in the mean: the
 * heavy-tailed mixture under which a still anchor is believed still until the fixes say otherwise.
 */
export function chanceMoved({ value, u }: Measured, over: number): number {
  // Far below zero: it did not go.
  if (!(value > -8 * u)) return 0;
  const stayed = ((1 - MOVES) * Math.exp(-0.5 * (value / u) ** 2)) / (u * Math.sqrt(2 * Math.PI));
  const went = (beyond: number): number =>
    (MOVES / FAR) * Math.exp(u ** 2 / (2 * FAR ** 2) - value / FAR) * normalBelow((value - u ** 2 / FAR - beyond) / u);
  const all = stayed + went(0);
  // Far above: both densities vanish.
  return all > 0 ? went(over) / all : value > over ? 1 : 0;
}
