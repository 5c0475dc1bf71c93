/** One instrument in one pull: listened to, lost, found again; each reading on disk before it is answered. */
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
/** A pull no device has asked about for so long is forgotten, s: its instrument is not followed on. */
const FORGOTTEN = 7_200;
/** A deck that shows an instrument asks each second; one silent for so long, s, is not at work on its pull. */
const WANTED = 60;
/** Rows answered at once; more are asked for again. */
const MOST = 2_000;

/** The fingerprint of the log that a pull and an instrument have. */
export const fingerprintOf = (pull: string, name: string): string => `live:${pull}:${name}`.slice(0, 200);

/** One instrument in one pull. */
export class Following {
  #state: InstrumentState = { kind: "waiting" };
  #log: string | null = null;
  rows = 0;
  /** When the last reading came, s; of this bench or of one before. */
  #last: number | null = null;
  #broken = false;
  #gaps: { readonly from: number; readonly to: number }[] = [];
  /** When a device last asked, s. */
  #asked: number;
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
    this.#asked = options.now() / 1000;
    this.#findKept();
    this.#done = this.#run().catch((error: unknown) => {
      this.#lost("a fault of the program");
      options.fault(error);
    });
  }

  /** Whether a device asked about it a moment ago. */
  get isWanted(): boolean {
    return !this.#stop.signal.aborted && this.#options.now() / 1000 - this.#asked < WANTED;
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
    this.#asked = now_s;
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
    if (from >= kept || this.#log === null)
      return this.#recent.slice(Math.max(0, from - kept), Math.max(0, from - kept) + MOST);
    const found: LiveReading[] = [];
    let n = 0;
    for (const { times, columns } of this.#book.logs.rows(this.#log)) {
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
    if ((this.#broken || silent) && this.#last !== null) this.#gaps.push({ from: this.#last, to: reading.time });
    this.#broken = false;
    this.#last = reading.time;
    // Readings that wait beside the book are in its log later: what is kept here must be one stretch of rows.
    if (reading.rows !== this.rows + 1) this.#recent.length = 0;
    this.rows = reading.rows;
    this.#recent.push(reading);
    if (this.#recent.length > 2 * MOST) this.#recent.splice(0, MOST);
    this.#state = { kind: "reading" };
    this.#markGaps();
    this.#told();
    if (reading.time - this.#asked > FORGOTTEN) this.#stop.abort();
  }

  #logs() {
    return this.#book.list("log", { where: { fingerprint: fingerprintOf(this.#pull, this.#source.name) } });
  }

  /** Those that cannot be written now wait for the next reading. */
  #markGaps(): void {
    if (this.#log === null || this.#gaps.length === 0) return;
    const drafts = this.#gaps.map(({ from, to }) => ({
      kind: "mark" as const,
      set: {
        log: this.#log!,
        kind: "gap",
        from_s: from,
        to_s: to,
        origin: "automatic" as const,
        remarks: "no reading came from the instrument",
      },
    }));
    try {
      this.#book.write(drafts, "mark a gap");
      this.#gaps = [];
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
    }
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
