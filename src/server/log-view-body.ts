import type { LogView } from "../book/index.ts";

/** What the bytes of a view are, told in the header `Rodebench-View`. */
export interface ViewHead {
  readonly kind: LogView["kind"];
  /** Numbers in each column. */
  readonly rows: number;
  /**
   * The columns, in the order their numbers follow one another: `t` and then the channels; for bands `from`, `to` and
   * then `min` and `max` of each channel.
   */
  readonly columns: readonly { readonly name: string; readonly part: "t" | "from" | "to" | "value" | "min" | "max" }[];
}

/**
 * A view as bytes: one column of Float64 (little-endian, NaN where nothing was read) after another. A phone draws from
 * them without reading a single digit.
 */
export function viewBody(view: LogView): { readonly head: ViewHead; readonly bytes: Uint8Array<ArrayBuffer> } {
  const columns: { name: string; part: ViewHead["columns"][number]["part"]; values: Float64Array }[] = [];
  if (view.kind === "readings") {
    columns.push({ name: "", part: "t", values: view.times });
    for (const [name, values] of Object.entries(view.columns)) columns.push({ name, part: "value", values });
  } else {
    columns.push({ name: "", part: "from", values: view.from }, { name: "", part: "to", values: view.to });
    for (const [name, { min, max }] of Object.entries(view.columns)) {
      columns.push({ name, part: "min", values: min }, { name, part: "max", values: max });
    }
  }
  const rows = columns[0]!.values.length;
  const out = new DataView(new ArrayBuffer(8 * rows * columns.length));
  let at = 0;
  for (const { values } of columns)
    for (const value of values) {
      out.setFloat64(at, value, true);
      at += 8;
    }
  return {
    head: { kind: view.kind, rows, columns: columns.map(({ name, part }) => ({ name, part })) },
    bytes: new Uint8Array(out.buffer),
  };
}
