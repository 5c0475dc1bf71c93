/** Bytes of an instrument as readings: lines are judged by the first of them and read by the readers of logs. */

import { CHANNELS, guessLive, type LiveLine, type LivePlan, liveChannels, liveLines } from "../../../log/index.ts";
import type { LiveChannel } from "./reading.ts";

/** Lines by which an instrument is judged, after one that may be half. */
const FIRST_LINES = 8;
/** Longest line, characters: noise on a line cannot fill the memory. */
const LONGEST = 4096;

/** One reading, by channel. */
export interface LineReading {
  /** When it came, ms. */
  readonly at: number;
  readonly values: Readonly<Record<string, number>>;
}

/** Reads what comes, piece by piece. */
export class LineStream {
  readonly #name: string;
  readonly #decoder = new TextDecoder();
  #plan: LivePlan | null;
  #read: ((line: string) => LiveLine) | null;
  #partial = "";
  #half = true;
  #first: { readonly at: number; readonly line: string }[] = [];

  /** @param plan how the same instrument was read before */
  constructor(name: string, plan: LivePlan | null = null) {
    this.#name = name;
    this.#plan = plan;
    this.#read = plan === null ? null : liveLines(plan);
  }

  /** How its lines are read, once they were judged: enough to read them alike after a break. */
  get plan(): LivePlan | null {
    return this.#plan;
  }

  /** Channels of its log, once they are known. */
  get channels(): LiveChannel[] {
    if (this.#plan === null) return [];
    return liveChannels(this.#plan).map(({ name, kind }) => ({
      name,
      quantity: kind,
      unit: CHANNELS[kind].unit,
      precision: "double",
    }));
  }

  /**
   * What a piece of bytes completes.
   * @throws InputError where the first lines are no readings
   */
  take(bytes: Uint8Array, at: number): LineReading[] {
    const lines = (this.#partial + this.#decoder.decode(bytes, { stream: true })).split(/\r\n|\n|\r(?!$)/);
    this.#partial = lines.pop()!.slice(-LONGEST);
    // The first after a beginning or a break may have begun before anyone listened.
    if (this.#half && lines.length > 0) {
      lines.shift();
      this.#half = false;
    }
    const whole = lines.map((line) => ({ at, line: line.slice(0, LONGEST) }));
    if (this.#read !== null) return this.#readings(whole);
    this.#first.push(...whole);
    if (this.#first.length < FIRST_LINES) return [];
    const judged = guessLive(
      this.#first.map(({ line }) => line),
      {},
      this.#name,
    );
    if (judged.kind === "asks") throw new Error("what its lines hold is not clear");
    this.#plan = judged.plan;
    this.#read = liveLines(judged.plan);
    return this.#readings(this.#first.splice(0));
  }

  #readings(lines: readonly { readonly at: number; readonly line: string }[]): LineReading[] {
    const names = liveChannels(this.#plan!).map(({ name }) => name);
    return lines.flatMap(({ at, line }) => {
      const read = this.#read!(line);
      if (read.kind !== "reading") return [];
      const values = Object.fromEntries(
        names.flatMap((name, k) => (Number.isNaN(read.values[k]!) ? [] : [[name, read.values[k]!]])),
      );
      return [{ at, values }];
    });
  }
}
