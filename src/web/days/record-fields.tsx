import { placeText } from "../../figure/index.ts";
import { formatQuantity } from "../controls/numbers.ts";
import { Panel } from "../controls/panel.tsx";
import { useStore } from "../state/use-store.ts";
import { type AnyRecord, bookCopy, type RecordHere } from "./book-copy.ts";
import { type FormField, forms, type Kept } from "./kinds.ts";
import { OpenRig } from "./open-rig.tsx";
import styles from "./place.module.css";
import { recordOf, resultText, titleOf } from "./record-text.ts";
import { go } from "./state.ts";
import { useSay } from "./use-say.ts";

/** The fields that say something, each with its name. */
export function RecordFields({ kind, record }: { readonly kind: Kept; readonly record: AnyRecord }) {
  const fields: readonly FormField[] =
    kind === "rigVersion"
      ? [
          { name: "rig", label: "Rig", as: "refer", to: "rig" },
          { name: "reason", label: "Why this version", as: "text" },
          { name: "file", label: "Rig file", as: "rig" },
        ]
      : forms[kind];
  const said = fields.filter(({ name }) => record[name] !== null && record[name] !== undefined && record[name] !== "");
  if (said.length === 0) return null;
  return (
    <Panel title="What is said of it">
      <dl className={styles.fields}>
        {said.map((field) => (
          <div key={field.name} className={isWide(field) ? styles.wide : undefined}>
            <dt>{field.label}</dt>
            <dd>
              <Value field={field} record={record} />
            </dd>
          </div>
        ))}
      </dl>
    </Panel>
  );
}

const isWide = (field: FormField): boolean =>
  (field.as === "text" && field.long === true) || field.as === "steps" || field.as === "rig" || field.as === "boatFile";

function Value({ field, record }: { readonly field: FormField; readonly record: AnyRecord }) {
  const { records } = useStore(bookCopy);
  const say = useSay();
  const value = record[field.name];
  switch (field.as) {
    case "quantity":
      return say(Number(value), field.label.toLowerCase(), field.dimension);
    case "number":
      return field.unit.startsWith(":") ? `${value}${field.unit.replace(" ", "")}` : `${value}${field.unit}`;
    case "place":
      return placeText(Number(value), field.axis);
    case "moment":
      return new Date(String(value)).toLocaleString("en-GB", { dateStyle: "medium", timeStyle: "short" });
    case "result":
      return resultText({ result: value as RecordHere<"pull">["result"] }, say);
    case "steps":
      return (value as { load_N: number; duration_s?: number }[])
        .map((step) => {
          const held =
            step.duration_s === undefined ? "" : ` for ${formatQuantity(step.duration_s, "time", { digits: 3 })}`;
          // A step stays on one line: a number without its unit is none.
          return (say(step.load_N, "load", "force") + held).replaceAll(" ", "\u00a0");
        })
        .join(", then ");
    case "choice":
      return field.called?.(String(value)) ?? String(value);
    case "refer": {
      const to = recordOf(records, field.to, value);
      if (to === undefined) return "not in this book";
      return (
        <button type="button" className={styles.link} onClick={() => go({ page: "record", kind: field.to, id: to.id })}>
          {titleOf(records, field.to, to)}
        </button>
      );
    }
    case "rig":
      return (
        <>
          <textarea className={styles.code} readOnly rows={10} aria-label={field.label} value={String(value)} />
          <OpenRig file={String(value)} />
        </>
      );
    case "boatFile":
      return <textarea className={styles.code} readOnly rows={10} aria-label={field.label} value={String(value)} />;
    default:
      return String(value);
  }
}
