import type { InferResponseType } from "hono/client";
import type { Kind, RecordOf } from "../../record/index.ts";
import type { book } from "../api/client.ts";
import type { Kept } from "./kinds.ts";

/** A record as it stands on this device: `waits` while something said of it waits to reach the book. */
export type RecordHere<K extends Kind> = RecordOf<K> & { readonly waits?: true };

export type LogContent = InferResponseType<typeof book.logs.$get>["logs"][number]["content"];
/** A log with how far it has come. */
export type LogHere = RecordHere<"log"> & { readonly content: LogContent };

export type Records = { readonly [K in Kept | "picture"]: readonly RecordHere<K>[] };
/** A record of any kind, its fields by their names: what a list, a title or a form shows one after another. */
export type AnyRecord = Readonly<Record<string, unknown>> & {
  readonly id: string;
  readonly hidden: boolean;
  readonly waits?: true;
};
