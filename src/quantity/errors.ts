/**
 * The one exception of the program: wrong input. It carries the place, what was given and what was expected,
 * and reads as one line. What can honestly happen (no equilibrium, a held load) is a variant of an answer instead.
 */
export class InputError extends Error {
  /** Where: a file and a field, such as `quay.yaml: rode #3.length`, or an option such as `--pull`. */
  readonly place: string;
  /** What was given, as text; empty when something is missing. */
  readonly given: string;
  /** What was expected, as text. */
  readonly expected: string;

  constructor(place: string, given: string, expected: string) {
    const [at, what, wanted] = [bounded(place, 240), bounded(given, 160), bounded(expected, 480)];
    super(oneLine(`${at}: ${what === "" ? "nothing given" : what}; ${wanted}`));
    this.name = "InputError";
    this.place = at;
    this.given = what;
    this.expected = wanted;
  }

  /** The same error, its place prefixed (a file name before a field). */
  within(prefix: string): InputError {
    return new InputError(this.place === "" ? prefix : `${prefix}: ${this.place}`, this.given, this.expected);
  }
}

/**
 * The place in a list as a person counts, for the name of a field: the first is ` #1`, as in `rode #1.chain.size`.
 * @param index from 0
 */
export function nth(index: number): string {
  return ` #${index + 1}`;
}

/** Quotes a value for an error line: short, on one line, never an object's insides. */
export function quoted(value: unknown): string {
  if (value === undefined || value === null || value === "") return value === "" ? '""' : "";
  const text =
    typeof value === "string"
      ? JSON.stringify(value)
      : typeof value === "object"
        ? Array.isArray(value)
          ? value.length === 0
            ? "an empty list"
            : "a list"
          : "a group of fields"
        : String(value);
  return text.length > 60 ? `${text.slice(0, 57)}...` : text;
}

/** A text cut to a length, its beginning and its end kept: of a path the end tells more. */
function bounded(text: string, most: number): string {
  if (text.length <= most) return text;
  const tail = Math.floor(most / 3);
  return `${text.slice(0, most - tail - 3)}...${text.slice(text.length - tail)}`;
}

function oneLine(text: string): string {
  return text.replace(/\s*[\r\n]+\s*/g, " ");
}
