import { type Book, importLog, previewLog } from "../book/index.ts";
import { type LogChoices, readColumnChoice, readStart, readZone } from "../log/index.ts";
import type { Intake, LogChoicesInWords } from "./intake.ts";
import type { Writer } from "./records.ts";

/** The book's own reading of log files, asked in the words of the command line. */
export function intakeOf(book: Book, bookFor: (by: Writer) => Book): Intake {
  return {
    preview: (file, told) => previewLog(file.path, choicesFrom(told), book),
    read: (file, { told, ...rest }, by, { signal, progress }) =>
      importLog(bookFor(by), file.path, {
        ...rest,
        name: rest.name ?? file.name,
        told: choicesFrom(told),
        signal,
        onProgress: progress,
      }),
  };
}

function choicesFrom(told: LogChoicesInWords): LogChoices {
  const zone = told.zone === undefined ? undefined : readZone(told.zone, "told.zone");
  return {
    ...(told.columns && { columns: told.columns.map((text, i) => readColumnChoice(text, `told.columns.${i}`)) }),
    ...(told.delimiter !== undefined && { delimiter: told.delimiter as NonNullable<LogChoices["delimiter"]> }),
    ...(told.decimal !== undefined && { decimal: told.decimal }),
    ...(zone !== undefined && { zone }),
    ...(told.start !== undefined && { start: readStart(told.start, "told.start", zone) }),
    ...(told.rate !== undefined && { rate: told.rate }),
    ...(told.loads !== undefined && { loads: told.loads }),
    ...(told.loadPath !== undefined && { loadPath: told.loadPath }),
    ...(told.sources !== undefined && { sources: told.sources }),
    ...(told.context !== undefined && { context: told.context }),
  };
}
