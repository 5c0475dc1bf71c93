import { InputError } from "../quantity/index.ts";
import { type Edit, isPurged, type KeptAct, perform } from "./act.ts";
import { asked, type Context, query, rowOf, rowsOf, writing } from "./context.ts";
import type { Kept } from "./field-check.ts";
import type { Kind } from "./kinds.ts";
import { winners } from "./settle-record.ts";

/** One go of writing: who, when, and what each field was and became. */
export interface HistoryEntry {
  readonly act: string;
  readonly who: string;
  /** The clock of the device that wrote it, as ISO 8601 text. */
  readonly at: string;
  readonly device: string;
  readonly manner: string;
  readonly label: string;
  readonly reverts: string | null;
  readonly changes: readonly {
    readonly kind: string;
    readonly record: string;
    readonly field: string;
    readonly was: unknown;
    readonly value: unknown;
  }[];
}

export interface HistoryChoice {
  /** Only acts that touched this record, and of them only what they did to it. */
  readonly record?: string;
  /** At most so many, newest first. Default 100. */
  readonly limit?: number;
  /** Only acts before this one, to page on. */
  readonly before?: string;
}

const parsed = (kept: Kept): unknown => (kept === null ? null : JSON.parse(kept));

/** What was written, newest first. */
export function readHistory(context: Context, choice: HistoryChoice = {}): HistoryEntry[] {
  const { driver } = context;
  return asked(context, () => {
    let acts = query
      .selectFrom("act")
      .selectAll()
      .orderBy("stamp", "desc")
      .orderBy("id", "desc")
      .limit(choice.limit ?? 100);
    if (choice.record !== undefined) {
      const touched = query.selectFrom("change").select("act").where("record", "=", choice.record);
      acts = acts.where("id", "in", touched);
    }
    if (choice.before !== undefined) {
      const mark = rowOf(driver, query.selectFrom("act").select(["stamp", "id"]).where("id", "=", choice.before));
      if (!mark) throw new InputError(choice.before, "no such act", "the id of an act in this book is expected");
      acts = acts.where((eb) =>
        eb.or([eb("stamp", "<", mark.stamp), eb.and([eb("stamp", "=", mark.stamp), eb("id", "<", mark.id)])]),
      );
    }
    return rowsOf(driver, acts).map((act) => {
      let changes = query.selectFrom("change").selectAll().where("act", "=", act.id).orderBy("record").orderBy("field");
      if (choice.record !== undefined) changes = changes.where("record", "=", choice.record);
      return {
        act: act.id,
        who: act.who,
        at: act.at,
        device: act.device,
        manner: act.manner,
        label: act.label,
        reverts: act.reverts,
        changes: rowsOf(driver, changes).map(({ kind, record, field, was, value }) => ({
          kind,
          record,
          field,
          was: parsed(was),
          value: parsed(value),
        })),
      };
    });
  });
}

/** What taking back did. `overtaken` counts fields that someone has changed since, which were left as they are. */
export type Reverted =
  | {
      readonly kind: "reverted";
      readonly act: string;
      readonly label: string;
      readonly fields: number;
      readonly overtaken: number;
    }
  | { readonly kind: "nothing" }
  | { readonly kind: "overtaken"; readonly act: string; readonly label: string };

/** Takes back the last act written on this device that stands, or the act named. */
export function undo(context: Context, act?: string): Reverted {
  return writing(context, () => {
    const last = act === undefined ? lastStanding(context) : named(context, act);
    return last ? revert(context, last, "undo") : { kind: "nothing" };
  });
}

/** Takes back the last undo of this device, as long as nothing else was written since. */
export function redo(context: Context): Reverted {
  return writing(context, () => {
    const last = context.driver.get<KeptAct>(
      `SELECT * FROM act WHERE device = ? AND manner = 'undo' AND id NOT IN (SELECT reverts FROM act WHERE manner = 'redo')
         AND seq > coalesce((SELECT max(seq) FROM act WHERE device = ? AND manner NOT IN ('undo', 'redo')), 0)
       ORDER BY seq DESC LIMIT 1`,
      [context.device, context.device],
    );
    return last ? revert(context, last, "redo") : { kind: "nothing" };
  });
}

function lastStanding(context: Context): KeptAct | undefined {
  // Taken back: an undo reverts it that no redo has reverted.
  return context.driver.get<KeptAct>(
    `SELECT * FROM act WHERE device = ? AND manner NOT IN ('undo', 'redo') AND id NOT IN (
       SELECT u.reverts FROM act u WHERE u.manner = 'undo'
         AND NOT EXISTS (SELECT 1 FROM act r WHERE r.manner = 'redo' AND r.reverts = u.id))
     ORDER BY seq DESC LIMIT 1`,
    [context.device],
  );
}

function named(context: Context, id: string): KeptAct {
  const act = context.driver.get<KeptAct>("SELECT * FROM act WHERE id = ?", [id]);
  if (!act) throw new InputError(id, "no such act", "the id of an act in this book is expected");
  return act;
}

function revert(context: Context, act: KeptAct, manner: "undo" | "redo"): Reverted {
  const { driver } = context;
  const changes = driver.all<{ kind: Kind; record: string; field: string; was: Kept; value: Kept }>(
    "SELECT kind, record, field, was, value FROM change WHERE act = ?",
    [act.id],
  );
  const edits = new Map<string, Edit & { fields: Map<string, Kept> }>();
  let overtaken = 0;
  let fields = 0;
  for (const { kind, record, field, was, value } of changes) {
    if (isPurged(driver, record) || winners(driver, record).get(field) !== value) {
      overtaken++;
      continue;
    }
    const edit = edits.get(record) ?? { kind, record, fields: new Map<string, Kept>() };
    edit.fields.set(field, was);
    edits.set(record, edit);
    fields++;
  }
  // Taking back the making of a record hides it; what was said of it stays, for when it is shown again.
  for (const { fields: back } of edits.values())
    if (back.get("hidden") === "true") for (const f of back.keys()) if (f !== "hidden") back.delete(f);
  const label = manner === "undo" ? `undo: ${act.label}` : act.label.replace(/^undo/, "redo");
  const made = perform(context, { label, manner, reverts: act.id }, [...edits.values()]);
  // Also what is wholly overtaken counts as taken back, so that the next undo reaches the act before it.
  if (made === null || fields === 0) return { kind: "overtaken", act: act.id, label: act.label };
  return { kind: "reverted", act: made, label, fields, overtaken };
}
