/** A change of the history in words: names for ids, quantities in the reader's units. */
import { placeText } from "../../figure/index.ts";
import { countText } from "../../words/index.ts";
import type { RecordHere, Records } from "./book-copy.ts";
import { forms, isFormed } from "./kinds.ts";
import { recordOf, resultText, type Say, titleOf } from "./record-text.ts";
import type { Entry } from "./use-history.ts";

type Change = Entry["changes"][number];

/** "Depth: 7 m → 7.4 m" */
export function changeText(change: Change, records: Records, say: Say): string {
  const { kind, field, was, value } = change;
  if (field === "hidden") return value === true ? "put aside" : "brought back";
  const label = fieldLabel(kind, field);
  const shown = (given: unknown): string => valueText(kind, field, given, records, say);
  return was === null || was === undefined ? `${label}: ${shown(value)}` : `${label}: ${shown(was)} → ${shown(value)}`;
}

const formOf = (kind: string, field: string) =>
  isFormed(kind) ? forms[kind].find((one) => one.name === field) : undefined;

/** What the form calls a field. */
export const fieldLabel = (kind: string, field: string): string => formOf(kind, field)?.label ?? field;

/** A value of a field as people read it. */
export function valueText(kind: string, field: string, given: unknown, records: Records, say: Say): string {
  if (given === null || given === undefined) return "nothing";
  const form = formOf(kind, field);
  if (form?.as === "refer") {
    const to = recordOf(records, form.to, given);
    return to === undefined ? "one that is not here" : titleOf(records, form.to, to);
  }
  if (form?.as === "quantity") return say(Number(given), form.label.toLowerCase(), form.dimension);
  if (form?.as === "number") return `${given}${form.unit.replace(" ", "")}`;
  if (form?.as === "place") return placeText(Number(given), form.axis);
  if (form?.as === "result") return resultText({ result: given as RecordHere<"pull">["result"] }, say);
  if (form?.as === "steps") return countText((given as unknown[]).length, "step", "steps");
  if (form?.as === "choice") return form.called?.(String(given)) ?? String(given);
  if (form?.as === "moment") return momentText(String(given));
  const text = typeof given === "string" ? given : JSON.stringify(given);
  return text.length > 60 ? `${text.slice(0, 57)}…` : text;
}

/** A moment as this device shows it. */
export const momentText = (moment: string): string =>
  new Date(moment).toLocaleString("en-GB", { dateStyle: "medium", timeStyle: "short" });
