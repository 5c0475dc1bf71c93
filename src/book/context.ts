import type { Compilable } from "kysely";
import { DummyDriver, Kysely, SqliteAdapter, SqliteIntrospector, SqliteQueryCompiler } from "kysely";
import type { SqlDriver, SqlValue } from "./driver.ts";
import { idMaker, type Ports } from "./ids.ts";
import { nextStamp, type Stamp } from "./stamp.ts";
import type { Tables } from "./tables.ts";
import { asTrouble, BookTrouble } from "./trouble.ts";

/** An open book as the verbs of this room see it. */
export interface Context {
  readonly path: string;
  readonly driver: SqlDriver;
  readonly ports: Ports;
  /** This copy of the book: whose clock and hand a change came from. */
  readonly device: string;
  /** Who is writing. */
  readonly who: string;
  readonly readOnly: boolean;
  /** Whether the book backs itself up when that is due. */
  readonly backups?: boolean;
  newId(): string;
}

export function contextOf(parts: Omit<Context, "newId">): Context {
  return { ...parts, newId: idMaker(parts.ports) };
}

/** Writes queries with types; runs nothing by itself. */
export const query = new Kysely<Tables>({
  dialect: {
    createAdapter: () => new SqliteAdapter(),
    createDriver: () => new DummyDriver(),
    createIntrospector: (db) => new SqliteIntrospector(db),
    createQueryCompiler: () => new SqliteQueryCompiler(),
  },
});

/** The rows a query answers. */
export function rowsOf<Row>(driver: SqlDriver, q: Compilable<Row>): Row[] {
  const { sql, parameters } = q.compile();
  return driver.all<Row>(sql, parameters as SqlValue[]);
}

/** The first row a query answers. */
export function rowOf<Row>(driver: SqlDriver, q: Compilable<Row>): Row | undefined {
  const { sql, parameters } = q.compile();
  return driver.get<Row>(sql, parameters as SqlValue[]);
}

/** All of the work or none of it, every failure of the file told as trouble. */
export function writing<T>(context: Context, work: () => T): T {
  if (context.readOnly)
    throw new BookTrouble(
      "readOnly",
      context.path,
      "it can be read but not written",
      "a writable file in a writable folder is expected",
    );
  return asked(context, () => context.driver.transaction(work));
}

/** Reads, every failure of the file told as trouble. */
export function asked<T>(context: Context, work: () => T): T {
  try {
    return work();
  } catch (error) {
    throw asTrouble(error, context.path, context.driver.codeOf(error));
  }
}

/** The last stamp in the book. */
export function lastStamp(driver: SqlDriver): Stamp | undefined {
  return (
    driver.get<{ stamp: Stamp | null }>(
      "SELECT max(stamp) AS stamp FROM (SELECT max(stamp) AS stamp FROM act UNION ALL SELECT max(stamp) FROM purged)",
    )?.stamp ?? undefined
  );
}

/** The stamp for something written now; ask within the transaction that writes it. */
export function stampNow(context: Context): Stamp {
  return nextStamp(lastStamp(context.driver), context.ports.clock());
}
