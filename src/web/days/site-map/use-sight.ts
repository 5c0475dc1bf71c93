import { type PointerEvent, type RefObject, useEffect, useRef, useState } from "react";
import type { MapSight } from "../../../figure/index.ts";

const NEAREST = 0.02;
const FARTHEST = 60_000;

/** Metres a pixel, kept between a boat's length and an ocean across the map. */
export const clearMetre = (metre: number): number => Math.min(FARTHEST, Math.max(NEAREST, metre));

/** What is seen of the map, moved by hand: nearer and farther by buttons, wheel and pinch, along by drag. */
export function useSight(ref: RefObject<SVGSVGElement | null>, width: number, height: number, all: MapSight) {
  const [own, setOwn] = useState<MapSight | null>(null);
  const sight = own ?? all;

  const nearer = (times: number, px = width / 2, py = height / 2): void => {
    const metre = clearMetre(sight.metre / times);
    // What lies under the pointer stays there.
    const keep = sight.metre - metre;
    setOwn({
      metre,
      east: sight.east + (px - width / 2) * keep,
      north: sight.north - (py - height / 2) * keep,
    });
  };
  const wheel = useRef(nearer);
  wheel.current = nearer;
  useEffect(() => {
    const element = ref.current;
    if (element === null) return;
    const turn = (event: WheelEvent) => {
      // The page scrolls as everywhere; with ctrl, or by a pinch on a pad, the map comes nearer.
      if (!event.ctrlKey) return;
      event.preventDefault();
      const box = element.getBoundingClientRect();
      wheel.current(Math.exp(-event.deltaY / 200), event.clientX - box.left, event.clientY - box.top);
    };
    element.addEventListener("wheel", turn, { passive: false });
    return () => element.removeEventListener("wheel", turn);
  }, [ref]);

  const fingers = useRef(new Map<number, { x: number; y: number }>());
  const grip = useRef<{ from: MapSight; x: number; y: number; spread: number } | null>(null);
  const take = (): void => {
    const { x, y, spread } = spanOf([...fingers.current.values()]);
    grip.current = fingers.current.size === 0 ? null : { from: sight, x, y, spread };
  };
  const at = (event: PointerEvent<SVGSVGElement>) => {
    const box = event.currentTarget.getBoundingClientRect();
    return { x: event.clientX - box.left, y: event.clientY - box.top };
  };
  const down = (event: PointerEvent<SVGSVGElement>) => {
    if (event.button !== 0 || (event.target as Element).closest("[data-site]") !== null) return;
    event.currentTarget.setPointerCapture(event.pointerId);
    fingers.current.set(event.pointerId, at(event));
    take();
  };
  const move = (event: PointerEvent<SVGSVGElement>) => {
    if (!fingers.current.has(event.pointerId) || grip.current === null) return;
    fingers.current.set(event.pointerId, at(event));
    const { from, ...began } = grip.current;
    const { x, y, spread } = spanOf([...fingers.current.values()]);
    const metre = fingers.current.size < 2 ? from.metre : clearMetre((from.metre * began.spread) / spread);
    // What lay between the fingers stays between them.
    setOwn({
      metre,
      east: from.east + (began.x - width / 2) * from.metre - (x - width / 2) * metre,
      north: from.north - (began.y - height / 2) * from.metre + (y - height / 2) * metre,
    });
  };
  const up = (event: PointerEvent<SVGSVGElement>) => {
    if (fingers.current.delete(event.pointerId)) take();
  };

  return {
    sight,
    moved: own !== null,
    nearer,
    showAll: () => setOwn(null),
    gestures: { onPointerDown: down, onPointerMove: move, onPointerUp: up, onPointerCancel: up },
  };
}

/** The middle of some fingers, and how far the first two are apart, px. */
function spanOf(fingers: readonly { readonly x: number; readonly y: number }[]) {
  const [one, other] = fingers;
  const mean = (of: (finger: { readonly x: number; readonly y: number }) => number) =>
    fingers.reduce((sum, finger) => sum + of(finger), 0) / Math.max(1, fingers.length);
  const spread = one && other ? Math.hypot(one.x - other.x, one.y - other.y) : 0;
  return { x: mean((finger) => finger.x), y: mean((finger) => finger.y), spread: Math.max(12, spread) };
}
