import { InputError, quoted } from "../quantity/index.ts";

/** Degrees of freedom, any number above zero. @throws InputError for others. */
export function checkedDegreesOfFreedom(dof: number): number {
  if (!(dof > 0)) throw new InputError("degrees of freedom", quoted(dof), "a number above zero is expected");
  return dof;
}

/** A share that a quantile can be asked for. @throws InputError unless 0 < p < 1. */
export function checkedShare(p: number): number {
  if (!(p > 0 && p < 1)) throw new InputError("probability", quoted(p), "a number between 0 and 1 is expected");
  return p;
}
