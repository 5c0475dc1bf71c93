import type { Book } from "../book/index.ts";
import { InputError } from "../quantity/index.ts";
import { type Followed, Following, fingerprintOf, type InstrumentOptions } from "./following.ts";

/**
 * The instruments named when the bench was opened, and what they bring to pulls. Each reading is on disk before it is
 * answered. Each pull and instrument has one log, whose fingerprint says so: after a kill it is gone on with, and the
 * time without readings is marked in it.
 */
export class Instruments {
  readonly #options: InstrumentOptions;
  readonly #following = new Map<string, Following>();
  #book: Book | null = null;

  constructor(options: InstrumentOptions) {
    this.#options = options;
  }

  get names(): readonly string[] {
    return this.#options.sources.map(({ name }) => name);
  }

  /** Whether readings of a pull are being taken. */
  get isFollowing(): boolean {
    return [...this.#following.values()].some((one) => one.isWanted);
  }

  /** @throws InputError for an instrument that was not named, and once it has ended in this pull */
  begin(pull: string, name: string): void {
    const source = this.#options.sources.find((one) => one.name === name);
    if (source === undefined)
      throw new InputError("instrument", JSON.stringify(name), `one of ${this.names.join(", ")} is expected`);
    const key = keyOf(pull, name);
    if (this.#following.has(key)) return;
    const [log] = this.#own().list("log", { where: { fingerprint: fingerprintOf(pull, name) } });
    if (log !== undefined && this.#own().logs.progress(log.id).kind === "finished")
      throw new InputError("pull", JSON.stringify(pull), "a pull that has not ended is expected");
    this.#following.set(key, new Following(this.#own(), source, pull, this.#options));
  }

  /** What has come from a row on; null where it is not followed: begin it. Waits a while where nothing has. */
  async readings(pull: string, name: string, from: number, wait_ms: number): Promise<Followed | null> {
    const following = this.#following.get(keyOf(pull, name));
    if (following === undefined) return null;
    if (following.rows <= from) await following.changed(wait_ms);
    return following.answer(from);
  }

  /** No more is wanted: the log is ended. @returns its id and rows, null where nothing ever came */
  async end(pull: string, name: string): Promise<{ readonly log: string; readonly rows: number } | null> {
    const key = keyOf(pull, name);
    const following = this.#following.get(key);
    this.#following.delete(key);
    await following?.stop();
    const book = this.#own();
    const [log] = book.list("log", { where: { fingerprint: fingerprintOf(pull, name) } });
    if (log === undefined) return null;
    const { rows } = book.logs.finish(log.id);
    return { log: log.id, rows };
  }

  /** Leaves the logs open for the next bench. */
  async stopAll(): Promise<void> {
    await Promise.all([...this.#following.values()].map((one) => one.stop()));
    this.#following.clear();
    this.#book?.close();
    this.#book = null;
  }

  #own(): Book {
    this.#book ??= this.#options.open();
    return this.#book;
  }
}

const keyOf = (pull: string, name: string): string => `${pull} ${name}`;
