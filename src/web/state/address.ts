/**
 * The state of a place and its address are one: whoever keeps or sends the address gets the state back. A place gives a
 * codec; the address follows the state a moment after it rests, and the state follows the address at once. An address
 * that cannot be read changes nothing and stays as it is until something else is changed: `addressNote` tells why.
 */
import { useEffect, useState } from "react";
import { device, keptIsRead, keptState } from "./device.ts";
import type { Fields, Problem, Read } from "./fields.ts";
import { goBack, goTo, location } from "./location.ts";
import { createStore, type Store } from "./store.ts";

export interface Codec<T> {
  /** The place's name, under which the device keeps its state. */
  readonly name: string;
  write(state: T): Fields;
  read(fields: Fields): Read<T>;
  /** Which page of the place is open; opening another is a step that the browser's own button takes back. */
  pageOf?(fields: Fields): Page;
}

interface Page {
  readonly name: string;
  /** A form: left behind when it is done, and nothing to come back to. */
  readonly passing: boolean;
}

/** What a place must tell of its address: that it cannot be read, or that it would be longer than addresses are. */
export type AddressNote =
  | {
      readonly kind: "refused";
      readonly place: string;
      readonly from: "address" | "device";
      /** As it was given, so that nothing typed is lost. */
      readonly given: string;
      readonly problems: readonly Problem[];
    }
  | { readonly kind: "long"; readonly place: string };

export const addressNote = createStore<AddressNote | null>(null);

/** How long a state rests before it goes into the address, ms. */
const REST = 250;
/** Longer than any browser and the local server carry. */
export const MOST_ADDRESS = 900_000;

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
  // While the place is first drawn, not after: nothing is shown or asked of a state that is about to be another.
  const [begun] = useState(() => begin(store, codec, parseSearch(location.get().search)));
  useEffect(() => {
    if (begun !== null) addressNote.put(begun);
    return () => addressNote.put(null);
  }, [begun]);
  useEffect(() => {
    const here = location.get().path;
    written.set(codec.name, parseSearch(location.get().search));
    let timer: ReturnType<typeof setTimeout> | undefined;

    const write = () => {
      const fields = codec.write(store.get());
      if (stands(codec, fields) || location.get().path !== here) return;
      const long = stringifySearch(fields).length > MOST_ADDRESS;
      if (long || addressNote.get()?.kind === "long")
        addressNote.put(long ? { kind: "long", place: codec.name } : null);
      if (long) return;
      // An address that was refused stays behind: one step back leads to it.
      const refused = refusedHere(codec) !== null && stands(codec, refusedHere(codec)!);
      const left = written.get(codec.name);
      const turned = turn(codec, left, fields);
      written.set(codec.name, fields);
      if (turned === "passed") {
        const before = openedFrom.get(codec.name);
        if (before !== undefined && same(before, fields)) return goBack();
      }
      if (turned === "opened") openedFrom.set(codec.name, left!);
      const replace = !refused && turned !== "opened";
      goTo(here, stringifySearch(fields), replace);
    };
    const keep = () => {
      clearTimeout(timer);
      timer = undefined;
      // A device that keeps nothing: the state lives as long as the window.
      void device.put("states", codec.name, codec.write(store.get())).catch(() => undefined);
    };
    const changed = () => {
      clearTimeout(timer);
      // Another page stands in the address at once, so that each is one step back.
      // A place of one page writes nothing out while a hand draws.
      if (codec.pageOf !== undefined && turn(codec, written.get(codec.name), codec.write(store.get())) !== null)
        write();
      timer = setTimeout(() => {
        write();
        keep();
      }, REST);
    };
    const leaving = () => {
      if (timer !== undefined) keep();
    };

    // What was refused is not written over before something is changed.
    if (refusedHere(codec) === null) {
      write();
      keep();
    }
    const leaveStore = store.subscribe(changed);
    const leaveLocation = location.subscribe(() => {
      const { path, search } = location.get();
      const fields = parseSearch(search);
      if (path !== here || stands(codec, fields)) return;
      written.set(codec.name, fields);
      const taken = take(store, codec, fields, "address");
      addressNote.put(typeof taken === "object" ? taken : null);
      if (taken === "none") write();
    });
    window.addEventListener("pagehide", leaving);
    return () => {
      leaving();
      leaveStore();
      leaveLocation();
      window.removeEventListener("pagehide", leaving);
    };
  }, [store, codec]);
}

/** What stands, or last stood, in the address of each place that this visit has shown. */
const written = new Map<string, Fields>();

/** The fields a page was opened from, by place. */
const openedFrom = new Map<string, Fields>();

/** Whether another page is opened, or a form is left for one; null where the page stays. */
function turn<T>(codec: Codec<T>, from: Fields | undefined, to: Fields): "opened" | "passed" | null {
  // The bare address of a place is filled in, not left.
  if (codec.pageOf === undefined || from === undefined || Object.keys(from).length === 0) return null;
  const before = codec.pageOf(from);
  if (before.name === codec.pageOf(to).name) return null;
  return before.passing ? "passed" : "opened";
}

function stands<T>(codec: Codec<T>, fields: Fields): boolean {
  const last = written.get(codec.name);
  return last !== undefined && same(last, fields);
}

/** The fields that were refused and are still told of; null when there are none. */
function refusedHere<T>(codec: Codec<T>): Fields | null {
  const note = addressNote.get();
  return note?.kind === "refused" && note.place === codec.name ? parseSearch(note.given) : null;
}

/**
 * The state a place begins with: what its address says, what it has by now, what the device kept, the usual.
 * @returns what could not be read on the way, else null
 */
function begin<T>(store: Store<T>, codec: Codec<T>, fields: Fields): AddressNote | null {
  // A place that was left before it rested has moved on since what its address says.
  if (stands(codec, fields)) return null;
  restore(store, codec);
  const ofDevice = untold.get(codec.name) ?? null;
  untold.delete(codec.name);
  const taken = take(store, codec, fields, "address");
  if (taken === "read") return null;
  return typeof taken === "object" ? taken : ofDevice;
}

/** The places whose stores have what this device kept of them. */
const restored = new Set<string>();
/** What of it could not be read, until the place itself is shown and tells. */
const untold = new Map<string, AddressNote>();

/** Gives a store what this device kept of it, once: what anybody puts there later stands. */
function restore<T>(store: Store<T>, codec: Codec<T>): void {
  if (restored.has(codec.name) || !keptIsRead()) return;
  restored.add(codec.name);
  const kept = keptState(codec.name);
  if (typeof kept !== "object" || kept === null) return;
  const taken = take(store, codec, kept as Fields, "device");
  if (typeof taken === "object") untold.set(codec.name, taken);
}

/**
 * A store that other places take from and put into, also before its own place was shown: whoever comes first finds what the
 * device kept, and what is put there is not written over by it.
 */
export function keptStore<T>(initial: T, codec: Codec<T>): Store<T> {
  const store = createStore(initial);
  const begun = (): Store<T> => {
    restore(store, codec);
    return store;
  };
  return {
    ...store,
    get: () => begun().get(),
    set: (next, change) => begun().set(next, change),
    put: (next) => begun().put(next),
  };
}

function take<T>(
  store: Store<T>,
  codec: Codec<T>,
  fields: Fields,
  from: "address" | "device",
): "none" | "read" | AddressNote {
  const read = codec.read(fields);
  if (read.kind === "read") store.put(read.state);
  if (read.kind !== "refused") return read.kind;
  return { kind: "refused", place: codec.name, from, given: stringifySearch(fields), problems: read.problems };
}
