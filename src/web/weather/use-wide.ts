import { useSyncExternalStore } from "react";

const wide = (): MediaQueryList => matchMedia("(width > 68.75rem)");

/** Whether the page is laid out for a desk: chart and drawing beside each other. */
export function useWide(): boolean {
  return useSyncExternalStore(
    (told) => {
      const query = wide();
      query.addEventListener("change", told);
      return () => query.removeEventListener("change", told);
    },
    () => wide().matches,
  );
}
