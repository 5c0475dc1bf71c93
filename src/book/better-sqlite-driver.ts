import Database from "better-sqlite3";
import type { DriverOptions, SqlDriver, SqlValue } from "./driver.ts";
import { libraryTrouble } from "./trouble.ts";

/** The driver over better-sqlite3. A `Uint8Array` is a whole database held in memory. */
export function openBetterSqlite(file: string | Uint8Array, options: DriverOptions): SqlDriver {
  const database = opened(file, options);
  const statements = new Map<string, Database.Statement>();
  const statement = (text: string): Database.Statement => {
    const known = statements.get(text);
    if (known) return known;
    const made = database.prepare(text);
    statements.set(text, made);
    return made;
  };
  return {
    exec: (script) => void database.exec(script),
    run: (text, parameters = []) => statement(text).run(...parameters).changes,
    all: <Row>(text: string, parameters: readonly SqlValue[] = []) => statement(text).all(...parameters) as Row[],
    get: <Row>(text: string, parameters: readonly SqlValue[] = []) =>
      statement(text).get(...parameters) as Row | undefined,
    // A cursor of its own: a kept statement may be asked again while this one still answers.
    each: <Row>(text: string, parameters: readonly SqlValue[] = []) =>
      database.prepare(text).iterate(...parameters) as IterableIterator<Row>,
    transaction: (work) => {
      if (database.inTransaction) return work();
      statement("BEGIN IMMEDIATE").run();
      try {
        const answer = work();
        statement("COMMIT").run();
        return answer;
      } catch (error) {
        // SQLite rolls back by itself on a full disk or an input/output error.
        if (database.inTransaction) statement("ROLLBACK").run();
        throw error;
      }
    },
    reading: (work) => {
      if (database.inTransaction) return work();
      statement("BEGIN").run();
      try {
        return work();
      } finally {
        if (database.inTransaction) statement("ROLLBACK").run();
      }
    },
    codeOf: (error) => (error instanceof Database.SqliteError ? error.code : undefined),
    close: () => void database.close(),
  };
}

function opened(file: string | Uint8Array, options: DriverOptions): Database.Database {
  try {
    if (typeof file !== "string") return new Database(Buffer.from(file), { readonly: options.readOnly });
    return new Database(file, {
      readonly: options.readOnly,
      fileMustExist: options.readOnly,
      timeout: options.patience_ms,
    });
  } catch (error) {
    throw libraryTrouble(error) ?? error;
  }
}
