/** Answers of `rodebench log`. */
import * as z from "zod";
import { answerFormat } from "./answer.ts";

const count = z.int().min(0);
const id = z.string().describe("UUID of version 7");
const clock = z.enum(["utc", "local", "elapsed", "clock"]);
const counts = z.record(z.string(), count);
const troubles = z.looseObject({
  rejected: count.describe("lines not read"),
  unreadable: count,
  missing: count,
  overload: count,
  empty: count,
  headersAgain: count,
  repeatedRows: count,
  standIns: count.describe("numbers that stand for no reading"),
  others: count.describe("readings of other sources, left out"),
  otherUnits: count.describe("headers from which on the unit is another"),
  comments: count,
  first: z.array(z.looseObject({ line: count, value: z.string(), expected: z.string() })),
});
const guessed = <T extends z.ZodType>(value: T) => z.looseObject({ value, why: z.string() });

const table = z.looseObject({
  kind: z.literal("table"),
  ready: z.boolean().describe("no question stands open"),
  encoding: guessed(z.string()),
  lineEnd: z.enum(["LF", "CR LF", "CR"]),
  delimiter: guessed(z.string()),
  decimal: guessed(z.string()),
  headerLine: z.int().nullable(),
  dataLine: z.int(),
  columns: z.array(
    z.looseObject({
      number: z.int().min(1),
      title: z.string(),
      as: z.string().describe("what it is read as"),
      unit: z.string(),
      confidence: z.number().min(0).max(1),
      why: z.string(),
      examples: z.array(z.string()),
    }),
  ),
  questions: z.array(z.looseObject({ about: z.string(), question: z.string(), answers: z.array(z.string()) })),
  step_s: z.number().nullable(),
  clock: clock.nullable(),
});
const other = z.looseObject({
  kind: z.enum(["nmea", "signalk", "gpx", "webvtt", "markTable", "notATable"]),
});
const named = { file: z.string(), remembered: z.boolean().describe("read as this source's last file was") };

export const logAnswers = [
  answerFormat("log-guess@1", "log --preview", {
    files: z.array(z.union([table.extend(named), other.extend(named)])),
  }),
  answerFormat("logs@1", "log --into", {
    files: z.array(
      z.discriminatedUnion("kind", [
        z.looseObject({
          file: z.string(),
          kind: z.enum(["imported", "stopped"]),
          log: id,
          rows: count.describe("of the log now in the book"),
          known: count.describe("in the book already, left out"),
          from_bytes: count.describe("where in the file this reading of it began"),
          position_bytes: count.describe("where it ended"),
          size_bytes: count.describe("of the file"),
          clock,
          remembered: z.boolean(),
          troubles,
          counts,
          remarks: z.array(z.string()).describe("taken for granted"),
          seen: z.array(
            z.looseObject({
              kind: z.enum(["jumps", "cutOff"]),
              channel: z.string(),
              count,
              line: count,
              load_N: z.number(),
            }),
          ),
          ended: z.looseObject({ line: count, why: z.string() }).nullable(),
        }),
        z.looseObject({ file: z.string(), kind: z.literal("already"), log: id, rows: count }),
        z.looseObject({ file: z.string(), kind: z.literal("marks"), log: id, marks: count, clock, troubles }),
      ]),
    ),
  }),
  answerFormat("live@1", "log --live", {
    source: z.string(),
    kind: z.literal("captured"),
    log: id.nullable(),
    rows: count,
    waiting: count.describe("kept beside the book for now"),
    rejected: count,
  }),
];
