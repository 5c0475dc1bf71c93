import { memo, useEffect, useMemo, useState } from "react";
import { roundAbove } from "../../numeric/index.ts";
import { inUnit } from "../../quantity/index.ts";
import { type Certainty, find, type Pull, type Rig, rigInputs } from "../../rode/index.ts";
import { Curve, type Line } from "../controls/curve.tsx";
import { FaultNote } from "../controls/fault-note.tsx";
import { significant } from "../controls/numbers.ts";
import { type Units, useUnits } from "../state/preferences.ts";
import { type Outcome, type Question, useInterruptible, useNewest } from "../work/worker.ts";
import { curveOf, isQuick, type Points } from "./curve-points.ts";
import styles from "./curves.module.css";
import type { Scene } from "./scene.ts";
import { type End, otherMedium, type RigState } from "./state.ts";

/** Points of a band: it is smooth. */
const SURE_POINTS = 19;

/** Angle at the anchor and movement of the loaded end over the load, with the load of the moment on both. */
export function Curves({
  state,
  scene,
  sure,
}: {
  readonly state: RigState;
  readonly scene: Scene;
  readonly sure: Certainty | null;
}) {
  const units = useUnits();
  const { rig, load, over } = state;
  const { at } = load;
  // The top of the axis moves in round steps, so that a load that is drawn up does not shake the curves.
  const top = roundAbove(1.6 * Math.max(load.newtons, 50));
  const quick = isQuick(rig);
  const { points, slow } = useCurve(rig, at, top);
  const { waiting } = slow;
  const besideIt = useMemo(
    () => (over === null ? null : { ...rig, setting: otherMedium(rig.setting, over) }),
    [rig, over],
  );
  const { points: others } = useCurve(besideIt, at, top);
  const liftoff = useMemo(() => (quick ? liftoffLoad(rig, at) : null), [rig, at, quick]);
  // Bands come from the worker once the rig stands still: a hand that draws needs the machine for itself.
  const calm = useStill(rig);
  const ask = useMemo(() => {
    if (rigInputs(calm).length === 0 || !isQuick(calm)) return null;
    const pulls: Pull[] = Array.from({ length: SURE_POINTS }, (_, i) => ({
      at,
      newtons: (top * (i + 0.25)) / (SURE_POINTS - 0.75),
    }));
    return (async (work) => ({
      loads: Float64Array.from(pulls, (pull) => (pull as { newtons: number }).newtons),
      certainties: await work.certainties(calm, pulls),
    })) satisfies Question<Bands>;
  }, [calm, at, top]);
  const banded = useNewest(ask);
  const bands = banded.answer;

  const drawn = scene.none === null ? scene.drawn : null;
  const beside = besideIt?.setting.medium ?? "air";
  const shared = { units, points, others, beside, bands, top, end: at, liftoff, waiting };
  return (
    <div className={styles.curves}>
      <FaultNote of={slow} what="the curves" />
      <FaultNote of={banded} what="the ± along the curves" />
      <OneCurve
        {...shared}
        what="angle"
        now={drawn === null ? null : { x: load.newtons, y: drawn.settled.anchor.angle, u: sure?.anchorAngle }}
      />
      <OneCurve
        {...shared}
        what="span"
        now={drawn === null ? null : { x: load.newtons, y: drawn.settled.span, u: sure?.span }}
      />
    </div>
  );
}

/** The curve of a rig: at once where that is quick, else by a worker once the rig stands still. */
function useCurve(
  rig: Rig | null,
  at: End,
  top: number,
): { readonly points: Points | null; readonly slow: Outcome<Points> } {
  const quick = rig !== null && isQuick(rig);
  const atOnce = useMemo(() => (quick ? curveOf(rig, at, top) : null), [rig, at, top, quick]);
  const ask = useMemo(
    () =>
      rig === null || quick
        ? null
        : (((work): Promise<Points> => work.curveOf(rig, at, top)) satisfies Question<Points>),
    [rig, at, top, quick],
  );
  const slow = useInterruptible(ask);
  return { points: atOnce ?? slow.answer, slow };
}

/** The load at the stated end at which the anchor's end begins to rise, N; null when none does. */
function liftoffLoad(rig: Rig, at: End): number | null {
  const found = find(rig, { unknown: { what: "pull" }, goal: { goal: "liftoff" }, pull: { at, newtons: 1 } });
  return found.kind === "found" ? found.value : null;
}

interface Bands {
  readonly loads: Float64Array;
  readonly certainties: readonly (Certainty | null)[];
}

const WORDS = {
  angle: { title: "Angle at the anchor over load", called: "angle at the anchor", field: "angle", dimension: "angle" },
  span: {
    title: "Distance to the anchor over load",
    called: "distance to the anchor",
    field: "span",
    dimension: "length",
  },
} as const;

const ENDS: Readonly<Record<End, string>> = {
  bow: "load at the bow",
  anchor: "load at the anchor",
  horizontal: "horizontal load",
};

const OneCurve = memo(function OneCurve({
  what,
  units,
  points,
  others,
  beside,
  bands,
  top,
  end,
  liftoff,
  waiting,
  now,
}: {
  readonly what: "angle" | "span";
  readonly units: Units;
  readonly points: Points | null;
  readonly others: Points | null;
  /** The medium the others lie in. */
  readonly beside: "air" | "water";
  readonly bands: Bands | null;
  readonly top: number;
  readonly end: End;
  readonly liftoff: number | null;
  readonly waiting: boolean;
  readonly now: { readonly x: number; readonly y: number; readonly u: number | undefined } | null;
}) {
  const { title, called, field, dimension } = WORDS[what];
  const unit = units.unitOf(field, dimension);
  const loadUnit = units.unitOf("load", "force");
  const shown = useMemo(() => {
    const inLoad = (value: number) => inUnit(value, loadUnit, "force");
    const inValue = (value: number) => (Number.isNaN(value) ? value : inUnit(value, unit, dimension));
    const lines: Line[] = [];
    if (points !== null) {
      const u = spreadAt(points.loads, bands, what).map(inValue);
      lines.push({ x: points.loads.map(inLoad), y: points[what].map(inValue), u, kind: "computed" });
    }
    if (others !== null)
      lines.push({
        x: others.loads.map(inLoad),
        y: others[what].map(inValue),
        kind: "other",
        name: beside === "air" ? "in air" : "afloat",
      });
    return { lines, xRange: [0, inLoad(top)] as const, yRange: rangeOf(lines, what === "angle") };
  }, [points, others, beside, bands, what, unit, loadUnit, dimension, top]);
  const axes = useMemo(
    () => ({ x: { label: ENDS[end], unit: loadUnit }, y: { label: called, unit } }),
    [end, loadUnit, called, unit],
  );
  const inLoad = (value: number) => inUnit(value, loadUnit, "force");
  const marks =
    now === null
      ? []
      : [
          {
            x: inLoad(now.x),
            y: inUnit(now.y, unit, dimension),
            u: now.u === undefined ? undefined : inUnit(now.u, unit, dimension),
            kind: "computed" as const,
          },
        ];
  return (
    <Curve
      kind="ladder"
      title={`${title}, ${unit}`}
      told={toldOf(shown.lines[0], unit, loadUnit)}
      {...(waiting ? { pending: "working out the curve…" } : {})}
      x={axes.x}
      y={axes.y}
      xRange={shown.xRange}
      yRange={shown.yRange}
      lines={shown.lines}
      marks={marks}
      at={
        liftoff === null || liftoff > top
          ? null
          : { x: inLoad(liftoff), label: what === "angle" ? "anchor end lifts" : "" }
      }
    />
  );
});

/** The ends of a curve in words. */
function toldOf(line: Line | undefined, unit: string, loadUnit: string): string {
  if (line === undefined) return "";
  const first = Array.prototype.findIndex.call(line.y, Number.isFinite);
  const last = line.x.length - 1;
  if (first < 0) return "No equilibrium at any of these loads.";
  const say = (i: number) => `${significant(line.y[i]!, 3)} ${unit} at ${significant(line.x[i]!, 3)} ${loadUnit}`;
  return Number.isFinite(line.y[last]) ? `From ${say(first)} to ${say(last)}.` : `From ${say(first)} on.`;
}

/** Uncertainty at each load, straight between those the worker gave. */
function spreadAt(loads: Float64Array, bands: Bands | null, what: "angle" | "span"): Float64Array {
  const spread = new Float64Array(loads.length).fill(Number.NaN);
  if (bands === null) return spread;
  const of = (certainty: Certainty | null | undefined) =>
    certainty?.[what === "angle" ? "anchorAngle" : "span"] ?? Number.NaN;
  let j = 0;
  loads.forEach((load, i) => {
    while (j + 2 < bands.loads.length && bands.loads[j + 1]! < load) j++;
    const [a, b] = [bands.loads[j]!, bands.loads[j + 1]!];
    const t = (load - a) / (b - a);
    const [from, to] = [of(bands.certainties[j]), of(bands.certainties[j + 1])];
    spread[i] = t <= 0 ? from : t > 1 + 1e-9 ? Number.NaN : from + t * (to - from);
  });
  return spread;
}

function rangeOf(lines: readonly Line[], fromZero: boolean): readonly [number, number] {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const { y, u } of lines) {
    for (let i = 0; i < y.length; i++) {
      const spread = u?.[i];
      const half = spread !== undefined && Number.isFinite(spread) ? spread : 0;
      if (!Number.isFinite(y[i]!)) continue;
      low = Math.min(low, y[i]! - half);
      high = Math.max(high, y[i]! + half);
    }
  }
  if (!(high >= low)) return [0, 1];
  if (fromZero) return [Math.min(0, low), Math.max(high * 1.06, low + 1)];
  const spare = 0.06 * Math.max(high - low, 1e-3 * Math.abs(high));
  return [low - spare, high + spare];
}

const STILL = 150;

/** A value once it has not changed for a moment. */
function useStill<T>(value: T): T {
  const [still, setStill] = useState(value);
  useEffect(() => {
    const timer = setTimeout(() => setStill(value), STILL);
    return () => clearTimeout(timer);
  }, [value]);
  return still;
}
