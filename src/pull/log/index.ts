export { type Batch, CHANNELS, type Channel, type ChannelKind, type Clock, channelKinds } from "./channel.ts";
export { type ColumnChoice, type LogChoices, readColumnChoice, readStart, readZone } from "./choices.ts";
export { type Encoding, guessEncoding, narrow, textOf } from "./encoding.ts";
export {
  type ColumnGuess,
  channelsOf,
  guessTable,
  HEAD_BYTES,
  type NotATable,
  type Question,
  type TableGuess,
} from "./guess.ts";
export type { TablePlan } from "./plan.ts";
export { TableReader, type TableState } from "./table.ts";
export type { LogMark } from "./time-order.ts";
export { shown, type Trouble, type TroubleCount, Troubles } from "./troubles.ts";
