/** Records in words: what they are called, and the one line below. Units are the reader's. */
import type { Dimension } from "../../quantity/index.ts";
import { countText, durationText } from "../../words/index.ts";
import type { AnyRecord, BookCopy, LogHere, RecordHere, Records } from "./book-copy.ts";
import type { Kept } from "./kinds.ts";
import { sedimentName } from "./sediment-name.ts";

/** A quantity as this device shows it. */
export type Say = (valueSI: number, field: string, dimension: Dimension, u?: number) => string;

const text = (record: AnyRecord | undefined, field: string): string => {
  const value = record?.[field];
  return typeof value === "string" ? value : typeof value === "number" ? String(value) : "";
};
const number = (record: AnyRecord, field: string): number | null => {
  const value = record[field];
  return typeof value === "number" ? value : null;
};

export const recordOf = <K extends Kept>(records: Records, kind: K, id: unknown): RecordHere<K> | undefined =>
  typeof id === "string" ? records[kind].find((record) => record.id === id) : undefined;

/** What a record is called. */
export function titleOf(records: Records, kind: Kept, record: AnyRecord): string {
  switch (kind) {
    case "day": {
      const site = recordOf(records, "site", record.site);
      return [dayText(text(record, "date")), text(site, "name")].filter((part) => part !== "").join(", ");
    }
    case "pull": {
      const anchor = text(recordOf(records, "anchor", record.anchor), "name");
      const count = number(record, "number");
      return [count === null ? "Pull" : `Pull ${count}`, anchor].filter((part) => part !== "").join(", ");
    }
    case "rigVersion": {
      const rig = recordOf(records, "rig", record.rig);
      const versions = records.rigVersion.filter((one) => one.rig === record.rig);
      const at = versions.findIndex((one) => one.id === record.id) + 1;
      return `${text(rig, "name")}${versions.length > 1 ? `, version ${at}` : ""}`;
    }
    case "note":
      return text(record, "text").split("\n")[0]!.slice(0, 80);
    default:
      return text(record, "name") || "(no name)";
  }
}

/** `2031-05-17` as `Sat 17 May 2031`. */
export function dayText(date: string): string {
  const at = new Date(`${date}T00:00:00Z`);
  if (Number.isNaN(at.getTime())) return date;
  return at.toLocaleDateString("en-GB", {
    weekday: "short",
    day: "numeric",
    month: "short",
    year: "numeric",
    timeZone: "UTC",
  });
}

/** What a pull came to: "gave way at 4.1 kN". */
export function resultText(pull: Pick<RecordHere<"pull">, "result">, say: Say): string {
  const { said, load } = resultParts(pull, say);
  return load === "" ? said : `${said} ${load}`;
}

/** The same in what it says and at which load, so that a list can write the loads under one another. */
export function resultParts(
  { result }: Pick<RecordHere<"pull">, "result">,
  say: Say,
): { readonly said: string; readonly load: string } {
  if (result === null || result === undefined) return { said: "", load: "" };
  const load = result.load_N === undefined ? "" : say(result.load_N, "load", "force", result.u_N);
  switch (result.kind) {
    case "gaveWay":
      return { said: load === "" ? "gave way" : "gave way at", load };
    case "heldTo":
      return { said: "held", load };
    case "neverSet":
      return { said: "never set", load: "" };
    default:
      return { said: "no result", load: "" };
  }
}

/** The line below a record's name. */
export function lineOf(records: Records, kind: Kept, record: AnyRecord, say: Say): string {
  const quantity = (field: string, called: string, dimension: Dimension) => {
    const value = number(record, field);
    return value === null ? "" : say(value, called, dimension);
  };
  const parts = (() => {
    switch (kind) {
      case "day": {
        const from = number(record, "windFrom_deg");
        const wind = quantity("wind_m_per_s", "wind", "speed");
        return [
          wind === "" ? "" : `wind ${wind}${from === null ? "" : ` from ${Math.round(from)}°`}`,
          text(record, "weather"),
          text(record, "testers"),
        ];
      }
      case "pull": {
        const depth = quantity("depth_m", "depth", "length");
        const paidOut = quantity("paidOut_m", "length paid out", "length");
        const scope = number(record, "scope");
        return [
          depth === "" ? "" : `${depth} deep`,
          paidOut === "" ? "" : `${paidOut} paid out`,
          scope === null ? "" : `scope ${scope}:1`,
          text(recordOf(records, "seabed", record.seabed), "name"),
          text(record, "endedBy") === "" ? "" : `ended by ${text(record, "endedBy")}`,
        ];
      }
      case "anchor":
        return [
          text(record, "shape"),
          quantity("mass_kg", "mass", "mass"),
          quantity("flukeArea_m2", "fluke area", "area"),
          text(record, "make"),
        ];
      case "seabed":
        return [
          text(recordOf(records, "site", record.site), "name"),
          text(record, "grain") === "" ? "" : sedimentName(text(record, "grain")),
          text(record, "description"),
        ];
      case "series":
        return [text(record, "question")];
      default:
        return [text(record, "description")];
    }
  })();
  return parts.filter((part) => part !== "").join(" · ");
}

export function logLine(log: LogHere): string {
  const { rows, from_s, to_s, channels, finished } = log.content;
  return [
    countText(rows, "reading", "readings"),
    from_s === null || to_s === null ? "" : durationText(to_s - from_s),
    channels.map((channel) => channel.name).join(", "),
    finished ? "" : "not read to its end",
  ]
    .filter((part) => part !== "")
    .join(" · ");
}

/** The logs of a pull, or those of a day that name no pull. */
export const logsOf = (copy: BookCopy, field: "pull" | "day", id: string): readonly LogHere[] =>
  copy.logs.filter((log) => !log.hidden && (field === "pull" ? log.pull === id : log.pull === null && log.day === id));
