import { existsSync, readFileSync } from "node:fs";
import { basename, dirname, join, resolve } from "node:path";
import {
  type Book,
  BookTrouble,
  createDemoBook,
  DEMO_TITLE,
  type LiveSource,
  lookAtBook,
  makeFolders,
  newBook,
  openBook,
  takeInLeft,
} from "../book/index.ts";
import { InputError, quoted } from "../quantity/index.ts";
import { isId } from "../record/index.ts";
import { booksTopic } from "./api-books.ts";
import type { Topic } from "./bench-app.ts";
import { bookFileName, bookFiles } from "./book-files.ts";
import { type BookTopics, bookTopics } from "./book-topics.ts";
import type { Books, ListedBook } from "./books.ts";
import { writePrivately } from "./private-file.ts";
import { Refusal } from "./refusals.ts";

/** The demonstration's id in the list: no file's name, since those end in `.book`. */
const DEMO = "demo";
const DEMO_FILE = "demo.book";
/** The file of the data folder that holds the name of the book last chosen. */
const CHOSEN_FILE = "chosen-book";
const WHO = { who: "this computer" };

/** What the books of a computer are served with. */
export interface BooksOptions {
  /** The folder of the user's own data: the demonstration, the keys of devices, files that were sent. */
  readonly dataFolder: string;
  /** What may be followed on deck. */
  readonly instruments: readonly LiveSource[];
  /** Milliseconds since 1970. */
  readonly now: () => number;
  /** Told of faults of the program. */
  readonly fault: (error: unknown) => void;
  /** Told, a line each, what whoever opened a book should know. */
  readonly told: (line: string) => void;
}

/** One book as a bench serves it. */
export interface ServedBook {
  readonly topics: readonly Topic[];
  readonly devicesFile: string;
}

type Open = ServedBook & { readonly book: Book } & Pick<BookTopics, "underWay" | "stop">;

/** The demonstration book of a data folder, made the first time. */
export function demoBookIn(dataFolder: string): Book {
  const path = join(dataFolder, DEMO_FILE);
  if (existsSync(path)) return openBook(path, WHO);
  try {
    makeFolders(dataFolder, 0o700);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    throw new InputError(
      dataFolder,
      `the folder for your own data cannot be made (${code ?? "unknown cause"})`,
      "a home that may be written is expected, or a book of your own: rodebench open BOOK",
    );
  }
  return createDemoBook(path, WHO);
}

/** The book that was last chosen in the bench, of those in the data folder; the demonstration where none was, or it is gone. */
export function lastChosenIn(dataFolder: string): Book {
  const kept = join(dataFolder, CHOSEN_FILE);
  const name = existsSync(kept) ? readFileSync(kept, "utf8").trim() : "";
  const file = bookFiles(dataFolder).find((one) => one === name);
  return file === undefined ? demoBookIn(dataFolder) : openBook(join(dataFolder, file), WHO);
}

/** Keys belong to one book: a device let in to one does not see another. */
export const devicesFileOf = (book: Book, dataFolder: string): string =>
  join(dataFolder, `devices-${ownId(book)}.json`);

/** What tells this book from others in the names of files kept for it: nothing but an id becomes part of a path. */
function ownId(book: Book): string {
  const id = book.context.device;
  if (!isId(id)) throw new InputError(book.path, "a book whose own id is none", "a book that the program made");
  return id;
}

/**
 * The books of one folder, beside them the demonstration, and the one of them that is served. The folder is that of the
 * book the bench was opened on. What comes from outside is compared with the folder's own list and never made into a path.
 */
export class BooksHere implements Books {
  readonly folder: string;
  readonly #options: BooksOptions;
  #open: Open;
  #turn: (served: ServedBook) => Promise<void> = async () => undefined;
  #leaving: Promise<void> = Promise.resolve();

  /** @param book the one to be served first; it is closed here */
  constructor(book: Book, options: BooksOptions) {
    this.#options = options;
    this.folder = dirname(resolve(book.path));
    this.#open = this.#served(book);
  }

  get served(): ServedBook {
    return this.#open;
  }

  get path(): string {
    return this.#open.book.path;
  }

  /**
   * Who serves the book is told of the next. When that throws the book stays as it was; when it resolves, all that was asked
   * of the one before is answered.
   */
  onTurn(turn: (served: ServedBook) => Promise<void>): void {
    this.#turn = turn;
  }

  list(): ListedBook[] {
    const names = new Set([basename(this.folder === dirname(this.path) ? this.path : ""), ...bookFiles(this.folder)]);
    names.delete("");
    const listed = [...names].sort().map((file) => this.#look(join(this.folder, file)));
    if (listed.some(({ demo }) => demo)) return listed;
    const demo = this.#demoPath;
    if (existsSync(demo)) return [...listed, this.#look(demo)];
    const none = { id: DEMO, file: null, title: DEMO_TITLE, simulated: true, demo: true };
    return [...listed, { ...none, pulls: 0, open: false, trouble: null }];
  }

  make(title: string): ListedBook {
    const same = (one: string): boolean => one.trim().toLowerCase() === title.toLowerCase();
    if (this.list().some((book) => same(book.title)))
      throw new Refusal(409, "title", quoted(title), "a title that no book here has yet");
    const file = bookFileName(title, (name) => existsSync(join(this.folder, name)));
    const path = join(this.folder, file);
    newBook(path, { title }, { ...WHO, backups: false }).close();
    return this.#look(path);
  }

  choose(id: string): ListedBook {
    const asked = this.list().find((one) => one.id === id);
    if (asked === undefined) throw new Refusal(404, "book", quoted(id), "the id of a book in the list");
    if (asked.open) return asked;
    const underWay = this.#open.underWay();
    if (underWay !== null) throw new Refusal(409, "book", underWay, "end it first; then another book can be opened");
    const next = this.#opened(asked);
    const before = this.#open;
    this.#open = next;
    // What was asked of the book before is answered, and what it does in the background stands still, before it is closed.
    const left = next.turned.then(() => leave(before));
    this.#leaving = Promise.all([this.#leaving, left]).then(() => undefined, this.#options.fault);
    this.#remember();
    this.#options.told(`the bench is now open on ${this.path}`);
    return this.#look(this.path);
  }

  /** Brings what is under way to a stand and closes the book. */
  async close(): Promise<void> {
    await this.#leaving;
    await leave(this.#open);
  }

  get #demoPath(): string {
    return join(this.#options.dataFolder, DEMO_FILE);
  }

  /** Opens it and has it served; `turned` resolves when what was asked of the one before is answered. */
  #opened(asked: ListedBook): Open & { readonly turned: Promise<void> } {
    const book =
      asked.id === DEMO ? demoBookIn(this.#options.dataFolder) : openBook(join(this.folder, asked.file!), WHO);
    const open = this.#served(book);
    try {
      return { ...open, turned: this.#turn(open) };
    } catch (error) {
      book.close();
      throw error;
    }
  }

  #served(book: Book): Open {
    try {
      return this.#serve(book);
    } catch (error) {
      book.close();
      throw error;
    }
  }

  #serve(book: Book): Open {
    const { dataFolder, instruments, now, fault, told } = this.#options;
    const devicesFile = devicesFileOf(book, dataFolder);
    for (const notice of [...book.notices, ...takeInLeft(book)]) told(notice);
    const sentFolder = join(dataFolder, `sent-${ownId(book)}`);
    const { topics, underWay, stop } = bookTopics(book, { sentFolder, instruments, now, fault });
    const books: Topic = (api) => void api.route("/", booksTopic(this));
    return { book, topics: [books, ...topics], devicesFile, underWay, stop };
  }

  /** Opened without a name, the bench opens this book the next time. */
  #remember(): void {
    const { dataFolder } = this.#options;
    if (dirname(this.path) !== resolve(dataFolder)) return;
    try {
      writePrivately(join(dataFolder, CHOSEN_FILE), basename(this.path));
    } catch (error) {
      this.#options.told(`it is not remembered for the next time: ${error instanceof Error ? error.message : error}`);
    }
  }

  #look(path: string): ListedBook {
    const demo = resolve(path) === resolve(this.#demoPath);
    const file = basename(path);
    const open = resolve(path) === resolve(this.path);
    const told = { id: demo ? DEMO : file, file, demo, open };
    try {
      const { title, simulated, pulls } = lookAtBook(path);
      return { ...told, title, simulated: simulated || demo, pulls, trouble: null };
    } catch (error) {
      if (!(error instanceof BookTrouble)) throw error;
      const trouble = `${error.given}; ${error.expected}`;
      return { ...told, title: "", simulated: demo, pulls: 0, trouble };
    }
  }
}

async function leave({ stop, book }: Open): Promise<void> {
  await stop();
  book.close();
}
