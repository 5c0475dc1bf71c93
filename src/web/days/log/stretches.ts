import { ApiTrouble, book, OutOfReach, until } from "../../api/client.ts";
import { type Bands, bandsOf, chained, condensed, type ViewHead } from "./view-bytes.ts";
import { runsOut, serves, stretchFor, type Window } from "./window.ts";

/** Fetches one stretch, at most so many readings or bands. */
export async function fetchStretch(
  log: string,
  stretch: Window,
  points: number,
  channels: readonly string[],
  signal?: AbortSignal,
): Promise<Bands> {
  const query = { from_s: stretch.from, to_s: stretch.to, points, channels: channels.join(",") };
  const answer = await book.logs[":id"].view.$get({ param: { id: log }, query }, signal ? until(signal) : {});
  const head = JSON.parse(answer.headers.get("Rodebench-View") ?? "null") as ViewHead;
  return bandsOf(head, await answer.arrayBuffer());
}

const COARSE = 2400;
/** The server's bands hold 64 readings: a window of fewer readings than this would show steps, and gets them all. */
const FEW = 30_000;
/** Readings in one answer. */
const PIECE = 16_000;

/** Every reading of a stretch of so many, piece by piece, condensed to what is drawn. */
async function fetchReadings(
  log: string,
  stretch: Window,
  expected: number,
  most: number,
  channels: readonly string[],
): Promise<Bands> {
  const pieces = Math.max(1, Math.ceil(expected / PIECE));
  const width = (stretch.to - stretch.from) / pieces;
  const parts = await Promise.all(
    Array.from({ length: pieces }, (_, k) =>
      fetchStretch(
        log,
        { from: stretch.from + k * width, to: k === pieces - 1 ? stretch.to : stretch.from + (k + 1) * width },
        20_000,
        channels,
      ),
    ),
  );
  return condensed(chained(parts), most);
}

/**
 * What is known of a log, as fine as the window needs: the whole coarsely, and the neighbourhood of the window finely.
 * One question at a time; while an answer is on its way the coarse one is there to be drawn.
 */
export class Stretches {
  coarse: Bands | null = null;
  fine: Bands | null = null;
  #fetched: Window | null = null;
  #fetchedFor: Window | null = null;
  #wanted: { window: Window; points: number } | null = null;
  #busy = false;
  #closed = false;
  readonly #log: string;
  readonly #whole: Window;
  readonly #rows: number;
  readonly #channels: readonly string[];
  readonly #tell: (trouble: string | null) => void;

  constructor(
    log: string,
    about: { readonly whole: Window; readonly rows: number },
    channels: readonly string[],
    tell: (trouble: string | null) => void,
  ) {
    this.#log = log;
    this.#whole = about.whole;
    this.#rows = about.rows;
    this.#channels = channels;
    this.#tell = tell;
  }

  /** Asks for what a window needs and is not there. */
  want(window: Window, points: number): void {
    this.#wanted = { window, points };
    if (!this.#busy) void this.#fetch();
  }

  close(): void {
    this.#closed = true;
  }

  async #fetch(): Promise<void> {
    this.#busy = true;
    try {
      if (this.coarse === null) {
        this.coarse =
          this.#rows <= 2 * FEW
            ? await fetchReadings(this.#log, this.#whole, this.#rows, 2 * COARSE, this.#channels)
            : await fetchStretch(this.#log, this.#whole, COARSE, this.#channels);
        if (this.#closed) return;
        this.#tell(null);
      }
      while (this.#wanted !== null && !this.#closed) {
        const { window, points } = this.#wanted;
        this.#wanted = null;
        if (this.#there(window)) continue;
        const inView = (this.#rows * (window.to - window.from)) / (this.#whole.to - this.#whole.from);
        const stretch = stretchFor(window, this.#whole);
        const share = (stretch.to - stretch.from) / (window.to - window.from);
        const most = Math.ceil(points * share);
        const bands =
          inView <= FEW
            ? await fetchReadings(this.#log, stretch, inView * share, most, this.#channels)
            : await fetchStretch(this.#log, stretch, Math.min(20_000, most), this.#channels);
        if (this.#closed) return;
        this.fine = bands;
        this.#fetched = stretch;
        this.#fetchedFor = window;
        this.#tell(null);
      }
    } catch (error) {
      if (error instanceof OutOfReach) this.#tell("the readings are in the book, which is out of reach now");
      else if (error instanceof ApiTrouble) this.#tell(error.message);
      else throw error;
    } finally {
      this.#busy = false;
    }
  }

  #there(window: Window): boolean {
    if (this.coarse?.readings === true) return true;
    if (this.#fetched === null || this.#fetchedFor === null) return false;
    return serves(this.#fetched, this.#fetchedFor, window, this.#whole) && !runsOut(this.#fetched, window, this.#whole);
  }
}
