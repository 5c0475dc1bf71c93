/** What a report is asked with, and what is made of it. */
import type { PullsRead } from "./compare-input.ts";
import type { Shown } from "./options.ts";

export interface ReportOptions extends Shown {
  readonly to: string;
  readonly series?: string;
  readonly words?: string;
  readonly title?: string;
  readonly by?: string;
  readonly seed: string;
}

/** A report, and of how many pulls it tells. */
export interface ReportMade {
  readonly html: string;
  readonly title: string;
  readonly pulls: number;
  /** What is to be said of the clocks of pulls; absent: the report is of no pulls. */
  readonly remarks?: NonNullable<PullsRead["remarks"]>;
}
