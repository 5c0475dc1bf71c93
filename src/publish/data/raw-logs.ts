/** Logs of pulls as they were read, as tables of a package: a row a reading, seconds from the first one. */
import { plainText } from "../../quantity/index.ts";
import type { Column, Private } from "./columns.ts";

/** A log of a pull as its book keeps it. */
export interface RawLog {
  /** Id of the pull it is the log of. */
  readonly pull: string;
  readonly channels: readonly { readonly name: string; readonly quantity: string; readonly unit: string }[];
  /** s, of any clock. */
  readonly time: Float64Array;
  /** Of each channel in turn; NaN where nothing was read. */
  readonly values: readonly Float64Array[];
}

/** A log as a table, and what of it was left out. */
export interface LogTable {
  readonly columns: readonly Column[];
  readonly csv: string;
  readonly leftOut: readonly string[];
}

/** Places to the metre, from which a site, a home berth or a track ashore can be told. */
const PLACES = /^(latitude|longitude)/;

/** @param chosen `positions` among it: places go in, else they are left out */
export function logTable({ channels, time, values }: RawLog, chosen: readonly Private[]): LogTable {
  const isPlace = (name: string, quantity: string): boolean =>
    PLACES.test(name.toLowerCase()) || /latitude|longitude|position/.test(quantity.toLowerCase());
  const all = channels.map((channel, i) => ({ ...channel, of: values[i]! }));
  const kept = all.filter(({ name, quantity }) => chosen.includes("positions") || !isPlace(name, quantity));
  const columns: Column[] = [
    { name: "time_s", type: "number", unit: "s", description: "seconds from the first reading", required: true },
    ...kept.map(
      ({ name, quantity, unit }, k): Column => ({
        name: columnName(name, unit, k),
        type: "number",
        unit,
        description: plainText(`${quantity === "" ? name : quantity}, as read`),
      }),
    ),
  ];
  const start = time[0] ?? 0;
  // Time differences of clocks kept in doubles: to the microsecond, which no log of a load cell is finer than.
  const lines = Array.from(time, (t, i) =>
    [Math.round((t - start) * 1e6) / 1e6, ...kept.map(({ of }) => of[i]!)]
      .map((value) => (Number.isFinite(value) ? String(value) : ""))
      .join(","),
  );
  return {
    columns,
    csv: [columns.map(({ name }) => name).join(","), ...lines].map((line) => `${line}\r\n`).join(""),
    leftOut: all.filter((one) => !kept.includes(one)).map(({ name }) => name),
  };
}

/** A name of letters and digits, so that no header needs quoting or is a formula: `load_N`, `load-2_N`. */
function columnName(name: string, unit: string, place: number): string {
  const plain = (text: string): string => text.replace(/[^A-Za-z0-9_-]+/g, "").replace(/^-+/, "");
  const own = plain(name) === "" ? `channel${place + 1}` : plain(name);
  return unit === "" || unit === "1" ? own : `${own}_${plain(unit.replaceAll("/", "_per_")) || "unit"}`;
}
