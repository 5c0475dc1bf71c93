/** What each instrument of the pull under way has read and how it stands, for all who show it. */
import { createStore } from "../../state/store.ts";
import type { LiveReading } from "./reading.ts";

/** How an instrument stands. */
export type LiveState = "waiting" | "reading" | "silent" | "lost" | "closed";

/** One instrument as it is shown. */
export interface LiveStand {
  readonly state: LiveState;
  /** Why it is lost, in one line. */
  readonly why: string;
  readonly rows: readonly LiveReading[];
}

/** Of which pull, and by the instrument's name. */
export interface LiveShown {
  readonly pull: string;
  readonly of: Readonly<Record<string, LiveStand>>;
}

export const liveStore = createStore<LiveShown>({ pull: "", of: {} });

/** Changes what is shown of one instrument of a pull. */
export function showLive(pull: string, name: string, change: Partial<LiveStand>): void {
  const shown = liveStore.get();
  const of = shown.pull === pull ? shown.of : {};
  const before: LiveStand = of[name] ?? { state: "waiting", why: "", rows: [] };
  liveStore.put({ pull, of: { ...of, [name]: { ...before, ...change } } });
}

/** Readings of all instruments of a pull, by their time. */
export function liveRows({ of, pull }: LiveShown, asked: string): readonly LiveReading[] {
  if (pull !== asked) return [];
  const all = Object.values(of).map(({ rows }) => rows);
  if (all.length === 1) return all[0]!;
  return all.flat().sort((a, b) => a.at - b.at);
}
