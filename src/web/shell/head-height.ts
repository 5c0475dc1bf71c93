import { type RefObject, useEffect, useRef } from "react";

/** Tells the page how high its head stands (`--head`): with large letters it takes a second row. */
export function useHeadHeight(): RefObject<HTMLElement | null> {
  const head = useRef<HTMLElement>(null);
  useEffect(() => {
    const { current } = head;
    if (current === null) return;
    const observer = new ResizeObserver(() =>
      document.documentElement.style.setProperty("--head", `${current.offsetHeight}px`),
    );
    observer.observe(current);
    return () => observer.disconnect();
  }, []);
  return head;
}
