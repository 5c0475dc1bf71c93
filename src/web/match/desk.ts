/** Two setups side by side under one load: a heavy chain at short scope may pull as a rope at a longer one does. */
import { longestLine, type Rig } from "../../rode/index.ts";
import { usualState } from "../rig/desk.ts";
import { createStore } from "../state/store.ts";

export type Side = "one" | "other";
export type MapKind = "load" | "scope";

export interface MatchState {
  readonly one: Rig;
  readonly other: Rig;
  /** N at both bows. */
  readonly load: number;
  readonly map: MapKind;
}

const chain: Rig = {
  name: "All chain",
  setting: {
    medium: "water",
    depth: 5,
    rollerHeight: 1.2,
    waterDensity: 1025,
    bottomSlope: 0,
    bottomFriction: 0.6,
    current: 0,
  },
  rode: [
    {
      kind: "line",
      name: "chain 10 mm",
      length: 22,
      massPerLength: 2.25,
      density: 7850,
      stretch: { kind: "linear", stiffness: 6.4e6 },
      diameter: 0.01,
      material: "chain",
    },
  ],
  uncertainty: {},
};

export const usualMatch: MatchState = { one: chain, other: usualState.rig, load: 2500, map: "load" };

export const matchDesk = createStore<MatchState>(usualMatch);

/** The part of a setup that is paid out and hauled in: its longest line, counted from 1. */
export function paidOut(rig: Rig): { readonly part: number; readonly length: number; readonly name: string } {
  const part = longestLine(rig);
  const line = rig.rode[part - 1]!;
  return { part, length: line.kind === "line" ? line.length : 0, name: line.name };
}
