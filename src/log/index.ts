export type { MarkedBatch } from "./batch.ts";
export {
  type ColumnCause,
  type EndCause,
  type Ended,
  type GrantedCause,
  type GuessCause,
  type OpenCause,
  readGranted,
} from "./cause.ts";
export { type Batch, CHANNELS, type Channel, type ChannelKind, type Clock, channelKinds } from "./channel.ts";
export { type ColumnChoice, type LogChoices, readColumnChoice, readStart, readZone } from "./choices.ts";
export type { Guessed } from "./dialect.ts";
export { bytesOf, type Encoding, type EncodingGuess, guessEncoding, narrow, textOf } from "./encoding.ts";
export { type GatherOptions, gatherLog, LogGatherer, type LogRows } from "./gather.ts";
export { degrees, GpxReader, type GpxTrack, readGpx, TRACK_CHANNELS } from "./gpx.ts";
export { HEAD_BYTES } from "./guess.ts";
export { guessLog, type LogGuess } from "./kind.ts";
export type { LineReader, LineState } from "./line-reader.ts";
export { guessLive, type LiveGuess, type LiveLine, type LivePlan, liveChannels, liveLines } from "./live-lines.ts";
export type { LoadSeen } from "./load-watch.ts";
export { type MessagePlan, OPEN_PLAN } from "./message-plan.ts";
export { type NmeaGuess, type NmeaTimes, nmeaReader } from "./nmea.ts";
export { readSentence, type Sentence } from "./nmea-sentence.ts";
export { SentenceFilter } from "./nmea-sources.ts";
export { sentenceValues } from "./nmea-values.ts";
export { type Packed, packedAs } from "./packed.ts";
export { readPlaceText } from "./place-text.ts";
export type { TablePlan } from "./plan.ts";
export { DeltaFilter, deltaReadings, type SignalKGuess, signalKReader } from "./signalk.ts";
export type { ChannelReading } from "./sparse-rows.ts";
export { TableReader, type TableState } from "./table.ts";
export type { ColumnGuess, NotATable, Question, QuestionInWords, TableGuess } from "./table-guess.ts";
export { readMarkTable, readWebVtt, type TimeMark, type TimeMarks } from "./time-marks.ts";
export type { LogMark } from "./time-order.ts";
export { NO_TROUBLES, shown, type Trouble, type TroubleCount } from "./troubles.ts";
export { XmlElements } from "./xml-elements.ts";
