/**
 * Forms that were begun and not written: kept on this device by the address of their form, so that a step back, another
 * place or a closed window loses nothing that was typed.
 */
import { device, keptState } from "../state/device.ts";
import type { At } from "./state.ts";

export type Draft = Readonly<Record<string, unknown>>;

const KEPT_AS = "days: forms begun";
/** The oldest go first. */
const MOST = 30;

const nameOf = ({ kind, id, about }: Extract<At, { page: "form" }>): string => `${kind} ${id ?? "new"} ${about ?? ""}`;

let begun: ReadonlyMap<string, Draft> | undefined;

function all(): ReadonlyMap<string, Draft> {
  if (begun === undefined) {
    const kept = keptState(KEPT_AS);
    begun = new Map(Array.isArray(kept) ? (kept as [string, Draft][]) : []);
  }
  return begun;
}

function put(next: ReadonlyMap<string, Draft>): void {
  begun = next;
  // A device that keeps nothing: drafts live as long as the window.
  void device.put("states", KEPT_AS, [...next].slice(-MOST)).catch(() => undefined);
}

/** What was typed into this form before it was left; only the fields that were changed. */
export const draftOf = (at: Extract<At, { page: "form" }>): Draft | undefined => all().get(nameOf(at));

export function keepDraft(at: Extract<At, { page: "form" }>, changed: Draft): void {
  const rest = [...all()].filter(([name]) => name !== nameOf(at));
  put(new Map(Object.keys(changed).length === 0 ? rest : [...rest, [nameOf(at), changed]]));
}

export const dropDraft = (at: Extract<At, { page: "form" }>): void => keepDraft(at, {});

/** The book is another from now on: forms begun belong to records of the one before. */
export function forgetDrafts(): Promise<void> {
  begun = new Map();
  return device.remove("states", KEPT_AS).catch(() => undefined);
}
