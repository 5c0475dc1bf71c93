import type { ComponentProps } from "react";
import { goTo, location, nearing } from "../state/location.ts";
import { useStore } from "../state/use-store.ts";

/** A link to a place of the bench: opened without asking the server, fetched as soon as a hand comes near. */
export function PlaceLink({
  to,
  search = "",
  onClick,
  ...rest
}: Omit<ComponentProps<"a">, "href" | "onPointerEnter" | "onFocus"> & {
  readonly to: string;
  /** State the place is opened with, "?" first. */
  readonly search?: string;
}) {
  const { path } = useStore(location);
  const near = (): void => nearing.put(to);
  return (
    <a
      {...rest}
      href={`${to}${search}`}
      aria-current={path === to ? "page" : undefined}
      onPointerEnter={near}
      onFocus={near}
      onClick={(event) => {
        onClick?.(event);
        const { metaKey, ctrlKey, shiftKey, altKey, button, defaultPrevented } = event;
        if (defaultPrevented || button !== 0 || metaKey || ctrlKey || shiftKey || altKey) return;
        event.preventDefault();
        goTo(to, search);
      }}
    />
  );
}
