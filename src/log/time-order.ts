/**
 * How the times of a log run on: gaps, restarts, clock times over midnight, changes of rate, rows out of order.
 * Times stay as they were stamped; what happened is marked beside them.
 */

export interface LogMark {
  readonly kind: "gap" | "restart" | "late" | "midnight" | "rate" | "shared";
  /** Row from 0 before which it happened, of those kept. */
  readonly row: number;
  readonly line: number;
  /** Time of the row before and of this one, s. */
  readonly from: number;
  readonly to: number;
}

/** State to be taken up again. */
export interface OrderState {
  readonly last: number | null;
  readonly step: number;
  readonly day: number;
  readonly like: number;
  readonly likeStep: number;
  readonly counts: Readonly<Record<LogMark["kind"], number>>;
}

/** Marks kept word for word in one log; all are counted. */
const KEPT = 1000;
/** A step this many times the usual one is a gap. */
const GAP = 5;
/** This many alike steps in a row are a new rate, not gaps. */
const ALIKE = 8;

export class TimeOrder {
  readonly counts: Record<LogMark["kind"], number> = { gap: 0, restart: 0, late: 0, midnight: 0, rate: 0, shared: 0 };
  /** Marks since they were last taken. */
  marks: LogMark[] = [];
  private last = Number.NaN;
  private step: number;
  private day = 0;
  private anew = false;
  private like = 0;
  private likeStep = 0;
  private readonly ofDay: boolean;

  /** @param step usual step, s, 0 when not known. @param ofDay true for clock times, which start again at midnight. */
  constructor(step: number, ofDay: boolean, from?: OrderState) {
    this.step = from?.step ?? step;
    this.ofDay = ofDay;
    if (from) {
      this.last = from.last ?? Number.NaN;
      this.day = from.day;
      this.like = from.like;
      this.likeStep = from.likeStep;
      Object.assign(this.counts, from.counts);
    }
  }

  /** The time of the row before, s; NaN before the first. */
  get before(): number {
    return this.last;
  }

  /** A header was met again: a time that runs back behind it is a restart, however little. */
  begunAnew(): void {
    this.anew = true;
  }

  /** Takes the next time and returns it, carried over midnights. */
  next(time: number, row: number, line: number): number {
    let t = time + this.day;
    const step = t - this.last;
    // The usual way through: forward by no more than a few steps.
    if (step > 0 && step <= this.step * GAP) {
      if (this.anew) this.anew = false;
      this.like = 0;
      this.last = t;
      return t;
    }
    if (step > 0) {
      if (this.step > 0) this.longStep(step, t, row, line);
      else this.step = step;
    } else if (step < 0) {
      if (this.ofDay && step < -43200) {
        this.day += 86400;
        t += 86400;
        this.mark("midnight", t, row, line);
      } else if (-step <= this.step * 3 && this.step > 0 && !this.anew) {
        // A row that was overtaken on its way is late; time goes on from the later one.
        this.mark("late", t, row, line);
        return t;
      } else this.mark("restart", t, row, line);
    }
    this.anew = false;
    this.last = t;
    return t;
  }

  /** Notes two different rows at one stamp. */
  shared(t: number, row: number, line: number): void {
    this.mark("shared", t, row, line);
  }

  state(): OrderState {
    const { step, day, like, likeStep } = this;
    return { last: Number.isNaN(this.last) ? null : this.last, step, day, like, likeStep, counts: { ...this.counts } };
  }

  private longStep(step: number, t: number, row: number, line: number): void {
    const alike = Math.abs(step - this.likeStep) <= 0.2 * this.likeStep;
    this.like = alike ? this.like + 1 : 1;
    this.likeStep = step;
    if (this.like < ALIKE) {
      this.mark("gap", t, row, line);
      return;
    }
    // The gaps were steps of a slower rate.
    this.counts.gap -= ALIKE - 1;
    while (this.marks.at(-1)?.kind === "gap" && this.marks.at(-1)!.row > row - ALIKE) this.marks.pop();
    this.mark("rate", t, row, line);
    this.step = step;
    this.like = 0;
  }

  private mark(kind: LogMark["kind"], to: number, row: number, line: number): void {
    this.counts[kind]++;
    if (this.counts[kind] <= KEPT) this.marks.push({ kind, row, line, from: this.last, to });
  }
}
