import { useEffect, useRef } from "react";
import type { Store } from "../../state/store.ts";
import { daysStore, type LogPlace } from "../state.ts";
import { type Window, within } from "./window.ts";

/** The place as it is now, when it still is this log's. */
export const current = (at: LogPlace): LogPlace => {
  const now = daysStore.get().at;
  return now.page === "log" && now.id === at.id ? now : at;
};

const STILL = 200;

/** The window follows the address, and the address the window once it stands still. */
export function useAddressed(view: Store<Window>, whole: Window, at: LogPlace): void {
  const latest = useRef(at);
  latest.current = at;
  useEffect(() => {
    let timer: ReturnType<typeof setTimeout> | undefined;
    const leave = view.subscribe(() => {
      clearTimeout(timer);
      timer = setTimeout(() => {
        const { from, to } = view.get();
        const all = from <= whole.from && to >= whole.to;
        const now = current(latest.current);
        const next = all ? { from: null, to: null } : { from: Number(from.toFixed(3)), to: Number(to.toFixed(3)) };
        if (now.from !== next.from || now.to !== next.to)
          daysStore.put({ ...daysStore.get(), at: { ...now, ...next } });
      }, STILL);
    });
    return () => {
      clearTimeout(timer);
      leave();
    };
  }, [view, whole]);
  const { from, to } = at;
  useEffect(() => {
    const now = view.get();
    const asked = from === null || to === null ? whole : within({ from, to }, whole);
    if (Math.abs(asked.from - now.from) > 0.002 || Math.abs(asked.to - now.to) > 0.002) view.put(asked);
  }, [from, to, view, whole]);
}
