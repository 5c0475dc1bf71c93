/**
 * Exit statuses: answered; the input is wrong; no equilibrium exists; no room is left on a disk. 1 is a fault of the
 * program itself.
 */
export const exit = { answered: 0, fault: 1, wrongInput: 2, noEquilibrium: 3, diskFull: 4 } as const;

/** Raised by a command whose honest answer is that none exists: one line, status 3. */
export class NoAnswer extends Error {}
