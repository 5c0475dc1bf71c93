import { useSyncExternalStore } from "react";
import { preferences } from "../../state/preferences.ts";
import { useStore } from "../../state/use-store.ts";

/** A word that changes when the colours of the page do: what is drawn on a canvas is drawn anew then. */
export function useTheme(): string {
  const { theme } = useStore(preferences);
  const dark = useSyncExternalStore(subscribe, () => matchMedia("(prefers-color-scheme: dark)").matches);
  return theme === "auto" ? (dark ? "auto dark" : "auto light") : theme;
}

function subscribe(listener: () => void): () => void {
  const query = matchMedia("(prefers-color-scheme: dark)");
  query.addEventListener("change", listener);
  return () => query.removeEventListener("change", listener);
}
