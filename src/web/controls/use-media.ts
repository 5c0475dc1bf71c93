import { useSyncExternalStore } from "react";

const phone = "(width <= 43.75rem)";
const wide = "(width > 68.75rem)";

function useMedia(query: string): boolean {
  return useSyncExternalStore(
    (told) => {
      const list = matchMedia(query);
      list.addEventListener("change", told);
      return () => list.removeEventListener("change", told);
    },
    () => matchMedia(query).matches,
  );
}

/** Whether the page is laid out for a phone: one column. */
export const usePhone = (): boolean => useMedia(phone);

/** Whether the page is laid out for a desk: chart and drawing beside each other. */
export const useWide = (): boolean => useMedia(wide);
