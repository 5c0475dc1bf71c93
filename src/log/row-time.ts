/** The time of a row: from its stamp, its count, its date and clock, or the rows before it. */
import type { TablePlan } from "./plan.ts";
import type { RowScanner } from "./row-scan.ts";
import { StampReader } from "./stamp.ts";
import { isCount, perSecond } from "./stamp-format.ts";

export class RowTime {
  private readonly time: TablePlan["time"];
  private readonly scanner: RowScanner;
  private readonly stamps: StampReader;
  private readonly dates: StampReader | null;
  /** Counts of the time column in a second; 0 where it is no plain number. */
  private readonly countRate: number;
  /** Place of the counted time among the scanner's numbers. */
  private readonly counted: number;

  constructor(plan: TablePlan, scanner: RowScanner) {
    const { time } = plan;
    const decimal = plan.decimal.charCodeAt(0);
    this.time = time;
    this.scanner = scanner;
    this.stamps = new StampReader(time.format, time.date === null ? time.zone : 0, decimal, time.named);
    this.dates = time.date === null ? null : new StampReader(time.date.format, time.zone, decimal);
    this.countRate = !isCount(time.format) ? 0 : time.format === "count" ? time.rate : perSecond(time.format);
    this.counted = plan.values.length + (plan.addends?.length ?? 0);
  }

  /** Seconds of the row just scanned, NaN where it tells none. @param row its number among all rows */
  read(bytes: Uint8Array, row: number): number {
    const { time } = this;
    const { cells, cellFrom, cellTo } = this.scanner;
    if (time.column < 0) return time.start + row / time.rate;
    if (time.column >= cells) return Number.NaN;
    const counted = this.countRate === 0 ? Number.NaN : this.scanner.row[this.counted]!;
    if (!Number.isNaN(counted)) return time.start + counted / this.countRate;
    const seconds = this.stamps.read(bytes, cellFrom[time.column]!, cellTo[time.column]!);
    if (time.format === "count") return time.start + seconds / time.rate;
    if (time.date === null || this.dates === null) return time.start + seconds;
    const { column } = time.date;
    return seconds + (column < cells ? this.dates.read(bytes, cellFrom[column]!, cellTo[column]!) : Number.NaN);
  }
}
