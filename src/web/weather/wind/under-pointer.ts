/**
 * The wind under the pointer. A mouse that only passes over the axis looks at a wind without keeping it; a click, a touch, a
 * drag or a key keeps it. What is looked at is no part of the place's state, and so no step of undo.
 */
import { createStore } from "../../state/store.ts";
import { useStore } from "../../state/use-store.ts";

const looked = createStore<number | null>(null);

export const lookAt = (wind: number | null): void => looked.put(wind);

/** The wind that is shown, m/s: the one looked at, or the one kept. */
export function useWindShown(kept: number): number {
  return useStore(looked) ?? kept;
}
