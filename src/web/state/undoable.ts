import { useEffect, useSyncExternalStore } from "react";
import { createStore, type Undoable } from "./store.ts";

/** What ctrl-z works on now: the place that is shown. */
export const atHand = createStore<Undoable | null>(null);

/** Hands this place's undo to the header and to ctrl-z, as long as the place is shown. */
export function useUndoable(undoable: Undoable): void {
  useEffect(() => {
    atHand.put(undoable);
    return () => {
      if (atHand.get() === undoable) atHand.put(null);
    };
  }, [undoable]);
}

/** The labels of what can be taken back and done again, null for nothing. */
export function useUndoLabels(): { readonly undo: string | null; readonly redo: string | null } {
  const undoable = useSyncExternalStore(atHand.subscribe, atHand.get);
  const subscribe = undoable?.subscribe ?? silent;
  const undo = useSyncExternalStore(subscribe, () => undoable?.undoLabel() ?? null);
  const redo = useSyncExternalStore(subscribe, () => undoable?.redoLabel() ?? null);
  return { undo, redo };
}

const silent = () => () => undefined;

/** Ctrl-z and ctrl-shift-z (or ctrl-y) anywhere but in a text field that is being typed in, which has its own. */
export function followUndoKeys(): void {
  document.addEventListener("keydown", (event) => {
    if (!(event.ctrlKey || event.metaKey) || event.altKey || typing(event.target)) return;
    const key = event.key.toLowerCase();
    const redo = key === "y" || (key === "z" && event.shiftKey);
    if (!redo && key !== "z") return;
    event.preventDefault();
    if (redo) atHand.get()?.redo();
    else atHand.get()?.undo();
  });
}

function typing(target: EventTarget | null): boolean {
  return (
    target instanceof HTMLTextAreaElement ||
    (target instanceof HTMLInputElement && !["radio", "checkbox", "range", "button"].includes(target.type))
  );
}
