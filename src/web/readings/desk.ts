/** The readings on the bench: a rig of their own, who read what where, and the rows as they were entered. */
import type { Run } from "../../pull/index.ts";
import type { Rig } from "../../rode/index.ts";
import { createStore } from "../state/store.ts";

/** A row being entered: SI, null where nothing stands yet. */
export interface ReadingRow {
  readonly load: number | null;
  readonly angle: number | null;
  readonly liftoff: boolean;
}

export interface ReleaseRow {
  readonly load: number | null;
  readonly movement: number | null;
}

export interface ReadingsState {
  readonly name: string;
  readonly rig: Rig;
  readonly loadCellAt: "anchor" | "bow";
  readonly angleAt: "anchor" | "bow";
  /** Standard uncertainties of one reading, SI. */
  readonly u: { readonly load: number; readonly angle: number; readonly movement: number };
  readonly readings: readonly ReadingRow[];
  readonly release: readonly ReleaseRow[];
}

const NEWTONS = 20;
const DEGREE = Math.PI / 180;

export const usualReadings: ReadingsState = {
  name: "Readings",
  rig: {
    name: "Rig on land",
    setting: { medium: "air", rise: 8, bottomSlope: 0, bottomFriction: 0 },
    rode: [
      {
        kind: "line",
        name: "chain 10 mm",
        length: 28,
        massPerLength: 2.25,
        density: 7850,
        stretch: { kind: "linear", stiffness: 6.4e6 },
        diameter: 0.01,
        material: "chain",
      },
    ],
    uncertainty: { massPerLength: 0.03, rise: 0.1 },
  },
  loadCellAt: "anchor",
  angleAt: "anchor",
  u: { load: NEWTONS, angle: 0.5 * DEGREE, movement: 0.005 },
  readings: [],
  release: [],
};

export const readingsDesk = createStore<ReadingsState>(usualReadings);

/** The run of the rows that are whole; null while there is none to judge. */
export function runOf(state: ReadingsState): Run | null {
  const readings = state.readings.flatMap(({ load, angle, liftoff }) =>
    load === null || !(load > 0) || (angle === null && !liftoff)
      ? []
      : [{ load, liftoff, ...(angle === null ? {} : { angle }) }],
  );
  const release = state.release.flatMap(({ load, movement }) =>
    load === null || movement === null || !(load > 0) ? [] : [{ load, movement }],
  );
  if (readings.length === 0 && release.length < 2) return null;
  return {
    name: state.name,
    loadCellAt: state.loadCellAt,
    angleAt: state.angleAt,
    uncertainty: { ...state.u, gaugeZero: 0 },
    readings,
    // Movement counts from the first row, wherever the tape began.
    release: release.map((row) => ({ load: row.load, movement: row.movement - release[0]!.movement })),
  };
}
