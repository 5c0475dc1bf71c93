/** The readings on the bench: a rig of their own, who read what where, and the rows as they were entered. */

import type { Run } from "../../pull/index.ts";
import { DEGREE } from "../../quantity/index.ts";
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

export interface ReadingsU {
  readonly load: number;
  readonly angle: number;
  readonly movement: number;
  readonly gaugeZero: number;
}

export interface ReadingsState {
  readonly name: string;
  readonly rig: Rig;
  readonly loadCellAt: "anchor" | "bow";
  readonly angleAt: "anchor" | "bow";
  /** Standard uncertainties of one reading and of the gauge's zero, SI; 0 where none is stated. */
  readonly u: ReadingsU;
  readonly readings: readonly ReadingRow[];
  readonly release: readonly ReleaseRow[];
}

const NEWTONS = 20;

export const usualReadings: ReadingsState = {
  name: "New readings",
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
  u: { load: NEWTONS, angle: 0.5 * DEGREE, movement: 0.005, gaugeZero: 0 },
  readings: [],
  release: [],
};

export const readingsStore = createStore<ReadingsState>(usualReadings);

/** Which rows of the tables are whole, in their order: the rows of the run. */
export interface WholeRows {
  readonly readings: readonly number[];
  readonly release: readonly number[];
}

export function wholeRows(state: ReadingsState): WholeRows {
  const places = <T>(rows: readonly T[], whole: (row: T) => boolean) =>
    rows.flatMap((row, i) => (whole(row) ? [i] : []));
  return {
    readings: places(state.readings, ({ load, angle, liftoff }) => (load ?? 0) > 0 && (angle !== null || liftoff)),
    release: places(state.release, ({ load, movement }) => (load ?? 0) > 0 && movement !== null),
  };
}

/** The run of the rows that are whole; null while there is none to judge. */
export function runOf(state: ReadingsState): Run | null {
  const whole = wholeRows(state);
  const readings = whole.readings.map((i) => {
    const { load, angle, liftoff } = state.readings[i]!;
    return { load: load!, liftoff, ...(angle === null ? {} : { angle }) };
  });
  const release = whole.release.map((i) => state.release[i]!);
  // A release begins with the load it is let off from: one row alone says nothing yet.
  if (readings.length === 0 && release.length < 2) return null;
  const from = release[0]?.movement ?? 0;
  return {
    name: state.name,
    loadCellAt: state.loadCellAt,
    angleAt: state.angleAt,
    uncertainty: state.u,
    readings,
    // Movement counts from the first row, wherever the tape began.
    release: release.map((row) => ({ load: row.load!, movement: row.movement! - from })),
  };
}
