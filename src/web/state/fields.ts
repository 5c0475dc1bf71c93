/**
 * Reading the fields of an address. Whatever a field holds that has no meaning is refused by name: an address is never
 * half read, and nothing of it is replaced by a usual value without a word.
 */

/** Text fields of an address, `?depth=8&load=bow+2000`. */
export type Fields = Readonly<Record<string, string>>;

/** What a field cannot be. */
export interface Problem {
  readonly field: string;
  readonly given: string;
  readonly expected: string;
}

export type Read<T> =
  /** The fields hold nothing of the place. */
  | { readonly kind: "none" }
  | { readonly kind: "read"; readonly state: T }
  | { readonly kind: "refused"; readonly problems: readonly Problem[] };

/** Longer texts are cut where they are told, not where they are kept. */
const MOST_TOLD = 60;
const MOST_NAME = 200;

/**
 * Reads fields and remembers every problem. A refused field reads as NaN (or as the first of its words): the state made
 * from it is never shown, for `read` then refuses the whole.
 */
export class FieldReader {
  readonly problems: Problem[];
  readonly #fields: Fields;
  readonly #prefix: string;

  constructor(fields: Fields, prefix = "", problems: Problem[] = []) {
    this.#fields = fields;
    this.#prefix = prefix;
    this.problems = problems;
  }

  /** The fields whose names begin with a prefix, read without it and told with it; problems are shared. */
  under(prefix: string): FieldReader {
    const named = Object.entries(this.#fields).filter(([name]) => name.startsWith(prefix));
    return this.inside(prefix, Object.fromEntries(named.map(([name, text]) => [name.slice(prefix.length), text])));
  }

  /** Fields that are written into one field of these; problems are shared, told with `place` before. */
  inside(place: string, fields: Fields): FieldReader {
    return new FieldReader(fields, this.#prefix + place, this.problems);
  }

  has(...names: readonly string[]): boolean {
    return names.some((name) => this.#fields[name] !== undefined);
  }

  text(name: string): string | undefined {
    return this.#fields[name];
  }

  refuse(field: string, given: string | undefined, expected: string): void {
    const text = given ?? "";
    const quoted = text.length > MOST_TOLD ? `"${text.slice(0, MOST_TOLD)}…"` : `"${text}"`;
    this.refuseAs(field, text === "" ? "nothing" : quoted, expected);
  }

  /** Refuses what is told in words of its own: "1001 points". */
  refuseAs(field: string, given: string, expected: string): void {
    this.problems.push({ field: this.#prefix + field, given, expected });
  }

  /** A number within bounds that must stand there. */
  number(name: string, least: number, most: number): number {
    return this.within(name, this.#fields[name], least, most);
  }

  /** The same, or what is usual where the field is absent. */
  numberOr<U>(name: string, usual: U, least: number, most: number): number | U {
    return this.has(name) ? this.number(name, least, most) : usual;
  }

  /** A number out of a field's text. */
  within(field: string, text: string | undefined, least: number, most: number): number {
    const value = text === undefined || text.trim() === "" ? Number.NaN : Number(text);
    if (value >= least && value <= most) return value;
    this.refuse(field, text, `a number from ${least} to ${most} is expected`);
    return Number.NaN;
  }

  /** The same, or what is usual where nothing stands. */
  withinOr<U>(field: string, text: string | undefined, usual: U, least: number, most: number): number | U {
    return text === undefined || text === "" ? usual : this.within(field, text, least, most);
  }

  wordOr<W extends string>(field: string, words: readonly W[], usual: W, text = this.#fields[field]): W {
    if (text === undefined || text === "") return usual;
    const known = words.find((word) => word === text);
    if (known === undefined) this.refuse(field, text, `one of ${words.join(", ")} is expected`);
    return known ?? usual;
  }

  nameOr(field: string, usual: string): string {
    const text = this.#fields[field];
    if (text !== undefined && text.length > MOST_NAME)
      this.refuse(field, text, `a name of at most ${MOST_NAME} characters is expected`);
    return text ?? usual;
  }

  /** The state, if nothing it was made from was refused. */
  read<T>(make: () => T): Read<T> {
    const state = make();
    return this.problems.length === 0 ? { kind: "read", state } : { kind: "refused", problems: this.problems };
  }
}

/** A problem in one line: `depth: "-1" is given; a number from 0 to 5 is expected`. */
export const problemLine = ({ field, given, expected }: Problem): string => `${field}: ${given} is given; ${expected}`;
