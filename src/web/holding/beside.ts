/** Pulls of other testers' data packages, looked at beside those of the book; held while the page is open, kept nowhere. */
import Papa from "papaparse";
import { type Pull, readPullsTable } from "../../holding/index.ts";
import { createStore } from "../state/store.ts";
import { BESIDE, type BookPulls, versionOf } from "./book-pulls.ts";

/** One package: its tester, or its file where nobody is named, and its pulls. */
export interface Beside {
  readonly name: string;
  readonly pulls: readonly Pull[];
}

export const besideStore = createStore<readonly Beside[]>([]);

/** @param text the `pulls.csv` of a package @throws InputError for what is none */
export function readBeside(name: string, text: string): Beside {
  const { data } = Papa.parse<string[]>(text, { skipEmptyLines: true, delimitersToGuess: [",", ";", "\t"] });
  const pulls = readPullsTable(data, name).pulls.map((pull) => ({ ...pull, tester: pull.tester ?? name }));
  return { name: pulls[0]?.tester ?? name, pulls };
}

/** The book's pulls with those beside them; each source is then a tester. */
export function withBeside(book: BookPulls, beside: readonly Beside[]): BookPulls {
  if (beside.length === 0) return book;
  const others = beside.flatMap(({ name, pulls }, k) =>
    pulls.map((pull, i) => ({ pull, id: `${BESIDE} ${k} ${name} ${i}` })),
  );
  return {
    ...book,
    pulls: [
      ...book.pulls.map((pull) => ({ ...pull, tester: pull.tester ?? "this book" })),
      ...others.map(({ pull }) => pull),
    ],
    ids: [...book.ids, ...others.map(({ id }) => id)],
    series: [...book.series, ...others.map(() => BESIDE)],
    versions: [...book.versions, ...others.map(({ pull }) => versionOf(pull))],
  };
}
