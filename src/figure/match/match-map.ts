/**
 * The map of two setups over depth: the loads at which each pulls its anchor at some angles, or the scope each needs for
 * one angle at one load.
 */
import { DEGREE, formatQuantity, inUnit, plotForceUnit, type UnitSystem, unitFor } from "../../quantity/index.ts";
import { compile, endForcesOf, find, pullForAngle, type Rig, riseOf, withValue } from "../../rode/index.ts";
import { type DrawnXy, drawXy } from "../xy/draw-xy.ts";
import type { Layer } from "../xy/spec.ts";

/** Two setups and what is asked of them over depth. */
export interface MatchMapQuestion {
  /** Loads at which some angles come about, or the scope one angle needs. */
  readonly kind: "load" | "scope";
  readonly one: Rig;
  readonly other: Rig;
  /** The part of each whose length makes the scope, 1 next to the anchor. */
  readonly paid: Readonly<Record<"one" | "other", number>>;
  readonly load: number;
  readonly units: UnitSystem;
  readonly width: number;
  /** px; by the width without */
  readonly height?: number;
}

/** The map as it was drawn, with its title. */
export interface DrawnMatchMap extends DrawnXy {
  readonly title: string;
}

/** Lift-off, and three steps of what an anchor may be asked to bear. */
const ANGLES = [0, 5, 10, 15] as const;
const STEPS = 72;

/** The map of two setups over depth. */
export function drawMatchMap(question: MatchMapQuestion): DrawnMatchMap {
  return question.kind === "load" ? byLoad(question) : byScope(question);
}

const depthOf = (rig: Rig): number => (rig.setting.medium === "water" ? rig.setting.depth : rig.setting.rise);

const atDepth = (rig: Rig, depth: number): Rig =>
  withValue(rig, rig.setting.medium === "water" ? { what: "depth" } : { what: "rise" }, depth);

/** From deep to shallow, closer where it is shallow: there the lines are steepest. */
function depths(one: Rig, other: Rig, steps: number): number[] {
  const most = 2.2 * Math.max(depthOf(one), depthOf(other));
  return Array.from({ length: steps }, (_, i) => most * (1 - i / steps) ** 1.5);
}

/** The load at the bow, N, under which a setup in that depth pulls its anchor at an angle to the bottom; null where none does. */
export function loadAt(rig: Rig, depth: number, angle: number): number | null {
  const there = atDepth(rig, depth);
  const rode = compile(there);
  if (rode.hasBuoyant || rode.totalLength <= riseOf(there.setting)) return null;
  return pullForAngle(rode, angle)?.bow ?? null;
}

function byLoad({ one, other, load, units, width, height }: MatchMapQuestion): DrawnMatchMap {
  const lengthUnit = unitFor("length", units);
  const forceUnit = plotForceUnit(units);
  const along = depths(one, other, STEPS);
  const most = 2.5 * load;
  const isoline = (rig: Rig, degrees: number, role: "computed" | "other", stroke: "solid" | "dashed"): Layer[] => {
    const x: number[] = [];
    const y: number[] = [];
    let last: readonly [depth: number, load: number] | null = null;
    for (const depth of along) {
      const load = loadAt(rig, depth, degrees * DEGREE);
      if (load === null) continue;
      const leaving = load > most;
      // Where the line leaves the map, it ends at the frame.
      const share = leaving && last !== null ? (most - last[1]) / (load - last[1]) : 1;
      const [endDepth, endLoad]: [number, number] =
        last === null ? [depth, load] : [last[0] + share * (depth - last[0]), last[1] + share * (load - last[1])];
      if (!leaving || last !== null) {
        x.push(inUnit(endDepth, lengthUnit, "length"));
        y.push(inUnit(endLoad, forceUnit, "force"));
      }
      if (leaving) break;
      last = [depth, load];
    }
    return x.length < 2
      ? []
      : [{ kind: "line", x, y, role, stroke, label: degrees === 0 ? "lifts off" : `${degrees}°` }];
  };
  const now = (rig: Rig, role: "computed" | "other"): Layer => {
    const endForces = endForcesOf(rig)({ at: "bow", newtons: load });
    const angle =
      endForces === null ? "no equilibrium" : formatQuantity(endForces.angleToBottom, "angle", { digits: 3 });
    return {
      kind: "points",
      role,
      points: [
        {
          x: inUnit(depthOf(rig), lengthUnit, "length"),
          y: inUnit(load, forceUnit, "force"),
          shape: role === "computed" ? "square" : "ring",
          label: angle,
          note: `${rig.name}: ${angle}`,
        },
      ],
    };
  };
  const title = `Angle to the bottom at the anchor over depth and load: ${one.name} (solid), ${other.name} (dashed)`;
  const drawn = drawXy({
    title,
    description:
      "Lines join depths and loads at which a setup pulls its anchor at one angle to the bottom; at one load, a solid and a dashed line of one angle are pulls that feel the same.",
    x: { label: "depth", unit: lengthUnit, from: 0 },
    y: { label: "load at the bow", unit: forceUnit, from: 0, to: inUnit(most, forceUnit, "force") },
    width,
    height: height ?? Math.round(Math.min(520, Math.max(280, 0.55 * width))),
    layers: [
      ...ANGLES.flatMap((angle) => isoline(one, angle, "computed", "solid")),
      ...ANGLES.flatMap((angle) => isoline(other, angle, "other", "dashed")),
      now(one, "computed"),
      now(other, "other"),
    ],
  });
  return { ...drawn, title };
}

function byScope({ one, other, paid, load, units, width, height }: MatchMapQuestion): DrawnMatchMap {
  const lengthUnit = unitFor("length", units);
  const here = endForcesOf(one)({ at: "bow", newtons: load });
  const angle = here?.angleToBottom ?? 0;
  const along = depths(one, other, STEPS / 3);
  const needed = (rig: Rig, part: number, role: "computed" | "other", stroke: "solid" | "dashed"): Layer[] => {
    const x: number[] = [];
    const y: number[] = [];
    for (const depth of along) {
      const there = atDepth(rig, depth);
      const goal = angle > 1e-9 ? ({ goal: "angleToBottom", angle } as const) : ({ goal: "liftoff" } as const);
      const found = find(there, {
        unknown: { what: "length", part },
        goal,
        pull: { at: "bow", newtons: load },
      });
      if (found.kind !== "found" || found.settled.scope > 40) continue;
      x.push(inUnit(depth, lengthUnit, "length"));
      y.push(found.settled.scope);
    }
    return x.length < 2 ? [] : [{ kind: "line", x, y, role, stroke, label: rig.name }];
  };
  const now = (rig: Rig, role: "computed" | "other"): Layer => ({
    kind: "points",
    role,
    points: [
      {
        x: inUnit(depthOf(rig), lengthUnit, "length"),
        y: compile(rig).totalLength / riseOf(rig.setting),
        shape: role === "computed" ? "square" : "ring",
        note: rig.name,
      },
    ],
  });
  const title = `Scope that pulls the anchor at ${formatQuantity(angle, "angle", { digits: 3 })} to the bottom under ${formatQuantity(load, "force", { system: units, digits: 3 })}: ${one.name} (solid), ${other.name} (dashed)`;
  const drawn = drawXy({
    title,
    description:
      "At every depth, the scope at which each setup pulls its anchor at the angle to the bottom of the first as it stands.",
    x: { label: "depth", unit: lengthUnit, from: 0 },
    y: { label: "scope", unit: "", from: 0 },
    width,
    height: height ?? Math.round(Math.min(520, Math.max(280, 0.55 * width))),
    layers: [
      ...needed(one, paid.one, "computed", "solid"),
      ...needed(other, paid.other, "other", "dashed"),
      now(one, "computed"),
      now(other, "other"),
    ],
  });
  return { ...drawn, title };
}
