/** What the place Days shows: which part of the book, and what of it is open. */
import { createStore } from "../state/store.ts";
import type { Formed, Kept } from "./kinds.ts";

export const shelves = ["days", "sites", "anchors", "rigs", "boats", "series", "logs"] as const;
export type Shelf = (typeof shelves)[number];

/** What the list is narrowed to; ids, null: all. */
export interface Narrow {
  readonly find: string;
  readonly site: string | null;
  readonly anchor: string | null;
  readonly series: string | null;
  /** True: also what was put aside. */
  readonly aside: boolean;
}

export interface LogPlace {
  readonly page: "log";
  readonly id: string;
  /** The window, s as the log counts; null: all of it. */
  readonly from: number | null;
  readonly to: number | null;
  /** Names of the channels shown; null: the usual ones. */
  readonly channels: readonly string[] | null;
  readonly mark: string | null;
  /** True: the height fits what is in view. */
  readonly fit: boolean;
}

export type At =
  | { readonly page: "book" }
  | { readonly page: "record"; readonly kind: Kept; readonly id: string }
  /** id null: a new record; `about`: what it belongs to, as `field:id`. */
  | { readonly page: "form"; readonly kind: Formed; readonly id: string | null; readonly about: string | null }
  | LogPlace
  | { readonly page: "bring in"; readonly sent: string | null; readonly pull: string | null }
  | { readonly page: "books" }
  | { readonly page: "devices" };

export interface DaysState {
  readonly shelf: Shelf;
  readonly narrow: Narrow;
  readonly at: At;
}

export const usualDays: DaysState = {
  shelf: "days",
  narrow: { find: "", site: null, anchor: null, series: null, aside: false },
  at: { page: "book" },
};

export const daysStore = createStore<DaysState>(usualDays);

/** Goes somewhere; the focus follows for those who cannot see the page. */
export function go(at: At): void {
  daysStore.put({ ...daysStore.get(), at });
  window.scrollTo({ top: 0 });
  requestAnimationFrame(() => document.getElementById("days-heading")?.focus());
}

export const wholeLog = (id: string): LogPlace => ({
  page: "log",
  id,
  from: null,
  to: null,
  channels: null,
  mark: null,
  fit: false,
});

export function narrowed(change: Partial<Narrow>): void {
  const state = daysStore.get();
  daysStore.put({ ...state, narrow: { ...state.narrow, ...change } });
}
