/**
 * What a load's readings show as they pass, that a reader of peaks must know: numbers that stand for "no reading",
 * places where the load jumps away and back within a few readings, and a top at which it stands as if cut off.
 * Nothing but numbers standing for no reading is left out: a snatch of the rode jumps too.
 */

/** Something seen in one channel of loads. */
export interface LoadSeen {
  readonly kind: "jumps" | "cutOff";
  readonly channel: string;
  /** Places of it: jumps, or readings at the top on end. */
  readonly count: number;
  /** Line of the first. */
  readonly line: number;
  /** The load reached there, N. */
  readonly newtons: number;
}

export type WatchState = readonly (number | null)[];

/** A jump away and back takes no more readings than this. */
const SHORT = 5;
/** A jump stands this many usual steps off, */
const STEPS = 12;
/** and this share of the largest load so far. */
const SHARE = 0.2;
/** Readings by which the usual step is known. */
const KNOWN = 8;
/** Readings on end at the very top that make it look cut off; */
const CUT = 5;
/** this many times longer than the load stands at any other value near the top. */
const LONGER = 3;

/** The ends of 16- and 32-bit counts, and the marks of programs for "none". */
const MEANS_NONE = new Set([
  32767, -32768, -32767, 65535, 65534, 2147483647, -2147483648, 4294967295, 8388607, -8388608, 16777215, -999,
]);

/** True for a written number that instruments put where they have no reading, when it is far from the one before. */
export function meansNone(written: number): boolean {
  const size = Math.abs(written);
  if (size < 999) return false;
  if (MEANS_NONE.has(written)) return true;
  if (size > 1e30) return true;
  // Nothing but nines, four or more: 9999, -9999, 99999, 9999.9, 999.99.
  return /^-?9+(\.9+)?$/.test(String(written)) && String(size).replace(".", "").length >= 4;
}

/** True when a written number stands for no reading; a load that climbs through it has the one before near it. */
export function standsForNone(written: number, before: number): boolean {
  if (written < 999 && written > -999) return false;
  return !(Math.abs(written - before) <= 0.5 * Math.abs(written)) && meansNone(written);
}

export class LoadWatch {
  private last = Number.NaN;
  private step = 0;
  private readings = 0;
  private largest = 0;
  /** Readings since the load went away in one step, 0 when it has not; from where, and how far. */
  private away = 0;
  private from = 0;
  private tip = 0;
  private awayLine = 0;
  private jumps = 0;
  private jumpLine = 0;
  private jumpTip = 0;
  private top = Number.NEGATIVE_INFINITY;
  private topRun = 0;
  private topLongest = 0;
  private topLine = 0;
  /** Readings on end that equal the one before, now and at most below the top. */
  private run = 0;
  private longest = 0;

  constructor(from?: WatchState | null) {
    if (!from) return;
    const at = (i: number) => from[i] ?? 0;
    [this.step, this.readings, this.largest] = [at(1), at(2), at(3)];
    [this.away, this.from, this.tip, this.awayLine] = [at(4), at(5), at(6), at(7)];
    [this.jumps, this.jumpLine, this.jumpTip] = [at(8), at(9), at(10)];
    [this.topRun, this.topLongest, this.topLine, this.run, this.longest] = [at(12), at(13), at(14), at(15), at(16)];
    this.last = from[0] ?? Number.NaN;
    this.top = from[11] ?? Number.NEGATIVE_INFINITY;
  }

  /** Looks at the readings of a batch, N, NaN where there is none; `lines` says where each stands. */
  scan(newtons: Float64Array, rows: number, lines: Int32Array): void {
    // What changes with each reading is held here: fields would be written to memory each time.
    let { last, step, readings, largest, run, top } = this;
    for (let i = 0; i < rows; i++) {
      const value = newtons[i]!;
      const move = value - last;
      const size = move < 0 ? -move : move;
      // The first reading has no step behind it, and none has a step to it where no value stands.
      if (!(size >= 0)) {
        if (Number.isNaN(value)) continue;
      } else if (this.away > 0) {
        last = value;
        if (this.further(value, size)) {
          run = 0;
          continue;
        }
        run = 0;
      } else if (size > STEPS * step && size > SHARE * largest && readings > KNOWN) {
        this.from = last;
        this.tip = value;
        this.away = 1;
        this.awayLine = lines[i]!;
        last = value;
        continue;
      } else {
        step += (size - step) * (readings < 20 ? 1 / readings : 0.05);
        run = move === 0 ? run + 1 : 0;
      }
      last = value;
      readings++;
      if (value > largest) largest = value;
      else if (-value > largest) largest = -value;
      if (value >= top) top = this.atTop(value, top, run, lines[i]!);
      else if (run > 0 && value > 0.5 * top && run + 1 > this.longest) this.longest = run + 1;
    }
    this.last = last;
    this.step = step;
    this.readings = readings;
    this.largest = largest;
    this.run = run;
    this.top = top;
  }

  seen(channel: string): LoadSeen[] {
    const seen: LoadSeen[] = [];
    if (this.jumps > 0)
      seen.push({ kind: "jumps", channel, count: this.jumps, line: this.jumpLine, newtons: this.jumpTip });
    const run = Math.max(this.topLongest, this.topRun);
    if (run >= CUT && run > LONGER * this.longest && this.top > 0)
      seen.push({ kind: "cutOff", channel, count: run, line: this.topLine, newtons: this.top });
    return seen;
  }

  state(): WatchState {
    const { last, step, readings, largest, away, from, tip, awayLine, jumps, jumpLine, jumpTip } = this;
    const { top, topRun, topLongest, topLine, run, longest } = this;
    const all = [last, step, readings, largest, away, from, tip, awayLine, jumps, jumpLine, jumpTip];
    return [...all, top, topRun, topLongest, topLine, run, longest].map((value) =>
      Number.isFinite(value) ? value : null,
    );
  }

  /** Away from where it stood: back within a few readings, over an edge, is a jump; else it is the load's own way. @returns true while it stays away */
  private further(newtons: number, size: number): boolean {
    const height = Math.abs(this.tip - this.from);
    const off = Math.abs(newtons - this.from);
    if (off < 0.3 * height) {
      if (size > 0.5 * height && this.jumps++ === 0) {
        this.jumpLine = this.awayLine;
        this.jumpTip = this.tip;
      }
      this.away = 0;
    } else {
      if (off > height) this.tip = newtons;
      if (++this.away > SHORT) this.away = 0;
    }
    return this.away > 0;
  }

  /** @returns the top from here on */
  private atTop(newtons: number, top: number, run: number, line: number): number {
    if (newtons > top) {
      // What was the top is a value below it now.
      if (top > 0.5 * newtons) this.longest = Math.max(this.longest, this.topLongest, this.topRun);
      this.topRun = 1;
      this.topLongest = 1;
      this.topLine = line;
    } else if (run > 0) {
      if (++this.topRun > this.topLongest) this.topLongest = this.topRun;
    } else this.topRun = 1;
    return newtons;
  }
}
