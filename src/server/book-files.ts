import { existsSync, readdirSync } from "node:fs";

const ENDING = ".book";
/** A list a person can look through. */
const MOST = 200;

/** The files of books in a folder, by name; links and hidden files are none. Empty where there is no such folder. */
export function bookFiles(folder: string): string[] {
  if (!existsSync(folder)) return [];
  return readdirSync(folder, { withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith(ENDING) && !entry.name.startsWith("."))
    .map(({ name }) => name)
    .sort()
    .slice(0, MOST);
}

/** Names that a system keeps for its devices, and the one of the demonstration. */
const KEPT = /^(?:con|prn|aux|nul|com\d|lpt\d|demo)$/;
const LONGEST = 60;

/**
 * A file's name for a book of this title: small letters, digits and single hyphens of ASCII and nothing else, whatever the
 * title holds; with a number behind where a file is called so already.
 */
export function bookFileName(title: string, taken: (name: string) => boolean): string {
  const bare = title
    .normalize("NFKD")
    .replace(/\p{M}/gu, "")
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, "-")
    .slice(0, LONGEST)
    .replace(/^-+|-+$/g, "");
  const name = bare === "" || KEPT.test(bare) ? `book${bare && `-${bare}`}` : bare;
  for (let count = 1; ; count++) {
    const file = `${name}${count === 1 ? "" : `-${count}`}${ENDING}`;
    if (!taken(file)) return file;
  }
}
