import { basename } from "node:path";
import type { Channel } from "../../record/index.ts";
import type { Book } from "../book.ts";
import type { ImportOptions } from "./imported.ts";
import type { LogFile } from "./log-file.ts";
import type { LogMapping } from "./log-mapping.ts";

/** The log of a file known by the hash of all its bytes. */
export function openWhole(
  book: Book,
  file: LogFile,
  sha256: string,
  mapping: LogMapping,
  channels: readonly Channel[],
  options: ImportOptions,
): string {
  const name = options.name ?? (basename(file.path) || "log");
  return book.logs.open({
    name,
    source: basename(file.path),
    fingerprint: `sha256:${sha256}`,
    channels: [...channels],
    mapping: mapping as never,
    pull: options.pull,
    day: options.day,
  }).log;
}
