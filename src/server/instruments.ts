import { type Book, captureLive, type LiveReading, type LiveSource } from "../book/index.ts";
import { InputError } from "../quantity/index.ts";

/** How an instrument stands in a pull. */
export type InstrumentState =
  /** Listened to; nothing readable has come yet. */
  | { readonly kind: "waiting" }
  | { readonly kind: "reading" }
  /** Connected, but silent for a while. */
  | { readonly kind: "silent" }
  /** Not to be reached, or its lines are no readings: tried again. */
  | { readonly kind: "lost"; readonly why: string };

/** What one instrument has brought to one pull. */
export interface Followed {
  readonly state: InstrumentState;
  /** null until the first reading is on disk. */
  readonly log: string | null;
  readonly rows: readonly LiveReading[];
  /** What to ask for next. */
  readonly next: number;
  /** This computer's clock, s since 1970. */
  readonly now_s: number;
}

/** What instruments are followed with. */
export interface InstrumentOptions {
  readonly sources: readonly LiveSource[];
  /** A connection to the book of their own, opened with the first that is followed. */
  readonly open: () => Book;
  readonly now: () => number;
  readonly fault: (error: unknown) => void;
  /** Between two tries, ms. */
  readonly again_ms?: number;
  /** Silent so long it is told, ms. */
  readonly silent_ms?: number;
}

const AGAIN = 1_000;
const SILENT = 3_000;
/** Rows answered at once; more are asked for again. */
const MOST = 2_000;

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
const fingerprintOf = (pull: string, name: string): string => `live:${pull}:${name}`.slice(0, 200);

/** One instrument in one pull. */
class Following {
  #state: InstrumentState = { kind: "waiting" };
  #log: string | null = null;
  rows = 0;
  /** When the last reading came, s; of this bench or of one before. */
  #last: number | null = null;
  #broken = false;
  /** The newest rows; older ones are in the book. */
  readonly #recent: LiveReading[] = [];
  readonly #stop = new AbortController();
  #wake: (() => void)[] = [];
  readonly #done: Promise<void>;
  readonly #book: Book;
  readonly #source: LiveSource;
  readonly #pull: string;
  readonly #options: InstrumentOptions;

  constructor(book: Book, source: LiveSource, pull: string, options: InstrumentOptions) {
    this.#book = book;
    this.#source = source;
    this.#pull = pull;
    this.#options = options;
    this.#findKept();
    this.#done = this.#run().catch((error: unknown) => {
      this.#lost("a fault of the program");
      options.fault(error);
    });
  }

  async stop(): Promise<void> {
    this.#stop.abort();
    this.#told();
    await this.#done;
  }

  /** Resolves with the next reading or change of state, or after so long. */
  changed(wait_ms: number): Promise<void> {
    return new Promise((done) => {
      const timer = setTimeout(done, wait_ms);
      this.#wake.push(() => {
        clearTimeout(timer);
        done();
      });
    });
  }

  answer(from: number): Followed {
    const now_s = this.#options.now() / 1000;
    const rows = this.#rowsFrom(from);
    const silent = this.#state.kind === "reading" && this.#last !== null && now_s - this.#last > this.#silentAfter;
    return {
      state: silent ? { kind: "silent" } : this.#state,
      log: this.#log,
      rows,
      next: rows.at(-1)?.rows ?? Math.min(from, this.rows),
      now_s,
    };
  }

  get #silentAfter(): number {
    return (this.#options.silent_ms ?? SILENT) / 1000;
  }

  #rowsFrom(from: number): LiveReading[] {
    const kept = this.rows - this.#recent.length;
    if (from >= kept) return this.#recent.slice(from - kept, from - kept + MOST);
    const found: LiveReading[] = [];
    let n = 0;
    for (const { times, columns } of this.#book.logs.rows(this.#log!)) {
      for (let i = 0; i < times.length && found.length < MOST; i++) {
        n++;
        if (n <= from) continue;
        const values = Object.fromEntries(
          Object.entries(columns).flatMap(([name, column]) => (Number.isNaN(column[i]!) ? [] : [[name, column[i]!]])),
        );
        found.push({ time: times[i]!, values, rows: n });
      }
      if (found.length >= MOST) break;
    }
    return found;
  }

  /** What a bench before this one had of it. */
  #findKept(): void {
    const [log] = this.#book.list("log", { where: { fingerprint: fingerprintOf(this.#pull, this.#source.name) } });
    if (log === undefined) return;
    this.#log = log.id;
    this.rows = this.#book.logs.progress(log.id).rows;
    for (const { times } of this.#book.logs.rows(log.id, [])) this.#last = times.at(-1) ?? this.#last;
    this.#broken = this.rows > 0;
  }

  async #run(): Promise<void> {
    const { signal } = this.#stop;
    while (!signal.aborted) {
      try {
        const answer = await captureLive(this.#book, this.#source, {
          now: this.#options.now,
          signal,
          pull: this.#pull,
          name: `${this.#source.name} on deck`,
          continues: fingerprintOf(this.#pull, this.#source.name),
          onReading: (reading) => this.#came(reading),
          onLost: (why) => this.#lost(why),
        });
        if (answer.kind === "asks") this.#lost("what its lines hold is not clear: say it with rodebench log --live");
        else if (!signal.aborted) this.#lost("it ended");
      } catch (error) {
        if (!(error instanceof InputError)) throw error;
        this.#lost(error.message);
      }
      if (!signal.aborted) await this.changed(this.#options.again_ms ?? AGAIN);
    }
  }

  #came(reading: LiveReading): void {
    const [log] = this.#log === null ? this.#logs() : [{ id: this.#log }];
    this.#log = log?.id ?? null;
    const silent = this.#last !== null && reading.time - this.#last > this.#silentAfter;
    if ((this.#broken || silent) && this.#last !== null) this.#markGap(this.#last, reading.time);
    this.#broken = false;
    this.#last = reading.time;
    this.rows = reading.rows;
    this.#recent.push(reading);
    if (this.#recent.length > 2 * MOST) this.#recent.splice(0, MOST);
    this.#state = { kind: "reading" };
    this.#told();
  }

  #logs() {
    return this.#book.list("log", { where: { fingerprint: fingerprintOf(this.#pull, this.#source.name) } });
  }

  #markGap(from: number, to: number): void {
    if (this.#log === null) return;
    const set = {
      log: this.#log,
      kind: "gap",
      from_s: from,
      to_s: to,
      origin: "automatic" as const,
      remarks: "no reading came from the instrument",
    };
    this.#book.write([{ kind: "mark", set }], "mark a gap");
  }

  #lost(why: string): void {
    this.#broken ||= this.rows > 0;
    this.#state = { kind: "lost", why };
    this.#told();
  }

  #told(): void {
    const wake = this.#wake;
    this.#wake = [];
    for (const one of wake) one();
  }
}
