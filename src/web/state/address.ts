/**
 * The state of a place and its address are one: whoever keeps or sends the address gets the state back. A place gives a
 * codec; the address follows the state a moment after it stands still, and the state follows the address at once.
 */
import { useRouter } from "@tanstack/react-router";
import { useEffect, useState } from "react";
import { device, keptState } from "./device.ts";
import type { Store } from "./store.ts";

/** Text fields of an address, `?depth=8&load=bow+2000`. */
export type Fields = Readonly<Record<string, string>>;

export interface Codec<T> {
  /** The place's name, under which the device keeps its state. */
  readonly name: string;
  write(state: T): Fields;
  /** @returns null when the fields hold no state of this place; what is unreadable in a known field falls to the usual */
  read(fields: Fields): T | null;
}

const STILL = 250;

export const parseSearch = (text: string): Record<string, string> => Object.fromEntries(new URLSearchParams(text));

export function stringifySearch(search: Record<string, unknown>): string {
  const fields = new URLSearchParams();
  for (const [name, value] of Object.entries(search)) if (typeof value === "string") fields.set(name, value);
  const text = fields.toString();
  return text === "" ? "" : `?${text}`;
}

const same = (one: Fields, other: Fields): boolean => stringifySearch(one) === stringifySearch(other);

/** Ties a store to the address and to this device. Call it first in the component of the place, before the store is read. */
export function useAddress<T>(store: Store<T>, codec: Codec<T>): void {
  const router = useRouter();
  // While the place is first drawn, not after: nothing is shown or asked of a state that is about to be another.
  useState(() => begin(store, codec, parseSearch(router.state.location.searchStr)));
  useEffect(() => {
    const here = router.state.location.pathname;
    written.set(codec.name, parseSearch(router.state.location.searchStr));
    let timer: ReturnType<typeof setTimeout> | undefined;

    const write = () => {
      const fields = codec.write(store.get());
      if (stands(codec, fields) || router.state.location.pathname !== here) return;
      written.set(codec.name, fields);
      void router.navigate({ to: here, search: fields as never, replace: true, resetScroll: false });
    };
    const keep = () => {
      clearTimeout(timer);
      timer = undefined;
      // A device that keeps nothing: the state lives as long as the window.
      void device.put("states", codec.name, codec.write(store.get())).catch(() => undefined);
    };
    const changed = () => {
      clearTimeout(timer);
      timer = setTimeout(() => {
        write();
        keep();
      }, STILL);
    };
    const leaving = () => {
      if (timer !== undefined) keep();
    };

    write();
    keep();
    const leaveStore = store.subscribe(changed);
    const leaveRouter = router.subscribe("onResolved", () => {
      const { pathname, searchStr } = router.state.location;
      const fields = parseSearch(searchStr);
      if (pathname !== here || stands(codec, fields)) return;
      written.set(codec.name, fields);
      if (!take(store, codec, fields)) write();
    });
    window.addEventListener("pagehide", leaving);
    return () => {
      leaving();
      leaveStore();
      leaveRouter();
      window.removeEventListener("pagehide", leaving);
    };
  }, [router, store, codec]);
}

/** What stands, or last stood, in the address of each place that this visit has shown. */
const written = new Map<string, Fields>();

function stands<T>(codec: Codec<T>, fields: Fields): boolean {
  const last = written.get(codec.name);
  return last !== undefined && same(last, fields);
}

/** The state a place begins with: what its address says, what it had before, what the device kept, the usual. */
function begin<T>(store: Store<T>, codec: Codec<T>, fields: Fields): void {
  // A place that was left before it stood still has moved on since what its address says.
  if (stands(codec, fields) || take(store, codec, fields) || written.has(codec.name)) return;
  const kept = keptState(codec.name);
  if (typeof kept === "object" && kept !== null) take(store, codec, kept as Fields);
}

function take<T>(store: Store<T>, codec: Codec<T>, fields: Fields): boolean {
  const state = codec.read(fields);
  if (state !== null) store.put(state);
  return state !== null;
}
