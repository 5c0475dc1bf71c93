/**
 * Why a log is taken for what it is, what it leaves open, what is taken for granted of it and why reading ended: causes
 * and numbers as plain data, which `words` turns into sentences. Texts of the file stand in them on one short line.
 */
import type { ChannelKind } from "./channel.ts";

/** The order in which a date's year, month and day stand. */
export type DateOrder = "ymd" | "dmy" | "mdy";

/** Why something was guessed of a log. */
export type GuessCause = LayoutCause | TimeCause | ReadingsCause | MessageCause;

/** Why a column is taken for what it is. */
export type ColumnCause =
  | GuessCause
  /** Its title and its unit, each with its own cause. */
  | { readonly kind: "both"; readonly whys: readonly GuessCause[] }
  /** Rows are counted, so many a second. */
  | { readonly kind: "counted"; readonly why: GuessCause; readonly rate: number };

type LayoutCause =
  /** It was told. */
  | { readonly kind: "told" }
  /** How the bytes show their encoding. */
  | { readonly kind: "byteOrderMark" | "everySecondZero" | "notUtf8" | "validUtf8" }
  /** Of the lines so many part into rows of one width, in cells. */
  | { readonly kind: "rowsOfWidth"; readonly rows: number; readonly lines: number; readonly width: number }
  /** Cells that prove a mark, one of them; or two that prove both. */
  | { readonly kind: "cellProvesMark"; readonly cell: string }
  | { readonly kind: "bothMarks"; readonly point: string; readonly comma: string }
  | { readonly kind: "noDecimals" | "pointsAmongCommas" }
  /** As thousands of so large a unit the cell would be no load of a rode. */
  | { readonly kind: "tooLargeForThousands"; readonly cell: string }
  /** A mark before three digits; `beside` is a whole number that speaks for thousands, null where none stands there. */
  | {
      readonly kind: "markBeforeThree";
      readonly mark: "." | ",";
      readonly cell: string;
      readonly beside: string | null;
    };

type TimeCause =
  | { readonly kind: "yearFirst" | "onlyYearFirst" | "eightDigits" | "monthsInLetters" }
  /** In the other order the cell would have a month past 12. */
  | { readonly kind: "noMonthPast12"; readonly order: DateOrder; readonly cell: string }
  | { readonly kind: "titleTellsOrder"; readonly title: string }
  /** In this order midnight steps one day, in the others more. */
  | { readonly kind: "midnightStepsADay"; readonly order: DateOrder }
  | { readonly kind: "pointsDayFirst" | "writtenDayFirst" }
  | { readonly kind: "severalOrders"; readonly cell: string; readonly orders: readonly DateOrder[] }
  | { readonly kind: "startsAt"; readonly cell: string }
  | { readonly kind: "timeOfDay" | "pastTimeOfDay" }
  /** Two fields with a colon; `early`: near zero, so minutes and seconds are the guess. */
  | { readonly kind: "minutesOrHours"; readonly cell: string; readonly early: boolean }
  /** So many of the unit since 1970 are a day of this century. */
  | { readonly kind: "sinceEpoch"; readonly value: number; readonly unit: "s" | "ms" | "µs" }
  | { readonly kind: "dayNumber"; readonly value: number }
  /** `dated`: the title speaks of a day, so a day number is the guess. */
  | { readonly kind: "dayNumberOrSeconds"; readonly value: number; readonly dated: boolean }
  /** A number without a unit that goes on by `step`, and what it is taken for. */
  | {
      readonly kind: "severalTimeUnits";
      readonly cell: string;
      readonly step: number;
      readonly guess: "seconds" | "milliseconds" | "minutes";
    }
  | { readonly kind: "secondsWithoutUnit" | "secondTime" };

type ReadingsCause =
  | { readonly kind: "titled" | "notOfItsOwn" | "unknownTitle"; readonly title: string }
  | { readonly kind: "titledInUnit"; readonly title: string; readonly unit: string }
  | { readonly kind: "noTitle" }
  | { readonly kind: "unitOfForce" | "unitOfTime" | "unitInTitle"; readonly unit: string }
  | { readonly kind: "unitTold" | "decimalDegrees" | "degreesWithoutUnit" }
  | { readonly kind: "unitInCells"; readonly units: readonly string[] }
  /** Column from 1. */
  | { readonly kind: "unitInColumn"; readonly column: number }
  | { readonly kind: "unitAbove"; readonly line: string }
  | { readonly kind: "doubtedUnit"; readonly of: UnitDoubt }
  /** A place in degrees as written; the column, from 1, of its hemisphere, and the one the title names; null for none. */
  | {
      readonly kind: "place";
      readonly channel: "latitude" | "longitude";
      readonly form: "marked" | "degreesMinutes" | "decimal";
      readonly sideColumn: number | null;
      readonly sideInTitle: string | null;
    }
  | { readonly kind: "hemisphere" | "holdsUnit" | "empty" | "holdsText" | "leftAsTold" | "anotherLoadTold" }
  | { readonly kind: "onlyNumbers" }
  /** Column from 1. */
  | { readonly kind: "withoutUnit"; readonly channel: ChannelKind; readonly column: number }
  /** Named by what the other load's column is called. */
  | { readonly kind: "sameLoadAs" | "addedTo"; readonly other: string };

type MessageCause = { readonly kind: "stampedByLogger" | "dateAndTime" | "timeOfDayOnly" | "noTime" };

/** A unit of mass taken for the weight of it. */
export type UnitDoubt = "lb" | "kg" | "t";

/** What a log leaves open. */
export type OpenCause =
  | { readonly kind: "decimalMark" | "stampFormat"; readonly why: GuessCause }
  | { readonly kind: "cellsBesideTitles"; readonly cells: number; readonly titles: number }
  | { readonly kind: "noTimes" | "noReadings" | "noUnits" | "twoReceivers" }
  | { readonly kind: "severalZones"; readonly zone: string; readonly cell: string }
  /** `title` is null for a column without one; column from 1. */
  | { readonly kind: "loadWithoutUnit"; readonly title: string | null; readonly column: number }
  | { readonly kind: "vagueTon"; readonly title: string }
  | {
      readonly kind: "otherUnitAbove";
      readonly title: string;
      readonly unit: string;
      readonly line: string;
      readonly above: string;
    }
  | { readonly kind: "otherUnitInCells"; readonly title: string; readonly unit: string; readonly inCells: string }
  /** Columns by name; the guess is the sum of the others, or else the first. */
  | {
      readonly kind: "severalLoads";
      readonly columns: readonly string[];
      readonly guess: string;
      readonly isSum: boolean;
    }
  | { readonly kind: "severalCells"; readonly of: "transducers" | "paths"; readonly names: readonly string[] }
  /** What the sources tell alike, and the one that speaks most, with its readings. */
  | {
      readonly kind: "severalSources";
      readonly of: readonly string[];
      readonly names: readonly string[];
      readonly most: string;
      readonly readings: number;
    }
  | { readonly kind: "perhapsTheLoad"; readonly paths: readonly string[] }
  /** How many vessels speak, and the one of which most quantities are told. */
  | {
      readonly kind: "severalVessels";
      readonly vessels: number;
      readonly most: string;
      readonly quantities: number;
    };

/** What is taken for granted of a log. */
export type GrantedCause =
  | { readonly kind: "times"; readonly why: GuessCause }
  /** `from` is what the column is called. */
  | { readonly kind: "unit"; readonly from: string; readonly taken: UnitDoubt | "degrees" }
  | { readonly kind: "load"; readonly from: string; readonly why: GuessCause }
  | { readonly kind: "sourcesLeftOut"; readonly sources: readonly string[] }
  /** Of the first deltas so many are of other vessels. */
  | { readonly kind: "otherVessels"; readonly others: number; readonly deltas: number }
  | { readonly kind: "notTheLoad"; readonly paths: readonly string[] }
  | { readonly kind: "gzipCutOff" }
  /** As an earlier import wrote it. */
  | { readonly kind: "written"; readonly text: string };

/** What is taken for granted, as a book keeps it: earlier imports kept sentences. */
export function readGranted(kept: string | GrantedCause): GrantedCause {
  return typeof kept === "string" ? { kind: "written", text: kept } : kept;
}

/** Why reading ended before the file did. */
export type EndCause =
  /** The first number that may show how decimals are marked leaves it open. */
  | { readonly kind: "firstMark"; readonly cell: string }
  | { readonly kind: "timesAnew" }
  | { readonly kind: "otherHeader"; readonly header: string }
  /** The document is cut off or broken; what the reader of XML met. */
  | { readonly kind: "brokenOff"; readonly met: string };

/** Where and why reading ended before the file did. */
export interface Ended {
  readonly line: number;
  readonly why: EndCause;
}
