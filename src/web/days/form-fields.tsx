import { useId, useRef, useState } from "react";
import { formatQuantity, significant } from "../../quantity/index.ts";
import { rigDesk } from "../rig/desk.ts";
import { Button } from "../show/button.tsx";
import { QuantityField } from "../show/quantity-field.tsx";
import { useUnits } from "../state/preferences.ts";
import { useStore } from "../state/use-store.ts";
import { bookCopy } from "./book-copy.ts";
import type { Bounds, FormField } from "./kinds.ts";
import styles from "./place.module.css";
import { placeText, placeTyped } from "./projection.ts";
import { lineOf, titleOf } from "./said.ts";
import { StepsField } from "./steps-field.tsx";
import { useSay } from "./use-say.ts";

export interface FieldProps<F extends FormField = FormField> {
  readonly field: F;
  readonly value: unknown;
  readonly wrong: string | null;
  readonly isNew: boolean;
  readonly onChange: (value: unknown) => void;
  readonly onWrong: (line: string) => void;
}

type Of<A extends FormField["as"]> = FieldProps<Extract<FormField, { as: A }>>;

/** One field of a form, as its kind is told. */
export function FieldInput(props: FieldProps) {
  const { field } = props;
  switch (field.as) {
    case "quantity":
      return <Quantity {...(props as Of<"quantity">)} />;
    case "number":
      return <Counted {...(props as Of<"number">)} />;
    case "place":
      return <PlaceField {...(props as Of<"place">)} />;
    case "choice":
      return <Chosen {...(props as Of<"choice">)} />;
    case "refer":
      return <Referred {...(props as Of<"refer">)} />;
    case "steps":
      return <StepsField {...props} />;
    case "result":
      return <ResultField {...props} />;
    case "rig":
      return <RigField {...props} />;
    case "boatFile":
      return <FileField {...props} />;
    case "date":
      return <Dated {...props} type="date" />;
    case "moment":
      return <Dated {...props} type="datetime-local" />;
    default:
      return <Text {...(props as Of<"text">)} />;
  }
}

/** Label, input, hint, and what is wrong in one line. */
export function Framed({
  field,
  wrong,
  wide,
  children,
}: Pick<FieldProps, "field" | "wrong"> & {
  readonly wide?: boolean;
  readonly children: (ids: { id: string; described: string | undefined }) => React.ReactNode;
}) {
  const id = useId();
  const described = [wrong === null ? "" : `${id}-wrong`, field.hint === undefined ? "" : `${id}-hint`]
    .filter((part) => part !== "")
    .join(" ");
  return (
    <div className={`${styles.field} ${wide ? styles.wide : ""}`}>
      <label htmlFor={id}>
        {field.label}
        {field.required && <span aria-hidden="true"> (needed)</span>}
      </label>
      {children({ id, described: described === "" ? undefined : described })}
      {wrong !== null && (
        <p className={styles.fieldWrong} id={`${id}-wrong`} role="alert">
          {wrong}
        </p>
      )}
      {field.hint !== undefined && (
        <p className={styles.fieldHint} id={`${id}-hint`}>
          {field.hint}
        </p>
      )}
    </div>
  );
}

function Text({ field, value, wrong, onChange }: Of<"text">) {
  const shown = typeof value === "string" ? value : "";
  return (
    <Framed field={field} wrong={wrong} wide={field.long === true}>
      {({ id, described }) =>
        field.long ? (
          <textarea
            id={id}
            className={styles.area}
            rows={2}
            aria-invalid={wrong !== null}
            aria-describedby={described}
            value={shown}
            onChange={(event) => onChange(event.target.value)}
          />
        ) : (
          <input
            id={id}
            className={styles.input}
            type="text"
            autoComplete="off"
            required={field.required === true}
            aria-invalid={wrong !== null}
            aria-describedby={described}
            value={shown}
            onChange={(event) => onChange(event.target.value)}
          />
        )
      }
    </Framed>
  );
}

function Quantity({ field, value, wrong, onChange }: Of<"quantity">) {
  return (
    <div className={styles.field}>
      <QuantityField
        field={field.label.toLowerCase()}
        label={field.label}
        dimension={field.dimension}
        value={typeof value === "number" ? value : null}
        range={field.bounds}
        onChange={onChange}
        onEmpty={() => onChange(null)}
      />
      {wrong !== null && (
        <p className={styles.fieldWrong} role="alert">
          {wrong}
        </p>
      )}
    </div>
  );
}

/** A number that has one unit everywhere: degrees, a count. @returns the number, null for nothing, or what is wrong */
export function numberTyped(text: string, label: string, bounds: Bounds, whole: boolean): number | null | string {
  const plain = text
    .trim()
    .replace(/[°\s]*$/, "")
    .replace(/:\s*1$/, "");
  if (plain === "") return null;
  const value = /^[+-]?(\d+\.?\d*|\.\d+)$/.test(plain) ? Number(plain) : Number.NaN;
  const fits =
    (bounds.least === undefined || value >= bounds.least) &&
    (bounds.most === undefined || value <= bounds.most) &&
    (!whole || Number.isInteger(value));
  return fits ? value : `${label}: "${text.trim()}"; ${bounds.expected}`;
}

function Typed(
  props: Pick<FieldProps, "field" | "wrong" | "onChange" | "onWrong"> & {
    readonly shown: string;
    readonly unit: string;
    readonly read: (text: string) => number | null | string;
    readonly beside?: React.ReactNode;
    readonly below?: string;
  },
) {
  const [typed, setTyped] = useState<string | null>(null);
  return (
    <Framed field={props.below === undefined ? props.field : { ...props.field, hint: props.below }} wrong={props.wrong}>
      {({ id, described }) => (
        <span className={styles.with}>
          <input
            id={id}
            className={styles.input}
            type="text"
            inputMode={props.field.as === "place" ? "text" : "decimal"}
            autoComplete="off"
            aria-invalid={props.wrong !== null}
            aria-describedby={described}
            value={typed ?? props.shown}
            onChange={(event) => {
              setTyped(event.target.value);
              const read = props.read(event.target.value);
              if (typeof read === "string") props.onWrong(read);
              else props.onChange(read);
            }}
            onBlur={() => {
              if (props.wrong === null) setTyped(null);
            }}
          />
          {props.unit !== "" && <span className={styles.quiet}>{props.unit}</span>}
          {props.beside}
        </span>
      )}
    </Framed>
  );
}

function Counted(props: Of<"number">) {
  const { field, value } = props;
  return (
    <Typed
      {...props}
      shown={typeof value === "number" ? significant(value, 6) : ""}
      unit={field.unit}
      read={(text) => numberTyped(text, field.label, field.bounds, field.whole === true)}
    />
  );
}

function PlaceField(props: Of<"place">) {
  const { field, value, onChange } = props;
  const read = (text: string): number | null | string => {
    if (text.trim() === "") return null;
    const degrees = placeTyped(text, field.axis);
    if (degrees === null)
      return `${field.label}: "${text.trim()}"; degrees such as ${field.axis === "latitude" ? "10° 30.25′ N" : "20° 15.3′ W"} or -20.25 are expected`;
    return degrees >= field.bounds.least! && degrees <= field.bounds.most!
      ? degrees
      : `${field.label}: "${text.trim()}"; ${field.bounds.expected}`;
  };
  const here =
    "geolocation" in navigator ? (
      <Button
        aria-label={`${field.label} where this device is now`}
        onClick={() =>
          navigator.geolocation.getCurrentPosition(
            ({ coords }) => onChange(Number(coords[field.axis].toFixed(6))),
            (error) => props.onWrong(`${field.label}: ${error.message || "this device gives no position"}`),
            { enableHighAccuracy: true, timeout: 15_000 },
          )
        }
      >
        Here
      </Button>
    ) : undefined;
  return (
    <Typed
      {...props}
      shown={typeof value === "number" ? String(value) : ""}
      unit=""
      read={read}
      beside={here}
      {...(typeof value === "number" ? { below: placeText(value, field.axis) } : {})}
    />
  );
}

function Chosen({ field, value, wrong, onChange }: Of<"choice">) {
  return (
    <Framed field={field} wrong={wrong}>
      {({ id, described }) => (
        <select
          id={id}
          className={styles.select}
          aria-invalid={wrong !== null}
          aria-describedby={described}
          value={typeof value === "string" ? value : ""}
          onChange={(event) => onChange(event.target.value === "" ? null : event.target.value)}
        >
          <option value="">not said</option>
          {field.options.map((option) => (
            <option key={option} value={option}>
              {option}
            </option>
          ))}
        </select>
      )}
    </Framed>
  );
}

function Referred({ field, value, wrong, onChange }: Of<"refer">) {
  const { records } = useStore(bookCopy);
  const say = useSay();
  const options = records[field.to].filter((one) => !one.hidden || one.id === value);
  // Nothing to choose from: the field would only be in the way.
  if (options.length === 0) return null;
  return (
    <Framed field={field} wrong={wrong}>
      {({ id, described }) => (
        <select
          id={id}
          className={styles.select}
          aria-describedby={described}
          value={typeof value === "string" ? value : ""}
          onChange={(event) => onChange(event.target.value === "" ? null : event.target.value)}
        >
          <option value="">not said</option>
          {options.map((one) => (
            <option key={one.id} value={one.id}>
              {[
                titleOf(records, field.to, one),
                field.to === "anchor" ? lineOf(records, "anchor", one, say).split(" · ")[0] : "",
              ]
                .filter((part) => part !== "")
                .join(", ")}
            </option>
          ))}
        </select>
      )}
    </Framed>
  );
}

function Dated({ field, value, wrong, onChange, type }: FieldProps & { readonly type: "date" | "datetime-local" }) {
  const shown = typeof value !== "string" ? "" : type === "date" ? value : localText(value);
  return (
    <Framed field={field} wrong={wrong}>
      {({ id, described }) => (
        <input
          id={id}
          className={styles.input}
          type={type}
          aria-invalid={wrong !== null}
          aria-describedby={described}
          value={shown}
          onChange={(event) => {
            const text = event.target.value;
            if (text === "") onChange(null);
            else onChange(type === "date" ? text : new Date(text).toISOString());
          }}
        />
      )}
    </Framed>
  );
}

/** A moment in the device's own zone, as the browser's field takes it. */
function localText(moment: string): string {
  const at = new Date(moment);
  if (Number.isNaN(at.getTime())) return "";
  return new Date(at.getTime() - 60_000 * at.getTimezoneOffset()).toISOString().slice(0, 16);
}

const results = [
  { value: "gaveWay", label: "gave way at" },
  { value: "heldTo", label: "held to" },
  { value: "neverSet", label: "never set" },
  { value: "none", label: "no result" },
] as const;

interface Result {
  readonly kind: (typeof results)[number]["value"];
  readonly load_N?: number;
  readonly u_N?: number;
}

/** What a pull found: a load it gave way at, or one it held to, with its standard uncertainty. */
function ResultField({ field, value, wrong, onChange }: FieldProps) {
  const result = (value ?? null) as Result | null;
  const loaded = result?.kind === "gaveWay" || result?.kind === "heldTo";
  const set = (change: Partial<Result>, without: readonly (keyof Result)[] = []) => {
    const next: Record<string, unknown> = { ...result, ...change };
    for (const name of without) delete next[name];
    onChange(next);
  };
  return (
    <>
      <Framed field={field} wrong={wrong}>
        {({ id, described }) => (
          <select
            id={id}
            className={styles.select}
            aria-describedby={described}
            value={result?.kind ?? ""}
            onChange={(event) => {
              const kind = event.target.value as Result["kind"] | "";
              if (kind === "") onChange(null);
              else set({ kind }, kind === "gaveWay" || kind === "heldTo" ? [] : ["load_N", "u_N"]);
            }}
          >
            <option value="">not said</option>
            {results.map((one) => (
              <option key={one.value} value={one.value}>
                {one.label}
              </option>
            ))}
          </select>
        )}
      </Framed>
      {loaded && (
        <>
          <QuantityField
            field="load"
            label={result.kind === "gaveWay" ? "Gave way at" : "Held to"}
            dimension="force"
            value={result.load_N ?? null}
            range={{ least: 0, expected: "a load of 0 or more is expected" }}
            onChange={(load_N) => set({ load_N })}
            onEmpty={() => set({}, ["load_N"])}
          />
          <QuantityField
            field="load"
            label="Its standard uncertainty ±"
            dimension="force"
            value={result.u_N ?? null}
            range={{ least: 0, expected: "an uncertainty of 0 or more is expected" }}
            onChange={(u_N) => set({ u_N })}
            onEmpty={() => set({}, ["u_N"])}
          />
        </>
      )}
    </>
  );
}

/** The rig of the bench, kept whole with the pulls it is used for. */
function RigField({ field, value, wrong, isNew, onChange, onWrong }: FieldProps) {
  const { rig } = useStore(rigDesk);
  const { system } = useUnits();
  const pick = useRef<HTMLInputElement>(null);
  const [from, setFrom] = useState("");
  const take = async (): Promise<void> => {
    // Writing a rig file brings YAML: only when one is written.
    const { writeRigText } = await import("../rig/files.ts");
    setFrom(`the bench's rig, ${rig.name}`);
    onChange(writeRigText(rig));
  };
  const read = async (file: File): Promise<void> => {
    const { readRigText } = await import("../rig/files.ts");
    const text = await file.text();
    const answer = readRigText(text, file.name);
    if (answer.kind === "refused") onWrong(answer.line);
    else {
      setFrom(file.name);
      onChange(text);
    }
  };
  const parts = rig.rode
    .map((part) =>
      part.kind === "line" ? `${formatQuantity(part.length, "length", { system, digits: 3 })} ${part.name}` : part.name,
    )
    .join(", ");
  return (
    <div className={`${styles.field} ${styles.wide}`}>
      <span className={styles.label}>{isNew ? field.label : "A new version of its rode"}</span>
      <div className={styles.actions}>
        <Button onClick={() => void take()}>Take the rig on the bench</Button>
        <Button onClick={() => pick.current?.click()}>From a rig file</Button>
      </div>
      <p className={styles.fieldHint}>
        {typeof value === "string" ? `Taken from ${from}.` : `On the bench now: ${rig.name}: ${parts}`}
      </p>
      <input
        ref={pick}
        type="file"
        className={styles.pick}
        tabIndex={-1}
        aria-label="A rig file"
        accept=".yaml,.yml,.json"
        onChange={(event) => {
          const file = event.target.files?.[0];
          event.target.value = "";
          if (file !== undefined) void read(file);
        }}
      />
      {wrong !== null && (
        <p className={styles.fieldWrong} role="alert">
          {wrong}
        </p>
      )}
    </div>
  );
}

function FileField({ field, value, wrong, onChange }: FieldProps) {
  const pick = useRef<HTMLInputElement>(null);
  return (
    <div className={`${styles.field} ${styles.wide}`}>
      <span className={styles.label}>{field.label}</span>
      <div className={styles.actions}>
        <Button onClick={() => pick.current?.click()}>
          {typeof value === "string" ? "Another file" : "From a boat file"}
        </Button>
        {typeof value === "string" && <Button onClick={() => onChange(null)}>Without it</Button>}
      </div>
      {typeof value === "string" && (
        <textarea className={styles.code} readOnly rows={10} aria-label={field.label} value={value} />
      )}
      <input
        ref={pick}
        type="file"
        className={styles.pick}
        tabIndex={-1}
        aria-label="A boat file"
        accept=".yaml,.yml,.json"
        onChange={(event) => {
          const file = event.target.files?.[0];
          event.target.value = "";
          if (file !== undefined) void file.text().then(onChange);
        }}
      />
      {wrong !== null && (
        <p className={styles.fieldWrong} role="alert">
          {wrong}
        </p>
      )}
    </div>
  );
}
