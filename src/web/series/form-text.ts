/**
 * The fields of a form over the text of a series file: what is changed in a field changes that place of the text and
 * nothing else, so that comments, order and what the form does not show stay as they were written.
 */
import { type Document, isMap, isSeq, parseDocument } from "yaml";

/** Where a field stands: names of groups and places in lists. */
export type Path = readonly (string | number)[];

/** What the form shows of a list of groups. */
export type Item = Readonly<Record<string, string>>;

/** The text as the form sees it. */
export interface FormText {
  /** What stands at a place, a list with commas; empty where nothing does. */
  at(path: Path): string;
  /** Groups of a list, each by the fields asked for. */
  items(path: Path, fields: readonly string[]): Item[];
}

/** null where the text is not to be read as fields. */
export function formOf(text: string): FormText | null {
  const document = documentOf(text);
  if (document === null) return null;
  const at = (path: Path): string => written(document.getIn(path, false));
  return {
    at,
    items(path, fields) {
      const list = document.getIn(path, true);
      if (!isSeq(list)) return [];
      return list.items.map((_, i) =>
        Object.fromEntries(fields.map((field) => [field, at([...path, i, ...field.split(".")])])),
      );
    },
  };
}

/** The text with another value at a place; empty takes the field out, a list is written with commas. */
export function withField(text: string, path: Path, value: string, list = false): string {
  return changed(text, (document) => {
    const trimmed = value.trim();
    if (trimmed === "") document.deleteIn(path);
    else document.setIn(path, list ? document.createNode(parts(trimmed), { flow: true }) : scalar(trimmed));
  });
}

/** The text with one group more at the end of a list. */
export function withItem(text: string, path: Path, item: Readonly<Record<string, unknown>>): string {
  return changed(text, (document) => {
    const list = document.getIn(path, true);
    const node = document.createNode(item, { flow: true });
    if (isSeq(list)) list.add(node);
    else document.setIn(path, document.createNode([item]));
  });
}

/** The text without a group of a list; the last one takes the list with it. */
export function withoutItem(text: string, path: Path): string {
  return changed(text, (document) => {
    document.deleteIn(path);
    const list = document.getIn(path.slice(0, -1), true);
    if (isSeq(list) && list.items.length === 0) document.deleteIn(path.slice(0, -1));
  });
}

function documentOf(text: string): Document | null {
  const document = parseDocument(text, { uniqueKeys: true });
  return document.errors.length === 0 && isMap(document.contents) ? document : null;
}

function changed(text: string, change: (document: Document) => void): string {
  const document = documentOf(text);
  if (document === null) return text;
  change(document);
  return document.toString({ lineWidth: 0, flowCollectionPadding: true });
}

/** A whole number or a decimal stays a number; everything else is text as it was typed. */
const scalar = (text: string): string | number => (/^-?\d+(\.\d+)?$/.test(text) ? Number(text) : text);

const parts = (text: string): (string | number)[] =>
  text
    .split(/[,;]/)
    .map((one) => one.trim())
    .filter((one) => one !== "")
    .map(scalar);

function written(value: unknown): string {
  if (value === undefined || value === null) return "";
  if (isSeq(value)) return value.toJSON().map(String).join(", ");
  return typeof value === "object" ? "" : String(value);
}
