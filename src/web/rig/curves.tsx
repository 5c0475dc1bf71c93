import { memo, useEffect, useMemo, useState } from "react";
import { inUnit } from "../../quantity/index.ts";
import { type Certainty, find, glancer, type Pull, type Rig } from "../../rode/index.ts";
import { Curve, type Line } from "../show/curve.tsx";
import { roundAbove } from "../show/ticks.ts";
import { type Units, useUnits } from "../state/preferences.ts";
import { inWorker, useNewest } from "../work/worker.ts";
import styles from "./curves.module.css";
import { type End, otherMedium, type RigState } from "./desk.ts";
import type { Scene } from "./scene.ts";

const POINTS = 72;
/** Every so manieth point of a curve gets its uncertainty: bands are smooth. */
const SURE_EVERY = 4;

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
  const loads = useMemo(() => Float64Array.from({ length: POINTS }, (_, i) => (top * (i + 1)) / POINTS), [top]);
  const points = useMemo(() => pointsOf(rig, at, loads), [rig, at, loads]);
  const others = useMemo(
    () => (over === null ? null : pointsOf({ ...rig, setting: otherMedium(rig.setting, over) }, at, loads)),
    [rig, at, loads, over],
  );
  const liftoff = useMemo(() => liftoffLoad(rig, at), [rig, at]);
  // Bands come from the worker once the rig stands still: a hand that draws needs the machine for itself.
  const calm = useStill(rig);
  const ask = useMemo(() => {
    if ((calm.uncertainty.massPerLength ?? 0) === 0 && (calm.uncertainty.rise ?? 0) === 0) return null;
    const some = loads.filter((_, i) => i % SURE_EVERY === 0 || i === loads.length - 1);
    const pulls: Pull[] = Array.from(some, (newtons) => ({ at, newtons }));
    return async () => ({ rig: calm, loads: some, certainties: await inWorker().certainties(calm, pulls) });
  }, [calm, at, loads]);
  const bands = useNewest(ask);

  const drawn = scene.none === null ? scene.drawn : null;
  const shared = { units, loads, points, others, bands, top, end: at, liftoff };
  return (
    <div className={styles.curves}>
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

interface Points {
  readonly angle: Float64Array;
  readonly span: Float64Array;
}

function pointsOf(rig: Rig, at: End, loads: Float64Array): Points {
  const glance = glancer(rig);
  const angle = new Float64Array(loads.length);
  const span = new Float64Array(loads.length);
  loads.forEach((newtons, i) => {
    const seen = glance({ at, newtons });
    angle[i] = seen?.anchorAngle ?? Number.NaN;
    span[i] = seen?.span ?? Number.NaN;
  });
  return { angle, span };
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
  angle: { title: "Angle at the anchor over load", field: "angle", dimension: "angle" },
  span: { title: "Distance to the anchor over load", field: "span", dimension: "length" },
} as const;

const ENDS: Readonly<Record<End, string>> = {
  bow: "load at the bow",
  anchor: "load at the anchor",
  horizontal: "horizontal load",
};

const OneCurve = memo(function OneCurve({
  what,
  units,
  loads,
  points,
  others,
  bands,
  top,
  end,
  liftoff,
  now,
}: {
  readonly what: "angle" | "span";
  readonly units: Units;
  readonly loads: Float64Array;
  readonly points: Points;
  readonly others: Points | null;
  readonly bands: Bands | null;
  readonly top: number;
  readonly end: End;
  readonly liftoff: number | null;
  readonly now: { readonly x: number; readonly y: number; readonly u: number | undefined } | null;
}) {
  const { title, field, dimension } = WORDS[what];
  const unit = units.unitOf(field, dimension);
  const loadUnit = units.unitOf("load", "force");
  const shown = useMemo(() => {
    const inLoad = (value: number) => inUnit(value, loadUnit, "force");
    const inValue = (value: number) => (Number.isNaN(value) ? value : inUnit(value, unit, dimension));
    const x = Float64Array.from(loads, inLoad);
    const y = points[what].map(inValue);
    const lines: Line[] = [{ x, y, u: spreadAt(loads, bands, what).map(inValue), kind: "computed" }];
    if (others !== null) lines.push({ x, y: others[what].map(inValue), kind: "other" });
    return { lines, xRange: [0, inLoad(top)] as const, yRange: rangeOf(lines, what === "angle") };
  }, [loads, points, others, bands, what, unit, loadUnit, dimension, top]);
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
      title={`${title}, ${unit}`}
      told={`From ${Math.round(shown.lines[0]!.y[0] ?? 0)} to ${Math.round(shown.lines[0]!.y[loads.length - 1] ?? 0)} ${unit} between the smallest load and ${Math.round(inLoad(top))} ${loadUnit}.`}
      xLabel={`${ENDS[end]}, ${loadUnit}`}
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
