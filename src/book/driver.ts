/** A value SQLite keeps. */
export type SqlValue = string | number | bigint | Uint8Array | null;

/**
 * What the book asks of a SQLite library, and no more, so that another library can take its place.
 * Everything is synchronous: a transaction is one uninterrupted piece of work.
 */
export interface SqlDriver {
  /** Runs a script without parameters. */
  exec(script: string): void;
  /** Runs one statement that answers no rows; returns how many rows it changed. */
  run(statement: string, parameters?: readonly SqlValue[]): number;
  /** Every row of one statement. */
  all<Row>(statement: string, parameters?: readonly SqlValue[]): Row[];
  /** The first row of one statement, if there is one. */
  get<Row>(statement: string, parameters?: readonly SqlValue[]): Row | undefined;
  /** Rows one by one, for tables too long to hold. Write nothing while it runs. */
  each<Row>(statement: string, parameters?: readonly SqlValue[]): IterableIterator<Row>;
  /** All of the work or none of it. Takes the write lock at once; a transaction inside another joins it. */
  transaction<T>(work: () => T): T;
  /**
   * Reads at one moment: what others write meanwhile is not seen. Within a transaction or another such reading it joins
   * it. Write nothing in it.
   */
  reading<T>(work: () => T): T;
  /** The library's own result code of an error, such as `SQLITE_BUSY`; undefined when it is none of its errors. */
  codeOf(error: unknown): string | undefined;
  close(): void;
}

export interface DriverOptions {
  readonly readOnly: boolean;
  /** How long a statement waits for another program's lock, ms. */
  readonly patience_ms: number;
}

export type OpenDriver = (file: string | Uint8Array, options: DriverOptions) => SqlDriver;
