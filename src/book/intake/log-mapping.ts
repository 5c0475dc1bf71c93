import { z } from "zod";
import {
  type Clock,
  type ColumnChoice,
  type GrantedCause,
  type LogChoices,
  type MessagePlan,
  type NmeaTimes,
  readColumnChoice,
  type TableGuess,
  type TablePlan,
} from "../../log/index.ts";
import type { Book } from "../book.ts";

export const MAPPING_FORMAT = "rodebench/log-mapping@1";

/** How a log was read, kept with it: enough to read its file on, and the next file of the same source alike. */
export interface LogMapping {
  readonly format: typeof MAPPING_FORMAT;
  readonly kind: "table" | "nmea" | "signalk" | "gpx" | "marks" | "live";
  /** What files of this source have in common. */
  readonly signature: string;
  readonly clock: Clock;
  readonly plan?: TablePlan;
  readonly times?: NmeaTimes;
  readonly start?: number;
  /** How messages are read: vessel, sources, cells. */
  readonly messages?: MessagePlan;
  /** Of a live stream of messages: which. */
  readonly sentences?: "nmea" | "signalk";
  readonly loads?: "sum" | "each";
  /** What was taken for granted; sentences where an earlier import kept them. */
  readonly remarks?: readonly (string | GrantedCause)[];
  /** Columns as told or found, for the next file of the source. */
  readonly columns?: readonly ColumnChoice[];
  readonly zone?: number;
  readonly rate?: number;
  /** Log this file's earlier part was read into. */
  readonly continues?: string;
}

const shape = z.looseObject({
  format: z.literal(MAPPING_FORMAT),
  kind: z.string(),
  signature: z.string(),
  clock: z.string(),
});

/** The mapping a log was read with, or null when it was not read by an import. */
export function mappingOf(mapping: unknown): LogMapping | null {
  return shape.safeParse(mapping).success ? (mapping as LogMapping) : null;
}

/** What the latest log of the same source was read as, or null when the source is new. */
export function rememberedChoices(book: Book, signature: string): LogChoices | null {
  const logs = book.list("log").filter((log) => mappingOf(log.mapping)?.signature === signature);
  const last = logs
    .map((log) => ({ id: log.id, mapping: mappingOf(log.mapping)! }))
    .sort((a, b) => (a.id < b.id ? 1 : -1))[0]?.mapping;
  if (last?.columns === undefined) return null;
  return {
    columns: last.columns,
    ...(last.zone === undefined ? {} : { zone: last.zone }),
    ...(last.rate === undefined ? {} : { rate: last.rate }),
    ...(last.loads === undefined ? {} : { loads: last.loads }),
    ...(last.plan === undefined ? {} : { decimal: last.plan.decimal }),
  };
}

/** What is told now stands before what is remembered; a column told now is not remembered otherwise. */
export function withRemembered(told: LogChoices, remembered: LogChoices | null): LogChoices {
  if (remembered === null) return told;
  const columns = told.columns ?? [];
  const names = new Set(columns.map((choice) => choice.column.toLowerCase()));
  const timeTold = columns.some((choice) => choice.role === "time");
  const kept = (remembered.columns ?? [])
    .map((choice) => ({ ...choice, remembered: true as const }))
    .filter(
      (choice) =>
        !names.has(choice.column.toLowerCase()) && !(timeTold && (choice.role === "time" || choice.role === "date")),
    );
  return { ...remembered, ...told, columns: [...columns, ...kept] };
}

/** The columns of a guess as choices, by number where they have no title. */
export function choicesOf(guess: TableGuess): readonly ColumnChoice[] {
  const titles = guess.columns.map((column) => column.title.toLowerCase());
  return guess.columns.flatMap((column): ColumnChoice[] => {
    const unique = column.title !== "" && titles.filter((title) => title === column.title.toLowerCase()).length === 1;
    const name = unique ? column.title : String(column.number);
    if (column.as === "not taken") return [{ role: "ignore", column: name }];
    if (column.as === "unit") return [{ role: "unit", column: name }];
    const role = column.as.replace(/-\d+$/, "");
    const inCells = guess.plan?.values.find((value) => value.column === column.number - 1)?.scale === null;
    const text = inCells || column.unit === "" ? `${role}=${name}` : `${role}=${name}:${column.unit}`;
    return [readColumnChoice(text, "--map")];
  });
}
