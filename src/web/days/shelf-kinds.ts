import type { BookCopy } from "./book-copy.ts";
import type { Formed, Kept } from "./kinds.ts";
import type { Shelf } from "./state.ts";

/** Which kinds a shelf holds, and which of them is added from it. */
export const holds: Readonly<Record<Shelf, { kinds: readonly Kept[]; add: readonly Formed[] }>> = {
  days: { kinds: [], add: ["day", "pull"] },
  sites: { kinds: ["site", "seabed"], add: ["site", "seabed"] },
  anchors: { kinds: ["anchor"], add: ["anchor"] },
  rigs: { kinds: ["rig"], add: ["rig"] },
  boats: { kinds: ["boat"], add: ["boat"] },
  series: { kinds: ["series"], add: ["series"] },
  logs: { kinds: [], add: [] },
};

/** How much stands on each shelf; what was put aside does not count. */
export function shelfCounts(copy: BookCopy): Readonly<Record<Shelf, number>> {
  const count = (kind: Kept) => copy.records[kind].filter((record) => !record.hidden).length;
  return {
    days: Math.max(count("day"), count("pull") > 0 ? 1 : 0),
    sites: count("site"),
    anchors: count("anchor"),
    rigs: count("rig"),
    boats: count("boat"),
    series: count("series"),
    logs: copy.logs.filter((log) => !log.hidden).length,
  };
}
