// Random numbers: xoroshiro128+ of pure-rand, and deviates made from it. The same seed gives the same numbers everywhere.

import { xoroshiro128plusFromState } from "pure-rand/generator/xoroshiro128plus";
import type { JumpableRandomGenerator } from "pure-rand/types/JumpableRandomGenerator";
import { InputError, quoted } from "../quantity/index.ts";

/** A stream of random numbers; each call moves it on. */
export interface Rng {
  /** Even between 0 (included) and 1 (not), in steps of 2⁻⁵³. */
  uniform(): number;
  /** Whole number from 0 to below − 1, each as likely. */
  integer(below: number): number;
  /** Normal, mean 0, standard deviation 1. */
  normal(): number;
  /** Exponential, mean 1. */
  exponential(): number;
  /** Gamma of this shape, scale 1. */
  gamma(shape: number): number;
  /** Student's t with these degrees of freedom. */
  t(dof: number): number;
  /** A stream 2⁶⁴ numbers further on, for a worker of its own; this one is left as it was, the next call goes on further. */
  branch(): Rng;
}

/**
 * A stream from a seed, any whole number up to 2⁵³; near seeds give unrelated streams, and one seed the same numbers on
 * every machine.
 * @throws InputError for any other seed
 * @source xoroshiro128+ (Blackman & Vigna 2018), as pure-rand has it
 */
export function rng(seed: number): Rng {
  if (!Number.isSafeInteger(seed)) throw new InputError("seed", quoted(seed), "a whole number is expected");
  return streamOf(xoroshiro128plusFromState(scrambled(seed)));
}

function streamOf(source: JumpableRandomGenerator): Rng {
  const furthest = source.clone();
  let spare: number | undefined;

  const uniform = (): number => ((source.next() >>> 6) * 0x8000000 + (source.next() >>> 5)) / 0x20000000000000;

  // Polar method of Marsaglia (1964): two deviates a turn, the second kept for the next call.
  const normal = (): number => {
    if (spare !== undefined) {
      const kept = spare;
      spare = undefined;
      return kept;
    }
    for (;;) {
      const a = 2 * uniform() - 1;
      const b = 2 * uniform() - 1;
      const s = a * a + b * b;
      if (s >= 1 || s === 0) continue;
      const scale = Math.sqrt((-2 * Math.log(s)) / s);
      spare = b * scale;
      return a * scale;
    }
  };

  // Marsaglia & Tsang, ACM Trans. Math. Softw. 26 (2000) 363.
  const gamma = (shape: number): number => {
    if (!(shape > 0)) throw new InputError("shape", quoted(shape), "a number above zero is expected");
    if (shape < 1) return gamma(shape + 1) * (1 - uniform()) ** (1 / shape);
    const d = shape - 1 / 3;
    const c = 1 / Math.sqrt(9 * d);
    for (;;) {
      const x = normal();
      const v = (1 + c * x) ** 3;
      if (v > 0 && Math.log(1 - uniform()) < 0.5 * x * x + d - d * v + d * Math.log(v)) return d * v;
    }
  };

  return {
    uniform,
    normal,
    gamma,
    integer(below) {
      if (!(Number.isSafeInteger(below) && below > 0)) {
        throw new InputError("below", quoted(below), "a whole number above zero is expected");
      }
      return Math.floor(uniform() * below);
    },
    exponential: () => -Math.log(1 - uniform()),
    t: (dof) => normal() / Math.sqrt((2 * gamma(dof / 2)) / dof),
    branch() {
      furthest.jump();
      return streamOf(furthest.clone());
    },
  };
}

/** Four well-mixed words from a seed, by the finaliser of MurmurHash3 (public domain): the generator mixes slowly itself. */
function scrambled(seed: number): number[] {
  const low = seed | 0;
  const high = Math.floor(seed / 0x100000000) | 0;
  return [1, 2, 3, 4].map((k) => mixed(mixed(low ^ Math.imul(k, 0x9e3779b9)) ^ mixed(high + Math.imul(k, 0x85ebca6b))));
}

function mixed(word: number): number {
  let h = word ^ (word >>> 16);
  h = Math.imul(h, 0x85ebca6b);
  h ^= h >>> 13;
  h = Math.imul(h, 0xc2b2ae35);
  return h ^ (h >>> 16);
}
