import type { Book, HistoryEntry } from "../book/index.ts";
import { formatQuantity } from "../quantity/index.ts";
import { isKind, type Kind } from "../record/index.ts";
import { ENDINGS } from "./book-fields.ts";
import { wordFor } from "./book-keeping.ts";
import type { BookOptions } from "./book-with.ts";
import { shortId } from "./record-name.ts";

export type Plain = { readonly id: string; readonly hidden: boolean };

/** What a line tells of a kind, in this order; of kinds not named, every short field. */
const SHOWN_IN_LINE: Partial<Record<Kind, readonly string[]>> = {
  pull: ["number", "day", "anchor", "seabed", "depth_m", "scope", "paidOut_m", "result", "endedBy"],
  day: ["date", "site", "wind_m_per_s", "weather"],
  log: ["name", "pull", "source"],
  mark: ["kind", "log", "origin", "remarks"],
  rigVersion: ["rig", "reason"],
};

/** One record in one line: the end of its id, what it is called, and its numbers. */
export function lineText(book: Book, kind: Kind, record: Plain, options: BookOptions): string {
  const fields = record as unknown as Readonly<Record<string, unknown>>;
  const names = SHOWN_IN_LINE[kind] ?? Object.keys(record).filter((name) => name !== "id" && name !== "hidden");
  const shown = names.flatMap((name) => {
    const value = fields[name];
    if (value === null || value === undefined) return [];
    if (typeof value === "number") return [numberText(name, value, options)];
    if (name === "result") return [resultText(value as { kind: string; load_N?: number; u_N?: number }, options)];
    const text = typeof value === "string" ? nameOf(book, name, value) : "";
    return text !== "" && text.length <= 60 && !text.includes("\n") ? [text] : [];
  });
  return `${shortId(record.id)}  ${shown.join(", ") || kind}${record.hidden ? "  (hidden)" : ""}`;
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
export function recordText(kind: Kind, record: Plain, options: BookOptions): string {
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

function numberText(name: string, value: number, options: BookOptions): string {
  const [, dimension] = ENDINGS.find(([end]) => name.endsWith(end)) ?? [];
  if (dimension !== undefined && dimension !== "angle" && dimension !== "time")
    return formatQuantity(value, dimension, { system: options.units });
  if (name.endsWith("_deg")) return `${value}°`;
  if (name === "scope") return `${value}:1`;
  return name === "number" ? `no. ${value}` : name.endsWith("_s") ? `${value} s` : String(value);
}

function resultText(result: { kind: string; load_N?: number; u_N?: number }, options: BookOptions): string {
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

/** One transaction of the history. */
export function historyText(transaction: HistoryEntry): string {
  const lines = transaction.changes
    .filter((c) => c.field !== "hidden")
    .map((c) => `    ${c.kind}.${c.field}: ${shortly(c.was)} → ${shortly(c.value)}`);
  const shown = lines.length > 6 ? [...lines.slice(0, 5), `    and ${lines.length - 5} more`] : lines;
  return [
    `${transaction.at}  ${transaction.who || "unnamed"}: ${transaction.label}  [${transaction.transaction}]`,
    ...shown,
    "",
  ].join("\n");
}

function shortly(value: unknown): string {
  if (value === null) return "nothing";
  const text = JSON.stringify(value);
  return text.length > 60 ? `${text.slice(0, 57)}...` : text;
}
