/**
 * What may come instead of an answer. That there is no equilibrium is no fault: it is an answer, and stands in the
 * answers of the rooms. These are the others, told apart, each with a line for people.
 */
export type Fault =
  /** What was asked has no meaning: where, what was given, what was expected. */
  | { readonly kind: "input"; readonly line: string }
  /** The program is wrong, or its worker ended. */
  | { readonly kind: "program"; readonly line: string }
  /** No answer came within the time allowed. */
  | { readonly kind: "late"; readonly line: string };

/** Nothing came in time. */
export class Late extends Error {
  override readonly name = "Late";
}

/** The fault that an error stands for; errors come from a worker with their name and message alone. */
export function faultOf(error: unknown): Fault {
  if (!(error instanceof Error)) return { kind: "program", line: String(error) };
  if (error.name === "InputError") return { kind: "input", line: error.message };
  if (error.name === "Late") return { kind: "late", line: error.message };
  return { kind: "program", line: `${error.name}: ${error.message}` };
}
