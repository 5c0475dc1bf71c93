/** Exit statuses of CONTRACT: answered; the input is wrong; no equilibrium exists. 1 is a fault of the program itself. */
export const exit = { answered: 0, fault: 1, wrongInput: 2, noEquilibrium: 3 } as const;

/** Raised by a command whose honest answer is that none exists: one line, status 3. */
export class NoAnswer extends Error {}
