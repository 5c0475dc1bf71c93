import { useEffect, useMemo, useRef, useState } from "react";
import type { WrittenRecord } from "../../record/index.ts";
import { newId } from "../api/ids.ts";
import { announce } from "../controls/announce.ts";
import { Button } from "../controls/button.tsx";
import { useStore } from "../state/use-store.ts";
import { type AnyRecord, bookCopy, type Records } from "./book-copy.ts";
import { type Draft, draftOf, dropDraft, keepDraft } from "./drafts.ts";
import { FieldInput } from "./fields/field-input.tsx";
import { Heading } from "./heading.tsx";
import { addWords, type Formed, type FormField, foldOf, forms, words } from "./kinds.ts";
import styles from "./place.module.css";
import { recordOf, titleOf } from "./record-text.ts";
import { type At, go } from "./state.ts";
import { write } from "./written.ts";

/** A new record, or changes to one; checked as the files are, and safe on this device the moment it is written. */
export function RecordForm({ at }: { readonly at: Extract<At, { page: "form" }> }) {
  const { records } = useStore(bookCopy);
  const { kind } = at;
  const record = at.id === null ? undefined : recordOf(records, kind, at.id);
  const before = useMemo(() => beginning(records, at, record), [at, record, records]);
  const [typed, setTyped] = useState<Draft>(() => draftOf(at) ?? {});
  const [takenUp, setTakenUp] = useState(() => draftOf(at) !== undefined);
  const draft = useMemo(() => ({ ...before, ...typed }), [before, typed]);
  const type = (changed: Draft): void => {
    setTyped(changed);
    keepDraft(at, changed);
  };
  const [wrong, setWrong] = useState<Readonly<Record<string, string>>>({});
  const [writing, setWriting] = useState(false);
  const form = useRef<HTMLFormElement>(null);
  const fields = forms[kind];
  const title = record === undefined ? addWords(kind) : titleOf(records, kind, record);
  const back = backOf(at, record);

  const fold = foldOf[kind];
  const seldom = fields.filter(({ folded }) => folded === true);
  const isUnfolded = seldom.some(({ name }) => !isNothing(draft[name]) || wrong[name] !== undefined);
  const input = (field: FormField) => (
    <FieldInput
      key={field.name}
      field={field}
      value={draft[field.name] ?? null}
      wrong={wrong[field.name] ?? null}
      isNew={record === undefined}
      onChange={(value) => {
        type({ ...typed, [field.name]: value });
        setWrong(({ [field.name]: _, ...others }) => others);
      }}
      onWrong={(line) => setWrong((now) => ({ ...now, [field.name]: line }))}
    />
  );

  useEffect(() => {
    // Whoever adds something begins to type at once.
    if (at.id === null) form.current?.querySelector<HTMLElement>("input:not([type=file]), select, textarea")?.focus();
  }, [at.id]);

  const save = async (): Promise<void> => {
    const missing = fields.find((field) => field.required && isNothing(draft[field.name]));
    if (missing !== undefined) {
      setWrong({ ...wrong, [missing.name]: `${missing.label}: nothing stands here; it is expected` });
      announce(`${missing.label} is missing`);
      return;
    }
    const bad = Object.entries(wrong).find(([name]) => fields.some((field) => field.name === name));
    if (bad !== undefined) {
      announce(bad[1]);
      return;
    }
    setWriting(true);
    const made = written(kind, at, record, before, draft, records);
    if (made === null) {
      dropDraft(at);
      go(back.at);
      return;
    }
    const line = await write(made.label, made.records);
    setWriting(false);
    if (line === null) {
      dropDraft(at);
      go(kind === "note" ? back.at : { page: "record", kind, id: made.id });
      return;
    }
    // The book names the field as `…records #1.field`: the line goes there.
    const field = fields.find(({ name }) => new RegExp(`\\.${name}\\b`).test(line.split(":")[0]!));
    setWrong({ [field?.name ?? ""]: line.replace(/^offline\.records #\d+\.?/, "") });
  };

  return (
    <>
      <Heading
        back={back}
        title={title}
        {...(record === undefined ? {} : { line: `change this ${words[kind].one}` })}
      />
      <form
        ref={form}
        className={styles.form}
        noValidate
        onSubmit={(event) => {
          event.preventDefault();
          void save();
        }}
      >
        {takenUp && (
          <p className={styles.note} role="status">
            What you typed here before is still here.{" "}
            <Button
              onClick={() => {
                type({});
                setWrong({});
                setTakenUp(false);
              }}
            >
              Begin anew
            </Button>
          </p>
        )}
        <div className={styles.formFields}>{fields.filter(({ folded }) => folded !== true).map(input)}</div>
        {fold !== undefined && (
          <details className={styles.folded} {...(isUnfolded && { open: true })}>
            <summary>{fold}</summary>
            <div className={styles.formFields}>{seldom.map(input)}</div>
          </details>
        )}
        {wrong[""] !== undefined && (
          <p className={styles.wrong} role="alert">
            {wrong[""]}
          </p>
        )}
        <div className={styles.actions}>
          <Button look="strong" type="submit" disabled={writing}>
            {writing ? "Writing…" : "Write it down"}
          </Button>
          <Button
            onClick={() => {
              dropDraft(at);
              go(back.at);
            }}
          >
            Leave it
          </Button>
        </div>
      </form>
    </>
  );
}

function backOf(at: Extract<At, { page: "form" }>, record: AnyRecord | undefined): { at: At; label: string } {
  if (at.kind === "note" && at.about !== null) {
    const about = at.about.slice(at.about.indexOf(":") + 1);
    const { records } = bookCopy.get();
    for (const kind of ["pull", "day", "site", "anchor", "seabed", "boat", "rig", "rigVersion", "series"] as const)
      if (recordOf(records, kind, about) !== undefined)
        return { at: { page: "record", kind, id: about }, label: "Back" };
  }
  if (record !== undefined) return { at: { page: "record", kind: at.kind, id: record.id }, label: "Back" };
  return { at: { page: "book" }, label: "Book" };
}

/** What the next pull has of the one before. */
const CARRIED = [
  ...["series", "seabed", "rigVersion", "depth_m", "scope", "paidOut_m", "heading_deg", "loadAt"],
  ...["heldFor_s", "heldWithin_m", "calibration", "pulls"],
];

const isNothing = (value: unknown): boolean => value === null || value === undefined || value === "";

/** What a form begins with: the record as it stands, or what follows from what it is added to. */
function beginning(records: Records, at: Extract<At, { page: "form" }>, record: AnyRecord | undefined): Draft {
  const fields = forms[at.kind];
  if (record !== undefined) {
    const draft = Object.fromEntries(fields.map(({ name }) => [name, record[name] ?? null]));
    return at.kind === "rig" ? { ...draft, file: null } : draft;
  }
  const [field, id] = (at.about ?? "").split(":");
  const about = field === undefined || field === "" || id === undefined ? {} : { [field]: id };
  if (at.kind === "day") return { date: today(), ...(only(records.site) && { site: only(records.site) }), ...about };
  if (at.kind !== "pull") return about;
  // Pull follows pull: the same day, rig, anchor and place, the next number.
  const day = (about as { day?: string }).day ?? newest(records.day)?.id;
  const pulls = records.pull.filter((pull) => !pull.hidden && pull.day === day);
  const last = [...pulls].sort((a, b) => Number(b.number ?? 0) - Number(a.number ?? 0))[0] ?? newest(records.pull);
  const carried = last === undefined ? {} : pick(last, CARRIED);
  return {
    loadAt: "bow",
    ...(only(records.anchor) && { anchor: only(records.anchor) }),
    ...carried,
    ...(day === undefined ? {} : { day }),
    number: 1 + Math.max(0, ...pulls.map((pull) => Number(pull.number ?? 0))),
    startedAt: new Date(60_000 * Math.floor(Date.now() / 60_000)).toISOString(),
    ...about,
  };
}

const today = (): string => {
  const now = new Date();
  return new Date(now.getTime() - 60_000 * now.getTimezoneOffset()).toISOString().slice(0, 10);
};
const only = (list: readonly AnyRecord[]): string | undefined => {
  const shown = list.filter((one) => !one.hidden);
  return shown.length === 1 ? shown[0]!.id : undefined;
};
const newest = <R extends AnyRecord>(list: readonly R[]): R | undefined =>
  [...list]
    .filter((one) => !one.hidden)
    .sort((a, b) => (String(a.date ?? "") + a.id < String(b.date ?? "") + b.id ? 1 : -1))[0];
const pick = (record: AnyRecord, names: readonly string[]): Draft =>
  Object.fromEntries(names.flatMap((name) => (isNothing(record[name]) ? [] : [[name, record[name]]])));

/** The draft as records to write; null when nothing changed. A rig's file becomes a version of its own. */
function written(
  kind: Formed,
  _at: Extract<At, { page: "form" }>,
  record: AnyRecord | undefined,
  before: Draft,
  draft: Draft,
  records: Records,
): { readonly label: string; readonly id: string; readonly records: readonly WrittenRecord[] } | null {
  const id = record?.id ?? newId();
  const own = forms[kind].filter((field) => field.as !== "rig");
  const given: Record<string, unknown> = {};
  const was: Record<string, unknown> = {};
  const names = [...own.map(({ name }) => name), ...(kind === "note" && record === undefined ? ["about"] : [])];
  for (const name of names) {
    const value = isNothing(draft[name]) ? null : draft[name];
    const old = record === undefined ? null : (before[name] ?? null);
    if (JSON.stringify(value) === JSON.stringify(old)) continue;
    given[name] = value;
    if (record !== undefined) was[name] = old;
  }
  const out: WrittenRecord[] = [];
  if (record === undefined) out.push({ kind, id, makes: true, set: given });
  else if (Object.keys(given).length > 0) out.push({ kind, id, makes: false, set: given, was });
  if (kind === "rig" && typeof draft.file === "string")
    out.push({ kind: "rigVersion", id: newId(), makes: true, set: { rig: id, file: draft.file } });
  if (out.length === 0) return null;
  const name = kind === "note" ? "" : ` ${titleOf(records, kind, { id, hidden: false, ...before, ...draft })}`;
  return {
    label: `${record === undefined ? "add" : "change"} ${words[kind].one}${name}`.slice(0, 200),
    id,
    records: out,
  };
}
