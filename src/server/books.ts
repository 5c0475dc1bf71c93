/** A book that can be chosen at the computer. */
export interface ListedBook {
  /** What it is chosen by. */
  readonly id: string;
  /** Its file's name; null for a demonstration that is made when it is chosen. */
  readonly file: string | null;
  /** Empty where it has none, or cannot be looked at. */
  readonly title: string;
  /** Whether its data are invented. */
  readonly simulated: boolean;
  /** The demonstration that comes with the program. */
  readonly demo: boolean;
  /** Pulls in it. */
  readonly pulls: number;
  readonly open: boolean;
  /** Why it cannot be looked at now, in one line. */
  readonly trouble: string | null;
}

/** What the bench asks of the books of a computer. */
export interface Books {
  /** Where they lie. */
  readonly folder: string;
  list(): ListedBook[];
  /**
   * Makes an empty book in the folder; nothing is overwritten.
   * @throws Refusal 409 when a book here is called so
   */
  make(title: string): ListedBook;
  /**
   * Opens another book in place of the one that is served. That one goes on to be served when the other cannot be opened.
   * @throws Refusal 404 for an id that is not in the list, 409 while something is under way in the book served
   */
  choose(id: string): ListedBook;
}
