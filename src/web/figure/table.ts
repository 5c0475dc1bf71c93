/** What a figure shows as a table of comma-separated values (RFC 4180): one row a value, its line named beside it. */
import { plainText } from "../../quantity/index.ts";
import type { Shown } from "./shown-figure.ts";

export interface Table {
  readonly columns: readonly string[];
  readonly rows: readonly (readonly (string | number)[])[];
}

/** Every value of every line, band and point, in the units of the axes. */
export function tableOf({ plots }: Shown): Table {
  const [first] = plots;
  const several = plots.length > 1;
  const spread = plots.some(({ series }) => series.some((one) => "u" in one && Array.from(one.u ?? []).some(isKnown)));
  const banded = plots.some(({ series }) => series.some(({ kind }) => kind === "band"));
  const columns = [
    "line",
    ...(several ? ["of"] : []),
    titled(first?.x.label ?? "x", first?.x.unit ?? ""),
    several ? "value" : titled(first?.y.label ?? "y", first?.y.unit ?? ""),
    ...(spread ? ["standard uncertainty"] : []),
    ...(banded ? ["low", "high"] : []),
  ];
  const rows = plots.flatMap(({ y, series }) =>
    series.flatMap((one) =>
      Array.from({ length: one.x.length }, (_, i) => [
        one.name,
        ...(several ? [titled(y.label, y.unit)] : []),
        one.x[i]!,
        one.kind === "band" ? "" : one.y[i]!,
        ...(spread ? ["u" in one && isKnown(one.u?.[i]) ? one.u![i]! : ""] : []),
        ...(banded ? (one.kind === "band" ? [one.low[i]!, one.high[i]!] : ["", ""]) : []),
      ]),
    ),
  );
  return { columns, rows };
}

const isKnown = (u: number | undefined): boolean => u !== undefined && u > 0;
const titled = (label: string, unit: string): string => (unit === "" ? label : `${label}, ${unit}`);

/** Numbers to nine digits: more than any figure shows, and few enough to read. */
const DIGITS = 9;

/** A value that is not a number is an empty cell: nothing stands there in the figure either. */
export function csvOf({ columns, rows }: Table): string {
  return [columns, ...rows].map((row) => `${row.map(cell).join(",")}\r\n`).join("");
}

function cell(value: string | number): string {
  if (typeof value === "number") return Number.isFinite(value) ? String(Number(value.toPrecision(DIGITS))) : "";
  // A text that a spreadsheet would take for a formula stands behind the mark of text.
  const plain = plainText(value);
  const text = /^'*[=+\-@\t\r]/.test(plain) ? `'${plain}` : plain;
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
