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
  /** Numbers that stand for no reading, such as 32767. */
  readonly standIns: number;
  /** Readings of another vessel, receiver or cell than the one read. */
  readonly others: number;
  /** Headers from which on the readings are in another unit, and were read in it. */
  readonly otherUnits: number;
  /** Lines of words among the rows. */
  readonly comments: number;
  readonly first: readonly Trouble[];
}

const KEPT = 20;

/** Counts of a log in which all was read. */
export const NO_TROUBLES: TroubleCount = {
  rejected: 0,
  unreadable: 0,
  missing: 0,
  overload: 0,
  empty: 0,
  headersAgain: 0,
  repeatedRows: 0,
  standIns: 0,
  others: 0,
  otherUnits: 0,
  comments: 0,
  first: [],
};

export class Troubles {
  rejected: number;
  unreadable: number;
  missing: number;
  overload: number;
  empty: number;
  headersAgain: number;
  repeatedRows: number;
  standIns: number;
  others: number;
  otherUnits: number;
  comments: number;
  readonly first: Trouble[];

  constructor(from?: TroubleCount) {
    this.rejected = from?.rejected ?? 0;
    this.unreadable = from?.unreadable ?? 0;
    this.missing = from?.missing ?? 0;
    this.overload = from?.overload ?? 0;
    this.empty = from?.empty ?? 0;
    this.headersAgain = from?.headersAgain ?? 0;
    this.repeatedRows = from?.repeatedRows ?? 0;
    this.standIns = from?.standIns ?? 0;
    this.others = from?.others ?? 0;
    this.otherUnits = from?.otherUnits ?? 0;
    this.comments = from?.comments ?? 0;
    this.first = [...(from?.first ?? [])];
  }

  /** True while a further trouble would be kept word for word. */
  get room(): boolean {
    return this.first.length < KEPT;
  }

  note(line: number, value: string, expected: string): void {
    if (this.room) this.first.push({ line, value: shown(value), expected });
  }

  /** A number that stands for no reading. */
  standIn(line: number, value: string): void {
    this.standIns++;
    if (this.standIns === 1) this.note(line, value, "a reading is expected; this number stands for none");
  }

  count(): TroubleCount {
    const { rejected, unreadable, missing, overload, empty, headersAgain, repeatedRows } = this;
    const { standIns, others, otherUnits, comments } = this;
    const all = { rejected, unreadable, missing, overload, empty, headersAgain, repeatedRows };
    return { ...all, standIns, others, otherUnits, comments, first: [...this.first] };
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
