import type { Hono } from "hono";
import type { Book } from "../book/index.ts";
import { bookTopic } from "./api-book.ts";
import { historyTopic } from "./api-history.ts";
import { joinTopic } from "./api-join.ts";
import { logsTopic } from "./api-logs.ts";
import { picturesTopic } from "./api-pictures.ts";
import { recordsTopic } from "./api-records.ts";
import type { BenchEnv } from "./arrival.ts";
import { recordsOf } from "./records-of-book.ts";

/** Every topic of `/api/1/` that one book answers. */
export function bookTopics(book: Book): readonly ((api: Hono<BenchEnv>) => void)[] {
  const records = recordsOf(book);
  return [
    bookTopic(records),
    recordsTopic(records),
    historyTopic(records),
    logsTopic(records),
    joinTopic(records),
    picturesTopic(records),
  ];
}
