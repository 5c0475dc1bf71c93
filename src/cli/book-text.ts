import { type Book, type HistoryEntry, isKind, type Kind } from "../book/index.ts";
import { type Dimension, formatQuantity } from "../quantity/index.ts";
import { wordFor } from "./book-keeping.ts";
import type { Told } from "./book-with.ts";

export type Plain = { readonly id: string; readonly hidden: boolean };

/** What a line tells of a kind, in this order; of kinds not named, every short field. */
const TOLD_IN_LINE: Partial<Record<Kind, readonly string[]>> = {
  pull: ["number", "day", "anchor", "seabed", "depth_m", "scope", "result", "endedBy"],
  day: ["date", "site", "wind_m_per_s", "weather"],
  log: ["name", "pull", "source"],
  mark: ["kind", "log", "origin", "remarks"],
  rigVersion: ["rig", "reason"],
};

/** One record in one line: its id, what it is called, and its numbers. */
export function lineText(book: Book, kind: Kind, record: Plain, options: Told): string {
  const fields = record as unknown as Readonly<Record<string, unknown>>;
  const names = TOLD_IN_LINE[kind] ?? Object.keys(record).filter((name) => name !== "id" && name !== "hidden");
  const shown = names.flatMap((name) => {
    const value = fields[name];
    if (value === null || value === undefined) return [];
    if (typeof value === "number") return [numberText(name, value, options)];
    if (name === "result") return [resultText(value as { kind: string; load_N?: number; u_N?: number }, options)];
    const text = typeof value === "string" ? nameOf(book, name, value) : "";
    return text !== "" && text.length <= 60 && !text.includes("\n") ? [text] : [];
  });
  return `${record.id}  ${shown.join(", ") || kind}${record.hidden ? "  (hidden)" : ""}`;
}

/** What a pointer points to, by its name; any other text as it is. */
function nameOf(book: Book, field: string, value: string): string {
  if (!isKind(field)) return value;
  const target = book.get(field, value) as
    | (Plain & { name?: string | null; date?: string | null; number?: number | null })
    | undefined;
  if (field === "pull" && target?.number) return `pull ${target.number}`;
  return target?.name ?? target?.date ?? value;
}

/** A whole record, a line a field. */
export function recordText(kind: Kind, record: Plain, options: Told): string {
  const lines = [`${wordFor(kind)} ${record.id}${record.hidden ? " (hidden)" : ""}`];
  for (const [name, value] of Object.entries(record)) {
    if (name === "id" || name === "hidden" || value === null) continue;
    if (typeof value === "number") lines.push(`${label(name)}: ${numberText(name, value, options)}`);
    else if (typeof value === "string")
      lines.push(`${label(name)}: ${value.includes("\n") ? `\n${value.trimEnd().replace(/^/gm, "  ")}` : value}`);
    else lines.push(`${label(name)}: ${JSON.stringify(value)}`);
  }
  return `${lines.join("\n")}\n`;
}

/** Units as the ends of field names have them. */
const ENDINGS: readonly (readonly [string, Dimension])[] = [
  ["_m_per_s", "speed"],
  ["_kg", "mass"],
  ["_m2", "area"],
  ["_N", "force"],
  ["_m", "length"],
];

function numberText(name: string, value: number, options: Told): string {
  const [, dimension] = ENDINGS.find(([end]) => name.endsWith(end)) ?? [];
  if (dimension !== undefined) return formatQuantity(value, dimension, { system: options.units });
  if (name.endsWith("_deg")) return `${value}°`;
  if (name === "scope") return `${value}:1`;
  return name === "number" ? `no. ${value}` : name.endsWith("_s") ? `${value} s` : String(value);
}

function resultText(result: { kind: string; load_N?: number; u_N?: number }, options: Told): string {
  const words: Record<string, string> = {
    gaveWay: "gave way at",
    heldTo: "held to",
    neverSet: "never set,",
    none: "no result",
  };
  const u = result.u_N === undefined ? {} : { u: result.u_N };
  const load =
    result.load_N === undefined ? "" : ` ${formatQuantity(result.load_N, "force", { system: options.units, ...u })}`;
  return `${words[result.kind] ?? result.kind}${load}`;
}

function label(name: string): string {
  const bare = name.replace(/_(m_per_s|kg|m2|N|m|deg|s)$/, "");
  return bare.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
}

/** One act of the history. */
export function historyText(act: HistoryEntry): string {
  const lines = act.changes
    .filter((c) => c.field !== "hidden")
    .map((c) => `    ${c.kind}.${c.field}: ${shortly(c.was)} → ${shortly(c.value)}`);
  const shown = lines.length > 6 ? [...lines.slice(0, 5), `    and ${lines.length - 5} more`] : lines;
  return [`${act.at}  ${act.who || "unnamed"}: ${act.label}  [${act.act}]`, ...shown, ""].join("\n");
}

function shortly(value: unknown): string {
  if (value === null) return "nothing";
  const text = JSON.stringify(value);
  return text.length > 60 ? `${text.slice(0, 57)}...` : text;
}
