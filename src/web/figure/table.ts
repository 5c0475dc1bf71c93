/** What a figure shows as a table: one row a value, its line named beside it. */
import type { FigureTable } from "../../figure/index.ts";
import type { Shown } from "./shown-figure.ts";

/** Every value of every line, band and point, in the units of the axes. */
export function tableOf({ plots }: Shown): FigureTable {
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
