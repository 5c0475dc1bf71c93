import { ABOUT } from "../record/index.ts";
import { lookAtHeader, openFile } from "./open-file.ts";
import { asTrouble } from "./trouble.ts";

/** What a book says of itself, without being opened for work. */
export interface BookLook {
  /** Empty where it has none. */
  readonly title: string;
  /** Whether the book itself says that its data are invented. */
  readonly simulated: boolean;
  /** Pulls that are not put aside. */
  readonly pulls: number;
}

/** Another program that writes is waited for so long, ms: a list of books is no reason to stand still. */
const PATIENCE_ms = 200;

/**
 * Looks at a book among others: neither checked, nor backed up, nor taken forward. Any version has these two tables.
 * @throws BookTrouble in one line
 */
export function lookAtBook(path: string): BookLook {
  lookAtHeader(path);
  const { driver } = openFile(path, { patience_ms: PATIENCE_ms });
  try {
    const about = driver.get<{ title: string | null; simulated: number | null }>(
      "SELECT title, simulated FROM about WHERE id = ?",
      [ABOUT],
    );
    const { pulls } = driver.get<{ pulls: number }>('SELECT count(*) AS pulls FROM "pull" WHERE hidden = 0')!;
    return { title: about?.title ?? "", simulated: about?.simulated === 1, pulls };
  } catch (error) {
    throw asTrouble(error, path, driver.codeOf(error));
  } finally {
    driver.close();
  }
}
