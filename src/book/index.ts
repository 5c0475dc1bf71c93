export type { Backup } from "./backup.ts";
export { Book, type Logs } from "./book.ts";
export type { Counts, Soundness } from "./check.ts";
export { createDemoBook } from "./demo/demo-book.ts";
export type { Exported } from "./export.ts";
export { type GrainClass, grainClasses, grainClassOf } from "./grain.ts";
export type { HistoryChoice, HistoryEntry, Reverted } from "./history.ts";
export { idMaker, isId, type Ports } from "./ids.ts";
export type { ImportedBook } from "./import.ts";
export { type Captured, type CaptureOptions, captureLive, type LiveReading } from "./intake/capture-live.ts";
export { importLog } from "./intake/import-log.ts";
export type { Imported, ImportOptions, ImportProgress } from "./intake/imported.ts";
export { type LiveSource, liveSource } from "./intake/live-source.ts";
export { previewLog } from "./intake/preview-log.ts";
export {
  ABOUT,
  type Channel,
  endings,
  type FieldsOf,
  isKind,
  type Kind,
  kindNames,
  type RecordOf,
  shapes,
} from "./kinds.ts";
export { CHUNK_ROWS, type Rows } from "./log-chunk.ts";
export type { LogProgress } from "./log-content.ts";
export type { LogContent, LogView, Stretch } from "./log-view.ts";
export type { Merged } from "./merge.ts";
export type { Joined, OfflineAct } from "./offline.ts";
export { newBook, type OpenOptions, openBook, systemPorts } from "./open.ts";
export { type Place, readGeoJson, readGpx, writeGeoJson, writeGpx } from "./places.ts";
export type { PurgeQuestion } from "./purge.ts";
export type { Choice, Draft } from "./records.ts";
export { type Restored, restoreBook } from "./restore.ts";
export { BookTrouble, type TroubleKind } from "./trouble.ts";
