import { type PointerEvent, type RefObject, useEffect, useRef, useState } from "react";

/** What is seen: the middle, m east and north, and how many metres a pixel is. */
export interface Sight {
  readonly east: number;
  readonly north: number;
  readonly metre: number;
}

const NEAREST = 0.02;
const FARTHEST = 60_000;

/** Metres a pixel, kept between a boat's length and an ocean across the map. */
export const clearMetre = (metre: number): number => Math.min(FARTHEST, Math.max(NEAREST, metre));

/** What is seen of the map, moved by hand: nearer and farther by buttons and wheel, along by drag. */
export function useSight(ref: RefObject<SVGSVGElement | null>, width: number, height: number, all: Sight) {
  const [own, setOwn] = useState<Sight | null>(null);
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

  const held = useRef<{ x: number; y: number; from: Sight } | null>(null);
  const down = (event: PointerEvent<SVGSVGElement>) => {
    if (event.button !== 0 || (event.target as Element).closest("[data-site]") !== null) return;
    event.currentTarget.setPointerCapture(event.pointerId);
    held.current = { x: event.clientX, y: event.clientY, from: sight };
  };
  const move = (event: PointerEvent<SVGSVGElement>) => {
    const grip = held.current;
    if (grip === null) return;
    setOwn({
      ...grip.from,
      east: grip.from.east - (event.clientX - grip.x) * grip.from.metre,
      north: grip.from.north + (event.clientY - grip.y) * grip.from.metre,
    });
  };
  const up = () => {
    held.current = null;
  };

  return {
    sight,
    moved: own !== null,
    nearer,
    showAll: () => setOwn(null),
    gestures: { onPointerDown: down, onPointerMove: move, onPointerUp: up, onPointerCancel: up },
  };
}
