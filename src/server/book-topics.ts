import { Hono } from "hono";
import { type Book, type LiveSource, openBook } from "../book/index.ts";
import type { boatNetworkTopic } from "./api-boat-network.ts";
import { bookTopic } from "./api-book.ts";
import type { booksTopic } from "./api-books.ts";
import { historyTopic } from "./api-history.ts";
import { instrumentsTopic } from "./api-instruments.ts";
import { joinTopic } from "./api-join.ts";
import { logMarksTopic } from "./api-log-marks.ts";
import { logRowsTopic } from "./api-log-rows.ts";
import { logsTopic } from "./api-logs.ts";
import { picturesTopic } from "./api-pictures.ts";
import { recordsTopic } from "./api-records.ts";
import type { reportTopic } from "./api-report.ts";
import { sentLogsTopic } from "./api-sent-logs.ts";
import type { Topic } from "./bench-app.ts";
import { bookForWriter } from "./book-for-writer.ts";
import { Instruments } from "./instruments.ts";
import { intakeOf } from "./intake-of-book.ts";
import { LogReadings } from "./log-readings.ts";
import { recordsOf } from "./records-of-book.ts";
import type { BenchEnv } from "./request-context.ts";
import { SentFiles } from "./sent-files.ts";

/** What a book's topics need beside the book. */
export interface BookTopicsOptions {
  /** Where log files sent to the bench wait to be read: a folder of this book's own. */
  readonly sentFolder: string;
  /** What may be followed on deck. */
  readonly instruments?: readonly LiveSource[];
  /** Milliseconds since 1970. */
  readonly now: () => number;
  /** Told of faults of the program. */
  readonly fault: (error: unknown) => void;
}

/** Everything under `/api/1/` that one book answers. */
export interface BookTopics {
  readonly topics: readonly Topic[];
  /** What is going on in the background that nobody should cut off, in a few words; null: nothing. */
  underWay(): string | null;
  /** Brings what is under way in the background to a stand: call it before the book is closed. */
  stop(): Promise<void>;
}

export function bookTopics(book: Book, options: BookTopicsOptions): BookTopics {
  const { routes, underWay, stop } = bookRoutes(book, options);
  return { topics: [(api) => void api.route("/", routes)], underWay, stop };
}

function bookRoutes(book: Book, options: BookTopicsOptions) {
  const bookFor = bookForWriter(book);
  const records = recordsOf(book, bookFor);
  const intake = intakeOf(book, bookFor);
  const readings = new LogReadings(intake, options.fault);
  const instruments = new Instruments({
    sources: options.instruments ?? [],
    open: () => openBook(book.path, { who: "an instrument", backups: false }),
    now: options.now,
    fault: options.fault,
  });
  const routes = new Hono<BenchEnv>()
    .route("/", bookTopic(records))
    .route("/", recordsTopic(records))
    .route("/", historyTopic(records))
    .route("/", logsTopic(book, records))
    .route("/", logRowsTopic(records))
    .route("/", logMarksTopic(book, records))
    .route("/", joinTopic(records))
    .route("/", instrumentsTopic(instruments, records))
    .route("/", picturesTopic(records))
    .route("/", sentLogsTopic(new SentFiles(options.sentFolder, options.now), readings, intake));
  const underWay = (): string | null =>
    instruments.isFollowing
      ? "an instrument is being followed in a pull"
      : readings.isReading
        ? "a log is being read into it"
        : null;
  const stop = async () => {
    await Promise.all([readings.stopAll(), instruments.stopAll()]);
  };
  return { routes, underWay, stop };
}

/** The addresses of a book with what each takes and answers: a client is typed by it. */
export type BookApi = ReturnType<typeof bookRoutes>["routes"];
/** The same of the books that can be chosen. */
export type BooksApi = ReturnType<typeof booksTopic>;
/** The same of reports. */
export type ReportApi = ReturnType<typeof reportTopic>;
/** The same of the boat's network. */
export type BoatNetworkApi = ReturnType<typeof boatNetworkTopic>;
