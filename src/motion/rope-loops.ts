/** The loops of ropes that state one (gear/loop.ts), element by element, as arrays of numbers. */
import type { LinePart } from "../rode/index.ts";

/** Loops of the elements that have one, number by number. */
export interface RopeLoops {
  readonly element: Int32Array;
  /** s; 0: none of that kind */
  readonly viscous: Float64Array;
  readonly stiffer: Float64Array;
  readonly time: Float64Array;
}

/** @param parts the line of each element */
export function ropeLoops(parts: readonly LinePart[]): RopeLoops {
  const element = Int32Array.from(parts.keys()).filter((k) => parts[k]!.loop !== undefined);
  const f = (of: (loop: NonNullable<LinePart["loop"]>) => number): Float64Array =>
    Float64Array.from(element, (k) => of(parts[k]!.loop!));
  return {
    element,
    viscous: f((loop) => (loop.kind === "viscous" ? loop.time : 0)),
    stiffer: f((loop) => (loop.kind === "maxwell" ? loop.stiffer : 0)),
    time: f((loop) => loop.time),
  };
}
