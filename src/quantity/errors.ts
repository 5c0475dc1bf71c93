/**
 * The one exception of the program: wrong input. It carries the place, what was given and what was expected,
 * and reads as one line. What can honestly happen (no equilibrium, a held load) is a variant of an answer instead.
 */
export class InputError extends Error {
  /** Where: a file and a field, such as `quay.yaml: rode[2].length`, or an option such as `--pull`. */
  readonly place: string;
  /** What was given, as text; empty when something is missing. */
  readonly given: string;
  /** What was expected, as text. */
  readonly expected: string;

  constructor(place: string, given: string, expected: string) {
    const what = given === "" ? "nothing given" : given;
    super(oneLine(`${place}: ${what}; ${expected}`));
    this.name = "InputError";
    this.place = place;
    this.given = given;
    this.expected = expected;
  }

  /** The same error, its place prefixed (a file name before a field). */
  within(prefix: string): InputError {
    return new InputError(this.place === "" ? prefix : `${prefix}: ${this.place}`, this.given, this.expected);
  }
}

/** Quotes a value for an error line: short, on one line, never an object's insides. */
export function quoted(value: unknown): string {
  if (value === undefined || value === null || value === "") return value === "" ? '""' : "";
  const text =
    typeof value === "string"
      ? JSON.stringify(value)
      : typeof value === "object"
        ? Array.isArray(value)
          ? "a list"
          : "a group of fields"
        : String(value);
  return text.length > 60 ? `${text.slice(0, 57)}...` : text;
}

function oneLine(text: string): string {
  return text.replace(/\s*[\r\n]+\s*/g, " ");
}
