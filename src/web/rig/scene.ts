/** What the drawing shows of a state: settled, with its shape; or why it does not settle, over the last that did. */
import { useMemo, useRef } from "react";
import {
  type NoEquilibrium,
  partLoads,
  type Rig,
  type RodeShape,
  riseOf,
  type Settled,
  settleTraced,
  shapeOf,
} from "../../rode/index.ts";
import { totalLength } from "./parts.ts";
import { otherMedium, pullOf, type RigState } from "./state.ts";
import type { Extent } from "./view.ts";

export interface Drawn {
  readonly rig: Rig;
  readonly settled: Settled;
  readonly shape: RodeShape;
  /** Highest tension in each part, N. */
  readonly loads: Float64Array;
}

export interface Scene {
  /** The equilibrium; with `none`, the last one this rig had. Null when it never had one. */
  readonly drawn: Drawn | null;
  readonly none: NoEquilibrium | null;
  /** The same rode in the other medium under the same load; null when not asked for, or it does not settle. */
  readonly over: Drawn | null;
}

/** Strokes a hanging piece is drawn with: smooth at any size, light enough for every frame. */
const STROKES = 40;

export function drawnOf(rig: Rig, pull: ReturnType<typeof pullOf>): Drawn | NoEquilibrium {
  const traced = settleTraced(rig, pull);
  if (!("settled" in traced)) return traced;
  return { rig, settled: traced.settled, shape: shapeOf(traced, STROKES), loads: partLoads(traced) };
}

export function useScene(state: RigState): Scene {
  const last = useRef<Drawn | null>(null);
  return useMemo(() => {
    const pull = pullOf(state);
    const now = drawnOf(state.rig, pull);
    if ("shape" in now) last.current = now;
    // The last good state of another rig says nothing of this one.
    else if (last.current?.rig.name !== state.rig.name) last.current = null;
    const over =
      state.over === null ? null : drawnOf({ ...state.rig, setting: otherMedium(state.rig.setting, state.over) }, pull);
    return {
      drawn: last.current,
      none: "shape" in now ? null : now,
      over: over !== null && "shape" in over ? over : null,
    };
  }, [state]);
}

/** What must be in view: the rode as it lies, and as far as it reaches, so that drawing the boat back changes no scale. */
export function extentOf(scene: Scene): Extent {
  const rig = scene.drawn?.rig;
  if (rig === undefined) return { from: 0, to: 1, below: 1, above: 0 };
  const rise = riseOf(rig.setting);
  const length = totalLength(rig);
  let to = length > rise ? Math.sqrt(length * length - rise * rise) : 1;
  let from = 0;
  let below = rise;
  let above = 0;
  for (const drawn of [scene.drawn, scene.over]) {
    if (drawn === null) continue;
    to = Math.max(to, drawn.settled.span);
    above = Math.max(above, riseOf(drawn.rig.setting) - rise);
    for (let i = 0; i < drawn.shape.x.length; i++) {
      from = Math.min(from, drawn.shape.x[i]!);
      below = Math.max(below, rise - drawn.shape.z[i]!);
    }
  }
  below = Math.max(below, rise - Math.tan(rig.setting.bottomSlope) * to);
  return { from, to, below, above };
}
