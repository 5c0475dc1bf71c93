/** What the user says of a log beyond the guess: columns, units, marks, zone, date and rate. */
import { InputError, quoted } from "../quantity/index.ts";
import type { Delimiter } from "./cells.ts";
import { type ChannelKind, channelKinds } from "./channel.ts";
import { bytesOf } from "./encoding.ts";
import { StampReader } from "./stamp.ts";
import { type StampFormat, stampFormats } from "./stamp-format.ts";
import { readUnit, unitsFor } from "./unit-name.ts";

export type ColumnRole = ChannelKind | "time" | "date" | "unit" | "ignore";

/** One column told: by its title or its number (1 first). `as` is a unit, or the format of a time. */
export interface ColumnChoice {
  readonly role: ColumnRole;
  readonly column: string;
  readonly as?: string;
  /** Not told now but kept from an earlier file: let go where the cells contradict it. */
  readonly remembered?: true;
}

/** What a user told of a log, before anything that is guessed. */
export interface LogChoices {
  readonly columns?: readonly ColumnChoice[];
  readonly delimiter?: Delimiter;
  readonly decimal?: "." | ",";
  /** Zone of stamps that state none, s east of UTC. */
  readonly zone?: number;
  /** Day of clock times and start of elapsed ones, s since 1970. */
  readonly start?: number;
  /** Rows a second, for logs that only number their rows or hold nothing but readings. */
  readonly rate?: number;
  /** Of several loads: added up, or each a channel of its own. */
  readonly loads?: "sum" | "each";
  /** Load of a log of messages: a path of Signal K deltas or a transducer of XDR; `none`: it holds none. */
  readonly loadPath?: string;
  /** Devices to read from, where several tell the same. */
  readonly sources?: readonly string[];
  /** Vessel of Signal K deltas. */
  readonly context?: string;
}

const ROLES: readonly string[] = ["time", "date", "unit", "ignore", ...channelKinds];
const FORMATS: readonly string[] = stampFormats;

/**
 * Reads `ROLE=COLUMN[:UNIT]`, such as `load=2:kN`, `load="F [kN]"`, `time=1:dmy`, `ignore=Battery`.
 * @throws InputError for a role, unit or format nobody knows.
 */
export function readColumnChoice(text: string, place: string): ColumnChoice {
  const parted = /^\s*([A-Za-z]+)\s*=\s*(.*?)\s*$/s.exec(text);
  const wanted = `ROLE=COLUMN[:UNIT] is expected, such as load=2:kN, with a ROLE of ${ROLES.join(", ")}`;
  if (!parted || parted[2] === "") throw new InputError(place, quoted(text), wanted);
  const role = ROLES.find((known) => known.toLowerCase() === parted[1]!.toLowerCase()) as ColumnRole | undefined;
  if (role === undefined) throw new InputError(place, `${quoted(parted[1])} is no role of a column`, wanted);
  const whole = parted[2]!;
  const colon = whole.lastIndexOf(":");
  const column = colon > 0 ? whole.slice(0, colon).trim() : whole;
  const as = colon > 0 ? whole.slice(colon + 1).trim() : "";
  if (as === "" || role === "ignore" || role === "unit") return { role, column: whole.replace(/:$/, "") };
  if (role === "time" || role === "date") {
    if (FORMATS.includes(as)) return { role, column, as };
    if (/^\d+$/.test(column))
      throw new InputError(place, `${quoted(as)} is no format of a time`, `one of ${FORMATS.join(", ")} is expected`);
    return { role, column: whole };
  }
  if (readUnit(as, role) !== null) return { role, column, as };
  // A title may hold a colon of its own; a column number cannot.
  if (/^\d+$/.test(column))
    throw new InputError(place, `${quoted(as)} is no unit of ${role}`, `one of ${unitsFor(role)} is expected`);
  return { role, column: whole };
}

/** Reads a zone: `Z`, `UTC`, `+02:00`, `-0330`; seconds east of UTC. */
export function readZone(text: string, place: string): number {
  if (/^(z|utc|gmt)$/i.test(text.trim())) return 0;
  const stamp = bytesOf(`1970-01-01 00:00:00${text.trim()}`);
  const reader = new StampReader("ymd");
  const seconds = reader.read(stamp, 0, stamp.length);
  if (Number.isNaN(seconds) || !reader.zoned)
    throw new InputError(place, quoted(text), "a zone is expected, such as Z, +02:00 or -03:30");
  return seconds === 0 ? 0 : -seconds;
}

/** Reads a day or the moment a log starts: `2024-05-03`, `2024-05-03T12:34:56+02:00`; seconds since 1970. */
export function readStart(text: string, place: string, zone = 0): number {
  const bytes = bytesOf(text);
  const seconds = new StampReader("ymd", zone).read(bytes, 0, bytes.length);
  if (Number.isNaN(seconds))
    throw new InputError(
      place,
      quoted(text),
      "a day or moment with the year first is expected, such as 2024-05-03 or 2024-05-03T12:34:56+02:00",
    );
  return seconds;
}

export function isStampFormat(text: string): text is StampFormat {
  return FORMATS.includes(text);
}
