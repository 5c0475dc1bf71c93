/**
 * What the usual short cuts would have done to carried loads: each is undone one at a time, and its effect set against the
 * uncertainty at that load.
 */
import { compile, endForcesOf, lengthOf, pullForAngle, type Rig, riseOf } from "../../rode/index.ts";
import type { CarriedRow } from "./carry.ts";
import type { Run } from "./run-file.ts";

/** What a short cut would add at one load, N. */
export interface Effect {
  /** Load read, N. */
  readonly read: number;
  /** What the short cut would add to the load at the bow of the rig carried to, N. */
  readonly size: number;
  /** Whether that is smaller than the standard uncertainty there. */
  readonly smaller: boolean;
}

/** What is taken for another, or left out. */
export type ShortCut =
  /** The load read for the load at the other rig's bow. */
  | "readForBow"
  /** The load at the anchor for the load at the bow. */
  | "anchorForBow"
  /** The rode as straight: the angle at the anchor follows from the scope alone. */
  | "straight"
  | "noStretch"
  /** The rode in water as heavy as in air. */
  | "asInAir"
  /** The rode between the surface and the roller as if it were under water. */
  | "allUnderWater"
  | "levelGround"
  /** Shackles, swivels and weights as weighing nothing. */
  | "noWeights";

/** What a short cut adds at the loads of a run: it may stand where that is smaller than the uncertainty. */
export interface Verdict {
  readonly simplification: ShortCut;
  readonly effects: readonly Effect[];
}

/** Each short cut with the loads at the bow it would give; null where it does not apply to these rigs. */
type Cut = { readonly name: ShortCut; readonly bow: (row: CarriedRow) => number | null };

/**
 * @param rows carried as well as is known; their uncertainties are the measure
 * @returns a verdict for every short cut that applies
 */
export function judgeShortCuts(run: Run, standIn: Rig, to: Rig, rows: readonly CarriedRow[]): Verdict[] {
  const lifted = rows.filter((row) => row.says === "equal");
  return shortCuts(run, standIn, to).flatMap((cut) => {
    const effects = lifted.flatMap((row): Effect[] => {
      const bow = cut.bow(row);
      if (bow === null || !Number.isFinite(bow)) return [];
      return [{ read: row.read, size: bow - row.bow, smaller: Math.abs(bow - row.bow) < (row.u?.bow ?? 0) }];
    });
    return effects.length === 0 ? [] : [{ simplification: cut.name, effects }];
  });
}

function shortCuts(run: Run, standIn: Rig, to: Rig): Cut[] {
  const carried =
    (from: Rig, rig: Rig) =>
    (row: CarriedRow): number | null => {
      const there = endForcesOf(from)({ at: run.loadCellAt, newtons: row.read });
      if (there === null) return null;
      const rode = compile(rig);
      return rode.hasBuoyant ? null : (pullForAngle(rode, there.angleToBottom)?.bow ?? null);
    };
  const cuts: Cut[] = [
    { name: "readForBow", bow: (row) => row.read },
    { name: "anchorForBow", bow: (row) => row.anchor },
    {
      name: "straight",
      bow: (row) => straight(standIn, to, row),
    },
  ];
  if (stretches(standIn) || stretches(to)) cuts.push({ name: "noStretch", bow: carried(rigid(standIn), rigid(to)) });
  if (to.setting.medium === "water") cuts.push({ name: "asInAir", bow: carried(standIn, inAir(to)) });
  if (to.setting.medium === "water" && to.setting.rollerHeight > 0) {
    const { depth, rollerHeight } = to.setting;
    const drowned: Rig = { ...to, setting: { ...to.setting, depth: depth + rollerHeight, rollerHeight: 0 } };
    cuts.push({
      name: "allUnderWater",
      bow: carried(standIn, drowned),
    });
  }
  if (slopes(standIn) || slopes(to)) cuts.push({ name: "levelGround", bow: carried(level(standIn), level(to)) });
  if (hasPoints(standIn) || hasPoints(to)) cuts.push({ name: "noWeights", bow: carried(bare(standIn), bare(to)) });
  return cuts;
}

/** The load at which the rode, straight, would pull at the stand-in's straight angle: none, unless the scopes agree. */
function straight(standIn: Rig, to: Rig, row: CarriedRow): number | null {
  /** Of the straight rode, above its bottom. */
  const chord = (rig: Rig) =>
    Math.asin(Math.min(1, riseOf(rig.setting) / rig.rode.reduce((sum, part) => sum + lengthOf(part), 0))) -
    rig.setting.bottomSlope;
  const angle = chord(to) - (chord(standIn) - row.angleToBottom);
  const rode = compile(to);
  return rode.hasBuoyant ? null : (pullForAngle(rode, angle)?.bow ?? null);
}

const stretches = (rig: Rig) => rig.rode.some((part) => part.kind === "line" && part.stretch.kind !== "rigid");
const slopes = (rig: Rig) => rig.setting.bottomSlope !== 0;
const hasPoints = (rig: Rig) => rig.rode.some((part) => part.kind === "point");
const level = (rig: Rig): Rig => ({ ...rig, setting: { ...rig.setting, bottomSlope: 0 } });
const bare = (rig: Rig): Rig => ({ ...rig, rode: rig.rode.filter((part) => part.kind === "line") });
const rigid = (rig: Rig): Rig => ({
  ...rig,
  rode: rig.rode.map((part) => (part.kind === "line" ? { ...part, stretch: { kind: "rigid" } as const } : part)),
});

function inAir(rig: Rig): Rig {
  const { bottomSlope, bottomFriction } = rig.setting;
  return { ...rig, setting: { medium: "air", rise: riseOf(rig.setting), bottomSlope, bottomFriction } };
}
