// Kinds of record and their fields, ids and the clock that orders changes: the same in a book, a browser and a test.
export { type AtOdds, atOdds, type FieldChange } from "./at-odds.ts";
export { type Bounds, bounds, expects } from "./bounds.ts";
export { type AnchorShape, anchorShapes, type Ending, endings, loadEnds, pullWays } from "./choices.ts";
export type { Field } from "./field.ts";
export { checkFields, isKept, type Kept } from "./field-check.ts";
export {
  type Change,
  isLater,
  type Laid,
  latestValues,
  type Ordered,
  type WrittenRecord,
  withWaiting,
} from "./fold.ts";
export {
  type HybridTimestamp,
  LATEST_MS,
  millisecondsOf,
  nextTimestamp,
  TIMESTAMP,
  timestampOf,
} from "./hybrid-timestamp.ts";
export { ID, idMaker, isId, type Ports } from "./id.ts";
export { recordShape } from "./record-shape.ts";
export {
  ABOUT,
  type Channel,
  channel,
  type FieldsOf,
  fieldOf,
  fieldsOf,
  isKind,
  type Kind,
  kindNames,
  kinds,
  type RecordOf,
} from "./schema.ts";
export { type SedimentClass, sedimentClasses, sedimentClassOf } from "./sediment.ts";
