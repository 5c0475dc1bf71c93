/** What of the book goes out and under whose name, and the film overlay. */
import type { Private } from "../../publish/index.ts";
import { createStore } from "../state/store.ts";
import { type FilmState, usualFilm } from "./film/state.ts";

/** What goes out: a page, a report, data. */
export interface Sent {
  /** Id of a series; empty: all pulls. */
  readonly series: string;
  /** Empty: the name of the series. */
  readonly title: string;
  readonly by: string;
  readonly note: string;
  /** The tester's own words, Markdown. */
  readonly words: string;
  readonly licence: string;
  readonly chosen: readonly Private[];
  /** Whether what was read during each pull goes into the data package too. */
  readonly rawLogs: boolean;
}

export interface PublishState {
  readonly sent: Sent;
  readonly film: FilmState;
}

export const usualPublish: PublishState = {
  sent: { series: "", title: "", by: "", note: "", words: "", licence: "CC-BY-4.0", chosen: [], rawLogs: false },
  film: usualFilm,
};

export const publishStore = createStore<PublishState>(usualPublish);
