/** What a user says of a log's columns and times: the options of `log` and `trace`. */
import { type Command, Option } from "commander";
import { type LogChoices, readColumnChoice, readStart, readZone } from "../log/index.ts";
import { InputError, quoted } from "../quantity/index.ts";

export interface LogOptions {
  readonly map?: readonly string[];
  readonly delimiter?: string;
  readonly decimal?: "point" | "comma";
  readonly zone?: string;
  readonly start?: string;
  readonly rate?: string;
  readonly loadPath?: string;
  readonly loads?: "sum" | "each";
  readonly source?: readonly string[];
  readonly context?: string;
}

const DELIMITERS: Readonly<Record<string, NonNullable<LogChoices["delimiter"]>>> = {
  comma: ",",
  ",": ",",
  semicolon: ";",
  ";": ";",
  tab: "\t",
  "\\t": "\t",
  bar: "|",
  "|": "|",
  blanks: " ",
  none: "",
};

/** Adds the options. */
export function withLogOptions(command: Command): Command {
  return command
    .option(
      "--map <role=column[:unit]>",
      "say what a column is, such as load=2:kN, time=1:dmy, ignore=Battery",
      (value: string, before: readonly string[] = []) => [...before, value],
    )
    .option("--delimiter <mark>", "what parts the columns: comma, semicolon, tab, bar, blanks or none")
    .addOption(new Option("--decimal <mark>", "what parts the decimals").choices(["point", "comma"]))
    .option("--zone <offset>", "zone of times that state none, such as Z or +02:00")
    .option("--start <moment>", "day of clock times, or start of elapsed ones, such as 2024-05-03T12:34:56Z")
    .option("--rate <hertz>", "rows a second, where no column holds a time")
    .option(
      "--load-path <path>",
      "path of the load in Signal K deltas, or name of its transducer in XDR; none: no load",
    )
    .addOption(
      new Option("--loads <how>", "several loads: added up, or each a channel of its own").choices(["sum", "each"]),
    )
    .option(
      "--source <name>",
      "device to read from, where several tell the same: a talker of NMEA 0183, a source of Signal K",
      (value: string, before: readonly string[] = []) => [...before, value],
    )
    .option("--context <vessel>", "the boat's own vessel in Signal K deltas, such as vessels.self");
}

/** @throws InputError naming the option */
export function choicesFrom(options: LogOptions): LogChoices {
  const { delimiter, decimal, zone, start, rate, loadPath, loads, source, context } = options;
  if (delimiter !== undefined && !Object.hasOwn(DELIMITERS, delimiter))
    throw new InputError(
      "--delimiter",
      quoted(delimiter),
      "one of comma, semicolon, tab, bar, blanks, none is expected",
    );
  if (rate !== undefined && !(Number(rate) > 0 && Number.isFinite(Number(rate))))
    throw new InputError("--rate", quoted(rate), "rows a second, above zero, are expected");
  const offset = zone === undefined ? undefined : readZone(zone, "--zone");
  return {
    columns: (options.map ?? []).map((text) => readColumnChoice(text, "--map")),
    ...(delimiter === undefined ? {} : { delimiter: DELIMITERS[delimiter]! }),
    ...(decimal === undefined ? {} : { decimal: decimal === "comma" ? "," : "." }),
    ...(offset === undefined ? {} : { zone: offset }),
    ...(start === undefined ? {} : { start: readStart(start, "--start", offset) }),
    ...(rate === undefined ? {} : { rate: Number(rate) }),
    ...(loadPath === undefined ? {} : { loadPath }),
    ...(loads === undefined ? {} : { loads }),
    ...(source === undefined ? {} : { sources: source }),
    ...(context === undefined ? {} : { context }),
  };
}
