import { type KeyboardEvent, type PointerEvent, type RefObject, useEffect, useRef } from "react";
import type { Store } from "../../state/store.ts";
import { GUTTER } from "./gutter.ts";
import { keyed, panned, type Window, within, zoomed } from "./window.ts";

/** Moves a window by drag, pinch, wheel and keys; one move a frame. */
export function useGestures(
  box: RefObject<HTMLDivElement | null>,
  view: Store<Window>,
  whole: Window,
  used: () => void,
) {
  const fingers = useRef(new Map<number, { x: number; y: number }>());
  const grip = useRef<{ window: Window; middle: number; spread: number } | null>(null);
  const frame = useRef(0);
  const next = useRef<Window | null>(null);
  const latest = useRef({ view, whole, used });
  latest.current = { view, whole, used };
  useEffect(() => () => cancelAnimationFrame(frame.current), []);

  const put = (window: Window): void => {
    next.current = window;
    cancelAnimationFrame(frame.current);
    frame.current = requestAnimationFrame(() => {
      if (next.current !== null) latest.current.view.put(next.current);
      next.current = null;
    });
  };
  const now = (): Window => next.current ?? latest.current.view.get();
  const plot = (): { left: number; width: number } => {
    const { left, width } = box.current!.getBoundingClientRect();
    return { left: left + GUTTER.left, width: Math.max(1, width - GUTTER.left - GUTTER.right) };
  };
  const take = (): void => {
    const at = [...fingers.current.values()].map(({ x }) => x);
    if (at.length === 0) {
      grip.current = null;
      return;
    }
    const middle = at.reduce((sum, x) => sum + x, 0) / at.length;
    const spread = at.length < 2 ? 0 : Math.max(12, Math.abs(at[0]! - at[1]!));
    grip.current = { window: now(), middle, spread };
  };

  // biome-ignore lint/correctness/useExhaustiveDependencies: what is left out is read anew when it is needed
  useEffect(() => {
    const element = box.current;
    if (element === null) return;
    const wheel = (event: WheelEvent) => {
      event.preventDefault();
      const { left, width } = plot();
      const { whole: all, used: done } = latest.current;
      // Lines and pages count as pixels do.
      const unit = event.deltaMode === 1 ? 16 : event.deltaMode === 2 ? 400 : 1;
      if (event.shiftKey || Math.abs(event.deltaX) > Math.abs(event.deltaY)) {
        const by = (event.deltaX === 0 ? event.deltaY : event.deltaX) * unit;
        put(panned(now(), by / width, all));
      } else {
        const share = Math.min(1, Math.max(0, (event.clientX - left) / width));
        put(zoomed(now(), Math.exp((-event.deltaY * unit) / 400), share, all));
      }
      done();
    };
    element.addEventListener("wheel", wheel, { passive: false });
    return () => element.removeEventListener("wheel", wheel);
  }, [box]);

  const down = (event: PointerEvent<HTMLDivElement>) => {
    if (event.button !== 0 || (event.target as Element).closest("[role=slider], [role=button]") !== null) return;
    event.currentTarget.setPointerCapture(event.pointerId);
    fingers.current.set(event.pointerId, { x: event.clientX, y: event.clientY });
    take();
  };
  const move = (event: PointerEvent<HTMLDivElement>) => {
    if (!fingers.current.has(event.pointerId)) return;
    fingers.current.set(event.pointerId, { x: event.clientX, y: event.clientY });
    const held = grip.current;
    if (held === null) return;
    const { left, width } = plot();
    const at = [...fingers.current.values()].map(({ x }) => x);
    const middle = at.reduce((sum, x) => sum + x, 0) / at.length;
    let window = held.window;
    if (at.length > 1 && held.spread > 0) {
      const share = Math.min(1, Math.max(0, (held.middle - left) / width));
      window = zoomed(window, Math.max(12, Math.abs(at[0]! - at[1]!)) / held.spread, share, whole);
    }
    const by = ((held.middle - middle) / width) * (window.to - window.from);
    put(within({ from: window.from + by, to: window.to + by }, whole));
    if (Math.abs(held.middle - middle) > 8 || at.length > 1) used();
  };
  const up = (event: PointerEvent<HTMLDivElement>) => {
    if (fingers.current.delete(event.pointerId)) take();
  };
  const key = (event: KeyboardEvent<HTMLDivElement>) => {
    if (event.ctrlKey || event.metaKey || event.altKey || (event.target as Element).closest("[role=slider]") !== null)
      return;
    const window = keyed(event.key, now(), whole, event.shiftKey);
    if (window === null) return;
    event.preventDefault();
    put(window);
    used();
  };
  return { onPointerDown: down, onPointerMove: move, onPointerUp: up, onPointerCancel: up, onKeyDown: key };
}
