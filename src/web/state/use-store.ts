import { useSyncExternalStore } from "react";
import type { Store } from "./store.ts";

/** The value of a store; the component is drawn again when it changes. */
export function useStore<T>(store: Store<T>): T {
  return useSyncExternalStore(store.subscribe, store.get);
}
