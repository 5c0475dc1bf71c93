import type { Hono } from "hono";
import type { Book } from "../book/index.ts";
import { bookTopic } from "./api-book.ts";
import { historyTopic } from "./api-history.ts";
import { joinTopic } from "./api-join.ts";
import { logMarksTopic } from "./api-log-marks.ts";
import { logsTopic } from "./api-logs.ts";
import { picturesTopic } from "./api-pictures.ts";
import { recordsTopic } from "./api-records.ts";
import { sentLogsTopic } from "./api-sent-logs.ts";
import type { BenchEnv } from "./arrival.ts";
import { desksOf } from "./desks.ts";
import { intakeOf } from "./intake-of-book.ts";
import { LogReadings } from "./log-readings.ts";
import { recordsOf } from "./records-of-book.ts";
import { SentFiles } from "./sent-files.ts";

/** What a book's topics need beside the book. */
export interface BookTopicsOptions {
  /** Where log files sent to the bench wait to be read: a folder of this book's own. */
  readonly sentFolder: string;
  /** Milliseconds since 1970. */
  readonly now: () => number;
  /** Told of faults of the program. */
  readonly fault: (error: unknown) => void;
}

/** Everything under `/api/1/` that one book answers. */
export interface BookTopics {
  readonly topics: readonly ((api: Hono<BenchEnv>) => void)[];
  /** Brings what is under way in the background to a stand: call it before the book is closed. */
  stop(): Promise<void>;
}

export function bookTopics(book: Book, options: BookTopicsOptions): BookTopics {
  const desk = desksOf(book);
  const records = recordsOf(book, desk);
  const intake = intakeOf(book, desk);
  const readings = new LogReadings(intake, options.fault);
  return {
    topics: [
      bookTopic(records),
      recordsTopic(records),
      historyTopic(records),
      logsTopic(records),
      logMarksTopic(book, records),
      joinTopic(records),
      picturesTopic(records),
      sentLogsTopic(new SentFiles(options.sentFolder, options.now), readings, intake),
    ],
    stop: () => readings.stopAll(),
  };
}
