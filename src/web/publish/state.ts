/** What of the book goes out, and under whose name. */
import type { Private } from "../../publish/index.ts";
import { createStore } from "../state/store.ts";

export interface PublishState {
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
}

export const usualPublish: PublishState = {
  series: "",
  title: "",
  by: "",
  note: "",
  words: "",
  licence: "CC-BY-4.0",
  chosen: [],
};

export const publishStore = createStore<PublishState>(usualPublish);
