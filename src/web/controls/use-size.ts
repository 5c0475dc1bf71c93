import { type RefObject, useLayoutEffect, useRef, useState } from "react";

/** The size of an element in px, kept up to date; zeros before the first drawing. */
export function useSize<E extends Element>(): readonly [RefObject<E | null>, { width: number; height: number }] {
  const ref = useRef<E>(null);
  const [size, setSize] = useState({ width: 0, height: 0 });
  useLayoutEffect(() => {
    const element = ref.current;
    if (element === null) return;
    const look = () => {
      const { width, height } = element.getBoundingClientRect();
      setSize((before) => (before.width === width && before.height === height ? before : { width, height }));
    };
    look();
    const observer = new ResizeObserver(look);
    observer.observe(element);
    return () => observer.disconnect();
  }, []);
  return [ref, size];
}
