/** Residuals in standard uncertainties, a panel under a figure of readings. */
import type { PanelSpec } from "../xy/draw-xy.ts";
import type { PlotPoint } from "../xy/spec.ts";

interface Residual {
  /** In the unit of the axis above. */
  readonly x: number;
  readonly residual: number;
  readonly outlier: boolean;
  readonly shape: NonNullable<PlotPoint["shape"]>;
}

/** @param limit the residual beyond which a reading is called an outlier */
export function residualPanel(rows: readonly Residual[], limit: number, from: number, to: number): PanelSpec {
  const worst = Math.max(limit + 1, ...rows.map((row) => Math.abs(row.residual) + 0.5));
  const ends = Math.ceil(worst);
  return {
    height: 158,
    y: { label: "residual, in standard uncertainties", unit: "", from: -ends, to: ends, marks: 5 },
    layers: [
      { kind: "band", x: [from, to], low: [-1, -1], high: [1, 1], role: "computed" },
      { kind: "line", x: [from, to], y: [0, 0], role: "computed" },
      { kind: "rule", axis: "y", at: limit, role: "faint", label: "beyond this: outlier" },
      { kind: "rule", axis: "y", at: -limit, role: "faint" },
      {
        kind: "points",
        role: "measured",
        stemFrom: 0,
        points: rows.map((row) => ({
          x: row.x,
          y: row.residual,
          shape: row.shape,
          doubted: row.outlier,
        })),
      },
    ],
  };
}
