/** A second device on one pull: its readings and touches go into the pull another device runs, in logs of its own. */
import { newId } from "../api/ids.ts";
import type { BookCopy } from "../days/book-copy.ts";
import type { DeckPull } from "./pull.ts";

/** A pull nobody has ended, so long after it began, ms. */
const LONGEST = 12 * 3_600_000;

/** A pull under way elsewhere, as the book tells it. */
export interface OpenPull {
  readonly id: string;
  readonly anchor: string;
  /** ms since 1970 */
  readonly begunAt: number;
  readonly rig: { readonly name: string; readonly file: string };
  readonly deployed: DeckPull["deployed"];
}

/** Pulls begun on deck that have no result yet, the newest first; of this device's own none. */
export function openPulls({ records }: Pick<BookCopy, "records">, own: ReadonlySet<string>, now: number): OpenPull[] {
  return records.pull
    .flatMap(({ id, hidden, result, startedAt, rigVersion, anchor, depth_m, paidOut_m }): OpenPull[] => {
      const begunAt = typeof startedAt === "string" ? Date.parse(startedAt) : Number.NaN;
      if (hidden || own.has(id) || result !== null || !(now - begunAt < LONGEST)) return [];
      const version = records.rigVersion.find((one) => one.id === rigVersion);
      if (typeof version?.file !== "string") return [];
      const name = records.rig.find((one) => one.id === version.rig)?.name;
      const depth = typeof depth_m === "number" ? { depth: depth_m } : {};
      const paidOut = typeof paidOut_m === "number" ? { paidOut: paidOut_m } : {};
      return [
        {
          id,
          begunAt,
          anchor: String(records.anchor.find((one) => one.id === anchor)?.name ?? ""),
          rig: { name: typeof name === "string" ? name : "rode", file: version.file },
          deployed: { ...depth, ...paidOut },
        },
      ];
    })
    .sort((a, b) => b.begunAt - a.begunAt);
}

/** This device's part in it: it begins nothing in the book and ends nothing but its own logs. */
export function helping(open: OpenPull, loadU: number, now: number = Date.now()): DeckPull {
  return {
    ids: {
      begin: newId(),
      end: newId(),
      log: newId(),
      pull: open.id,
      day: newId(),
      rig: newId(),
      rigVersion: newId(),
      anchor: newId(),
    },
    begunAt: now,
    anchor: open.anchor,
    known: { day: true, anchor: true },
    rig: open.rig,
    deployed: open.deployed,
    loadU,
    steps: [],
    code: null,
    events: [],
    helps: true,
    ended: null,
  };
}
