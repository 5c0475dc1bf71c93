/** Forms that were begun: kept by their address, the newest thirty on the device. */
import { beforeEach, expect, it, vi } from "vitest";
import { type MemoryStore, memoryStore } from "../support/memory-store.ts";

let store: MemoryStore;
let drafts: typeof import("../../src/web/days/drafts.ts");
beforeEach(async () => {
  vi.resetModules();
  store = memoryStore((name, value) => vi.stubGlobal(name, value));
  drafts = await import("../../src/web/days/drafts.ts");
});
const form = (id: string | null, about: string | null = null) => ({ page: "form", kind: "site", id, about }) as const;
const kept = async () => {
  await vi.waitFor(() => expect(store.shelves.get("states")?.has("days: forms begun")).toBe(true));
  return store.shelves.get("states")!.get("days: forms begun") as [string, object][];
};

it("are told apart by kind, record and what they belong to", () => {
  drafts.keepDraft(form(null), { name: "new" });
  drafts.keepDraft(form("1"), { name: "one" });
  drafts.keepDraft(form(null, "day:2"), { name: "of a day" });
  drafts.keepDraft({ ...form(null), kind: "anchor" }, { name: "anchor" });
  expect(drafts.draftOf(form(null))).toEqual({ name: "new" });
  expect(drafts.draftOf(form("1"))).toEqual({ name: "one" });
  expect(drafts.draftOf(form(null, "day:2"))).toEqual({ name: "of a day" });
  expect(drafts.draftOf(form("2"))).toBeUndefined();
});

it("are gone once nothing is changed in them, or they were dropped", () => {
  drafts.keepDraft(form("1"), { name: "one" });
  drafts.keepDraft(form("2"), { name: "two" });
  drafts.keepDraft(form("1"), {});
  expect(drafts.draftOf(form("1"))).toBeUndefined();
  drafts.dropDraft(form("2"));
  expect(drafts.draftOf(form("2"))).toBeUndefined();
});

it("are kept on the device, the newest thirty, and all forgotten with their book", async () => {
  for (let i = 0; i < 32; i++) drafts.keepDraft(form(String(i)), { name: String(i) });
  drafts.keepDraft(form("0"), { name: "anew" });
  await vi.waitFor(async () => expect((await kept()).at(-1)![1]).toEqual({ name: "anew" }));
  expect(await kept()).toHaveLength(30);
  expect((await kept())[0]![1]).toEqual({ name: "3" });
  vi.resetModules();
  const device = await import("../../src/web/state/device.ts");
  await device.readKept();
  const next = await import("../../src/web/days/drafts.ts");
  expect(next.draftOf(form("0"))).toEqual({ name: "anew" });
  expect(next.draftOf(form("1"))).toBeUndefined();
  await next.forgetDrafts();
  expect(next.draftOf(form("0"))).toBeUndefined();
  expect(store.shelves.get("states")!.has("days: forms begun")).toBe(false);
});
