/** Where the bench is: the place in the path of the address and the place's state behind it, one step of the browser's history each. */
import { createStore } from "./store.ts";

export interface Location {
  readonly path: string;
  /** "" or what stands behind the path, "?" first. */
  readonly search: string;
}

const read = (): Location => ({ path: window.location.pathname, search: window.location.search });

/** The address as it stands, by whichever way it came. */
export const location = createStore<Location>({ path: "/", search: "" });

/** The path a hand comes near: what it leads to may be fetched meanwhile. */
export const nearing = createStore<string | null>(null);

/** True while the last step was the browser's own, back or on. */
let ownStep = false;
export const cameByHistory = (): boolean => ownStep;

let following = false;

/** Reads the address, and follows the browser's own buttons from then on. */
export function followHistory(): void {
  if (!following)
    window.addEventListener("popstate", () => {
      ownStep = true;
      location.put(read());
    });
  following = true;
  location.put(read());
}

/** Goes to an address of the bench: a step of history, or in the place of the one that is. */
export function goTo(path: string, search = "", replace = false): void {
  ownStep = false;
  const address = `${path}${search}`;
  if (replace) window.history.replaceState(null, "", address);
  else window.history.pushState(null, "", address);
  location.put({ path, search });
}

export const goBack = (): void => window.history.back();
