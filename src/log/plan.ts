/** A table fully decided: all the byte loop needs to read it, and what is remembered of its source. */
import type { Delimiter } from "./cells.ts";
import type { Channel, Clock } from "./channel.ts";
import type { Encoding } from "./encoding.ts";
import type { DecimalMark, GroupingMark } from "./marks.ts";
import type { StampFormat } from "./stamp-format.ts";

export interface TimeColumn {
  /** Column from 0; −1: rows are counted instead. */
  readonly column: number;
  readonly format: StampFormat;
  /** A date in a column of its own, added to the clock time. */
  readonly date: { readonly column: number; readonly format: StampFormat } | null;
  readonly clock: Clock;
  /** Zone of stamps that state none, s east of UTC. */
  readonly zone: number;
  /** Zone of names that stand for several, s east of UTC. */
  readonly named?: number;
  /** Added to every time, s: the day of a clock or the start of an elapsed time, where it was told. */
  readonly start: number;
  /** Rows a second where rows are counted. */
  readonly rate: number;
}

export interface ValueColumn {
  readonly column: number;
  readonly channel: Channel;
  /** Value in the channel's unit = number written · scale; null: every cell states its own unit. */
  readonly scale: number | null;
  /** Column that holds this one's unit, or −1. */
  readonly unitColumn: number;
  /** Of a place: how it is written, where that is no plain decimal degrees. */
  readonly place?: PlaceForm;
}

/** A latitude or longitude that is not written as signed decimal degrees. */
export interface PlaceForm {
  /** `degreesMinutes`: ddmm.mmm in one number; `text`: degrees, minutes and seconds with their marks, or a letter beside. */
  readonly form: "degreesMinutes" | "text";
  /** Column of N and S, or E and W; −1: none. */
  readonly side: number;
  /** −1 where the title says south or west. */
  readonly sign: 1 | -1;
}

/** How a table of readings is read: delimiter, decimal sign, columns, times. */
export interface TablePlan {
  readonly encoding: Encoding;
  readonly delimiter: Delimiter;
  readonly decimal: DecimalMark;
  readonly grouping: GroupingMark;
  /** Cells of a row; further ones must be empty. */
  readonly width: number;
  /** First row of data: line (1 first), and bytes from the start of the file. */
  readonly dataLine: number;
  readonly dataOffset: number;
  readonly titles: readonly string[];
  readonly time: TimeColumn;
  readonly values: readonly ValueColumn[];
  /** Further cells that are added to the first load of a row. */
  readonly addends?: readonly ValueColumn[];
  /** True where no number of the head shows how decimals are marked: the first that leaves it open ends the reading. */
  readonly marksUnseen?: boolean;
  /** Usual time between rows, s; 0 where the first rows do not tell. */
  readonly step: number;
  /** Usual rows that share one stamp, 1 where each has its own: then a row equal to the one before is a repeat. */
  readonly rowsPerStamp: number;
}
