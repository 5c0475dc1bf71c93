/** What of a log could not be read: every line counted, the first ones kept word for word. */

export interface Trouble {
  /** 1 first. */
  readonly line: number;
  /** What was found there, shortened. */
  readonly value: string;
  readonly expected: string;
}

/** Troubles of one log, as plain data that can be kept and taken up again. */
export interface TroubleCount {
  readonly rejected: number;
  /** Readings left out of rows that were kept. */
  readonly unreadable: number;
  /** Cells that say there is no reading. */
  readonly missing: number;
  /** Cells that say the load was past the range of the cell. */
  readonly overload: number;
  /** Rows with a time and nothing else. */
  readonly empty: number;
  readonly headersAgain: number;
  readonly repeatedRows: number;
  readonly first: readonly Trouble[];
}

const KEPT = 20;

export class Troubles {
  rejected: number;
  unreadable: number;
  missing: number;
  overload: number;
  empty: number;
  headersAgain: number;
  repeatedRows: number;
  readonly first: Trouble[];

  constructor(from?: TroubleCount) {
    this.rejected = from?.rejected ?? 0;
    this.unreadable = from?.unreadable ?? 0;
    this.missing = from?.missing ?? 0;
    this.overload = from?.overload ?? 0;
    this.empty = from?.empty ?? 0;
    this.headersAgain = from?.headersAgain ?? 0;
    this.repeatedRows = from?.repeatedRows ?? 0;
    this.first = [...(from?.first ?? [])];
  }

  /** True while a further trouble would be kept word for word. */
  get room(): boolean {
    return this.first.length < KEPT;
  }

  note(line: number, value: string, expected: string): void {
    if (this.room) this.first.push({ line, value: shown(value), expected });
  }

  count(): TroubleCount {
    const { rejected, unreadable, missing, overload, empty, headersAgain, repeatedRows } = this;
    return { rejected, unreadable, missing, overload, empty, headersAgain, repeatedRows, first: [...this.first] };
  }
}

/** Text of a file on one short line. */
export function shown(value: string): string {
  const plain = visible(value);
  return plain.length > 60 ? `${plain.slice(0, 57)}...` : plain;
}

/** Text on one line, control signs and other ends of line made visible. */
export function visible(value: string): string {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: control signs are what is looked for
  return value.replace(/[\u0000-\u001f\u007f-\u009f\u2028\u2029]+/g, "␣");
}
