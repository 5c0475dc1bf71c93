export type { Backup } from "./backup.ts";
export { Book, type Logs } from "./book.ts";
export type { Counts, Soundness } from "./check.ts";
export { createDemoBook, DEMO_TITLE } from "./demo/demo-book.ts";
export type { Exported } from "./export.ts";
export type { HistoryChoice, HistoryEntry, Reverted } from "./history.ts";
export type { ImportedBook } from "./import.ts";
export {
  type Captured,
  type CaptureOptions,
  captureLive,
  type LiveReading,
  type LiveTrouble,
} from "./intake/capture-live.ts";
export { importLog } from "./intake/import-log.ts";
export type { Imported, ImportOptions, ImportProgress } from "./intake/imported.ts";
export { takeInLeft } from "./intake/live-buffer.ts";
export { type LiveSource, liveSource } from "./intake/live-source.ts";
export { previewLog } from "./intake/preview-log.ts";
export { type Unpacked, unpackLog } from "./intake/unpack.ts";
export { CHUNK_ROWS, type Rows } from "./log-chunk.ts";
export { bookLogsOf, columnsOf, trackColumnsOf } from "./log-columns.ts";
export type { LogProgress } from "./log-content.ts";
export { veersBeside } from "./log-veers.ts";
export type { LogContent, LogView, Stretch } from "./log-view.ts";
export { type BookLook, lookAtBook } from "./look-at-book.ts";
export { makeFolders } from "./make-folders.ts";
export type { Merged } from "./merge.ts";
export type { Joined, OfflineTransaction } from "./offline.ts";
export { newBook, type OpenOptions, openBook, systemPorts } from "./open.ts";
export { bookFileSchema } from "./open-files.ts";
export { type Place, readGeoJson, readGpx, writeGeoJson, writeGpx } from "./places.ts";
export { pullCaseOf } from "./pull-case.ts";
export type { PurgeDone, PurgeQuestion } from "./purge.ts";
export type { Choice, Draft } from "./records.ts";
export { type Restored, restoreBook } from "./restore.ts";
export { BookTrouble, type TroubleKind } from "./trouble.ts";
