import { describe, expect, it } from "vitest";
import { pullOf } from "../../src/web/deck/begin.ts";
import { helping, openPulls } from "../../src/web/deck/help.ts";
import { atTheAnchor, deploymentOfPull } from "../../src/web/deck/loads.ts";
import type { DeckPull } from "../../src/web/deck/pull.ts";
import { beginRecords, endRecords, markIdOf, typedLogRecords } from "../../src/web/deck/pull-records.ts";
import { usualSetup } from "../../src/web/deck/setup-state.ts";
import { exampleState } from "../../src/web/rig/state.ts";

const NOW = Date.UTC(2026, 5, 2, 8, 0, 0);
const owner = pullOf({ ...usualSetup, anchor: "Plough A" }, exampleState.rig, NOW);

/** What another device sees of the book once the pull has begun. */
function seen(result: unknown = null) {
  const records: Record<string, Record<string, unknown>[]> = { pull: [], rig: [], rigVersion: [], anchor: [] };
  for (const { kind, id, set } of beginRecords(owner))
    records[kind]?.push({ id, hidden: false, ...(kind === "pull" ? { result } : {}), ...set });
  return { records } as unknown as Parameters<typeof openPulls>[0];
}

describe("a second device on one pull", () => {
  it("finds the pull that another device runs, until it has a result or half a day has passed", () => {
    const [open] = openPulls(seen(), new Set(), NOW + 60_000);
    expect(open).toMatchObject({ id: owner.ids.pull, anchor: "Plough A", deployed: owner.deployed });
    expect(openPulls(seen(), new Set([owner.ids.pull]), NOW)).toEqual([]);
    expect(openPulls(seen({ kind: "heldTo", load_N: 900 }), new Set(), NOW)).toEqual([]);
    expect(openPulls(seen(), new Set(), NOW + 13 * 3_600_000)).toEqual([]);
  });

  it("carries loads as the first does, and adds a log and marks of its own and nothing else", () => {
    const [open] = openPulls(seen(), new Set(), NOW);
    const helper = helping(open!, 20, NOW);
    expect(atTheAnchor(deploymentOfPull(helper), 1500, 20)).toEqual(atTheAnchor(deploymentOfPull(owner), 1500, 20));
    const events: DeckPull["events"] = [
      { kind: "load", newtons: 300, n: 0, at: NOW },
      { kind: "moved", n: 1, at: NOW + 1 },
    ];
    const ended: DeckPull = { ...helper, events, ended: { kind: "none", load: null, at: NOW + 2 } };
    const records = [...typedLogRecords(ended), ...endRecords(ended, markIdOf(ended))];
    expect(records.map(({ kind, makes }) => [kind, makes])).toEqual([
      ["log", true],
      ["mark", true],
    ]);
    expect(records[0]!.set).toMatchObject({ pull: owner.ids.pull });
    expect(records[0]!.id).not.toBe(owner.ids.log);
    expect(records[1]!.set).toMatchObject({ log: ended.ids.log, kind: "note" });
  });
});
