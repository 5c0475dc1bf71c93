import { useRef } from "react";
import { riseOf } from "../../rode/index.ts";
import { Handle } from "../controls/handle.tsx";
import { formatQuantity } from "../controls/numbers.ts";
import { preferences, useHint, useUnits } from "../state/preferences.ts";
import { useStore } from "../state/use-store.ts";
import {
  depthOf,
  drawnTo,
  loadRange,
  nearestOn,
  paidOutLength,
  placeOf,
  slideRange,
  slidTo,
  withDepth,
  withLoad,
  withPaidOut,
} from "./grips.ts";
import { sliding, totalLength } from "./parts.ts";
import type { Drawn } from "./scene.ts";
import type { RigState } from "./state.ts";
import { rigStore } from "./store.ts";
import { type View, xMetres, xPx, yPx } from "./view.ts";

const HINTS = ["draw back", "depth", "pay out", "slide"] as const;

interface Holding {
  /** The hint that is shown. */
  readonly hinted: (typeof HINTS)[number] | null;
  readonly state: RigState;
  readonly drawn: Drawn;
  readonly view: View;
  readonly onGrab: () => void;
  readonly onDrop: () => void;
}

/** What can be taken hold of: the boat, the seabed, the rode at the bow, every weight that can slide. */
export function RigHandles(all: Omit<Holding, "hinted">) {
  const { hintsUsed } = useStore(preferences);
  const slides = sliding(all.state.rig.rode);
  // One hint at a time, each until it was followed once.
  const hinted = HINTS.find((name) => !hintsUsed.includes(name) && (name !== "slide" || slides.length > 0)) ?? null;
  const props = { ...all, hinted };
  return (
    <>
      <SeabedHandle {...props} />
      <PayOutHandle {...props} />
      {slides.map((part) => (
        <SlidingHandle key={part} part={part} {...props} />
      ))}
      <BoatHandle {...props} />
    </>
  );
}

/** Puts a change of the hand on the bench; one that cannot be is not made. */
function take(next: RigState | null, label: string, stroke: string): void {
  if (next !== null) rigStore.set(next, { label, stroke });
}

function useLengthText(): (value: number, field: string) => string {
  const { system, unitOf } = useUnits();
  return (value, field) => formatQuantity(value, "length", { system, unit: unitOf(field, "length"), digits: 4 });
}

function BoatHandle({ state, drawn, view, hinted, onGrab, onDrop }: Holding) {
  const hint = useHint("draw back");
  const length = useLengthText();
  const { system, unitOf } = useUnits();
  const { settled } = drawn;
  const [least, most] = loadRange(state.rig);
  const air = state.rig.setting.medium === "air";
  const load = formatQuantity(state.load.newtons, "force", { system, unit: unitOf("load", "force"), digits: 3 });
  const end = state.load.at === "horizontal" ? "horizontal force" : `load at the ${state.load.at}`;
  const start = useRef({ span: 0 });
  return (
    <Handle
      x={xPx(view, settled.span)}
      y={yPx(view, 0)}
      axis="across"
      label={air ? "Upper end: draw it away from the anchor" : "Boat: draw it back"}
      now={Math.round(state.load.newtons)}
      least={Math.round(least)}
      most={Math.round(most)}
      valueText={`${end} ${load}, ${length(settled.span, "span")} from the anchor`}
      hint={hinted === "draw back" ? (air ? "draw it away" : "draw the boat back") : null}
      hintSide="above"
      onGrab={() => {
        start.current = { span: settled.span };
        onGrab();
      }}
      onMove={({ dx }, stroke) => {
        hint.used();
        take(drawnTo(state, start.current.span + dx / view.scale), "load", stroke);
      }}
      onDrop={onDrop}
      onStep={(steps, stroke) => {
        hint.used();
        take(withLoad(state, state.load.newtons * 1.05 ** steps), "load", stroke);
      }}
    />
  );
}

function SeabedHandle({ state, drawn, view, hinted, onGrab, onDrop }: Holding) {
  const hint = useHint("depth");
  const length = useLengthText();
  const start = useRef(0);
  const depth = depthOf(state.rig);
  const air = state.rig.setting.medium === "air";
  const x = view.width - 30;
  const { setting } = drawn.rig;
  const bed = yPx(view, riseOf(setting) - Math.tan(setting.bottomSlope) * xMetres(view, x));
  return (
    <Handle
      x={x}
      y={Math.min(view.height - 14, bed)}
      axis="down"
      label={air ? "Ground: lower or raise it" : "Seabed: lower or raise it"}
      now={Number(depth.toFixed(2))}
      least={0.1}
      most={Number(totalLength(state.rig).toFixed(2))}
      valueText={`${air ? "upper end" : "depth"} ${length(depth, "depth")}`}
      hint={hinted === "depth" ? (air ? "lower the ground" : "lower the seabed") : null}
      hintSide="left"
      onGrab={() => {
        start.current = depth;
        onGrab();
      }}
      onMove={({ dy }, stroke) => {
        hint.used();
        take(withDepth(state, start.current + dy / view.scale), air ? "rise" : "depth", stroke);
      }}
      onDrop={onDrop}
      // Up is up: the seabed rises, and there is less water.
      onStep={(steps, stroke) => {
        hint.used();
        take(withDepth(state, depth - 0.1 * steps), air ? "rise" : "depth", stroke);
      }}
    />
  );
}

function PayOutHandle({ state, drawn, view, hinted, onGrab, onDrop }: Holding) {
  const hint = useHint("pay out");
  const length = useLengthText();
  const start = useRef(0);
  const now = paidOutLength(state.rig);
  if (now === 0) return null;
  const x = Math.min(view.width - 26, xPx(view, drawn.settled.span) + 50);
  return (
    <Handle
      x={x}
      y={yPx(view, 0) - 16}
      axis="along"
      label="Rode: pay it out or haul it in"
      now={Number(now.toFixed(2))}
      least={0}
      most={Number((2 * totalLength(state.rig)).toFixed(2))}
      valueText={`${length(now, "length")} of the last line, ${length(totalLength(state.rig), "length")} in all`}
      hint={hinted === "pay out" ? "pay out or haul in" : null}
      hintSide="above"
      onGrab={() => {
        start.current = now;
        onGrab();
      }}
      // Drawn toward the anchor the rode runs out; aft it comes in.
      onMove={({ dx }, stroke) => {
        hint.used();
        take(withPaidOut(state, start.current - dx / view.scale), "length", stroke);
      }}
      onDrop={onDrop}
      onStep={(steps, stroke) => {
        hint.used();
        take(withPaidOut(state, now + 0.25 * steps), "length", stroke);
      }}
    />
  );
}

function SlidingHandle({ state, drawn, view, hinted, part, onGrab, onDrop }: Holding & { readonly part: number }) {
  const hint = useHint("slide");
  const length = useLengthText();
  const at = drawn.shape.points.find((point) => point.part === part);
  const name = state.rig.rode[part]?.name ?? "weight";
  const rise = riseOf(drawn.rig.setting);
  const [from, to] = slideRange(state.rig, part);
  const place = placeOf(state.rig, part);
  if (at === undefined) return null;
  return (
    <Handle
      x={xPx(view, at.x)}
      y={yPx(view, rise - at.z)}
      axis="across"
      label={`${name}: slide it along the rode`}
      now={Number(place.toFixed(2))}
      least={Number(from.toFixed(2))}
      most={Number(to.toFixed(2))}
      valueText={`${length(place, "length")} from the anchor`}
      hint={hinted === "slide" ? `slide the ${name}` : null}
      hintSide="above"
      onGrab={onGrab}
      onMove={(by, stroke) => {
        hint.used();
        const z = rise - (by.at.y - view.top) / view.scale;
        take(slidTo(state, part, nearestOn(drawn.shape, drawn.rig, xMetres(view, by.at.x), z)), "place", stroke);
      }}
      onDrop={onDrop}
      onStep={(steps, stroke) => {
        hint.used();
        take(slidTo(state, part, place + 0.25 * steps), "place", stroke);
      }}
    />
  );
}
