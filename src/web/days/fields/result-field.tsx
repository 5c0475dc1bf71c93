import { QuantityField } from "../../controls/quantity-field.tsx";
import styles from "../place.module.css";
import { type FieldProps, Framed } from "./framed.tsx";

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
  /** m, out when that load was read */
  readonly paidOut_m?: number;
}

/** What a pull found: a load it gave way at, or one it held to, with its standard uncertainty. */
export function ResultField({ field, value, wrong, onChange }: FieldProps) {
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
              else set({ kind }, kind === "gaveWay" || kind === "heldTo" ? [] : ["load_N", "u_N", "paidOut_m"]);
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
          <QuantityField
            field="paid out"
            label="Rode then out, where it was veered"
            dimension="length"
            value={result.paidOut_m ?? null}
            range={{ above: 0, expected: "a length above 0 is expected" }}
            onChange={(paidOut_m) => set({ paidOut_m })}
            onEmpty={() => set({}, ["paidOut_m"])}
          />
        </>
      )}
    </>
  );
}
