import { useId, useState } from "react";
import type { QuestionKind } from "../../series/index.ts";
import { questionWords } from "../../words/index.ts";
import { Button } from "../controls/button.tsx";
import { type FormText, formOf, type Path, withField, withItem, withoutItem } from "./form-text.ts";
import styles from "./place.module.css";

/** One field of a group: where it stands in it, and what it is called. */
interface Field {
  readonly name: string;
  readonly label: string;
  readonly list?: true;
}

interface List {
  readonly path: Path;
  readonly title: string;
  readonly one: string;
  readonly fields: readonly Field[];
  /** What a new one begins with. */
  readonly fresh: (count: number, form: FormText) => Readonly<Record<string, unknown>>;
}

const lists: readonly List[] = [
  {
    path: ["anchors"],
    title: "Anchors",
    one: "anchor",
    fields: [
      { name: "name", label: "Name" },
      { name: "mass", label: "Mass" },
    ],
    fresh: (count) => ({ name: `Anchor ${count + 1}`, mass: "10 kg" }),
  },
  {
    path: ["sites"],
    title: "Sites",
    one: "site",
    fields: [
      { name: "name", label: "Name" },
      { name: "depth", label: "Depth, least and greatest", list: true },
      { name: "seabed", label: "Seabed" },
      { name: "room", label: "Room" },
    ],
    fresh: (count) => ({ name: `Site ${count + 1}`, depth: ["4 m", "8 m"] }),
  },
  {
    path: ["days"],
    title: "Days",
    one: "day",
    fields: [
      { name: "date", label: "Date" },
      { name: "site", label: "Site" },
      { name: "from", label: "From" },
      { name: "to", label: "To" },
      { name: "zone", label: "Zone" },
    ],
    fresh: (_, form) => ({ date: "2026-06-02", site: form.at(["sites", 0, "name"]), from: "09:00", to: "12:00" }),
  },
];

const single: readonly (Field & { readonly path: Path })[] = [
  { path: ["question", "angles"], name: "angles", label: "Angles at the anchor", list: true },
  { path: ["question", "loads"], name: "loads", label: "Loads at the anchor, rising", list: true },
  { path: ["question", "tell"], name: "tell", label: "Difference to tell, a ratio or share a degree" },
  { path: ["pulls", "repeats"], name: "repeats", label: "Pulls of each" },
  { path: ["pulls", "hold"], name: "hold", label: "Hold each load" },
  { path: ["pulls", "heldFor"], name: "heldFor", label: "Held when kept for" },
  { path: ["pulls", "heldWithin"], name: "heldWithin", label: "The anchor moving less than" },
  { path: ["gauge"], name: "gauge", label: "± of an angle read" },
  { path: ["order", "seed"], name: "seed", label: "Seed of the order" },
];

/** The series by its fields; what they do not show stays in the text below. */
export function Form({
  text,
  put,
}: {
  readonly text: string;
  readonly put: (text: string, label: string, stroke?: string) => void;
}) {
  const form = formOf(text);
  if (form === null) return <p>The text is not to be read as fields: mend it below, or undo.</p>;
  const set = (path: Path, label: string, list?: true) => (value: string) =>
    put(withField(text, path, value, list === true), label, `series ${path.join(".")}`);
  return (
    <div className={styles.form}>
      <label className={`${styles.field} ${styles.whole}`}>
        Question
        <select
          value={form.at(["question", "kind"])}
          onChange={(event) => set(["question", "kind"], "question")(event.target.value)}
        >
          {(Object.keys(questionWords) as QuestionKind[]).map((kind) => (
            <option key={kind} value={kind}>
              {questionWords[kind]}
            </option>
          ))}
        </select>
      </label>
      {single.map(({ path, label, list }) => (
        <Typed key={label} label={label} value={form.at(path)} onChange={set(path, label, list)} />
      ))}
      {lists.map((list) => (
        <Items key={list.title} list={list} form={form} text={text} put={put} set={set} />
      ))}
    </div>
  );
}

function Items({
  list: { path, title, one, fields, fresh },
  form,
  text,
  put,
  set,
}: {
  readonly list: List;
  readonly form: FormText;
  readonly text: string;
  readonly put: (text: string, label: string) => void;
  readonly set: (path: Path, label: string, list?: true) => (value: string) => void;
}) {
  const items = form.items(
    path,
    fields.map(({ name }) => name),
  );
  return (
    <fieldset className={styles.items}>
      <legend>{title}</legend>
      {items.map((item, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: its place in the list is all that tells one from another
        <div key={i} className={styles.item}>
          {fields.map(({ name, label, list }) => (
            <Typed
              key={name}
              label={label}
              of={`${one} ${i + 1}`}
              value={item[name] ?? ""}
              onChange={set([...path, i, name], `${one}: ${label}`, list)}
            />
          ))}
          <Button
            aria-label={`Take out ${one} ${i + 1}`}
            onClick={() => put(withoutItem(text, [...path, i]), `take out ${one} ${i + 1}`)}
          >
            Take out
          </Button>
        </div>
      ))}
      <Button onClick={() => put(withItem(text, path, fresh(items.length, form)), `add ${one}`)}>Add {one}</Button>
    </fieldset>
  );
}

function Typed({
  label,
  of,
  value,
  onChange,
}: {
  readonly label: string;
  readonly of?: string;
  readonly value: string;
  readonly onChange: (value: string) => void;
}) {
  const id = useId();
  // While it is typed the text stands as typed: "2 deg, " is on its way to a list of two.
  const [typed, setTyped] = useState<string | null>(null);
  return (
    <div className={styles.field}>
      <label htmlFor={id}>
        {label}
        {of !== undefined && <span className="unseen"> of {of}</span>}
      </label>
      <input
        id={id}
        value={typed ?? value}
        maxLength={4000}
        autoComplete="off"
        spellCheck={false}
        onChange={(event) => {
          setTyped(event.target.value);
          onChange(event.target.value);
        }}
        onBlur={() => setTyped(null)}
      />
    </div>
  );
}
