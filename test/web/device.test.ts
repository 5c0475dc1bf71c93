/** What is kept on the device: there once a write has ended, found by its name or how that begins, and never waited for too long. */
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { type MemoryStore, memoryStore } from "../support/memory-store.ts";

let store: MemoryStore;
let device: typeof import("../../src/web/state/device.ts")["device"];
let module: typeof import("../../src/web/state/device.ts");
beforeEach(async () => {
  vi.resetModules();
  store = memoryStore((name, value) => vi.stubGlobal(name, value));
  module = await import("../../src/web/state/device.ts");
  device = module.device;
});
afterEach(() => vi.useRealTimers());

describe("the store of a device", () => {
  it("has a shelf for states, for what was written and for readings, and keeps one that is there", async () => {
    store.shelves.set("states", new Map([["a", 1]]));
    expect(await device.get("states", "a")).toBe(1);
    expect([...store.shelves.keys()].sort()).toEqual(["outbox", "readings", "states"]);
    expect(store.opened).toEqual([{ name: "rodebench", version: 2 }]);
  });

  it("has a change when the write has ended, for good", async () => {
    await device.put("outbox", "b", { n: 2 });
    expect(store.shelves.get("outbox")!.get("b")).toEqual({ n: 2 });
    await device.put("outbox", "a", { n: 1 });
    expect(await device.all("outbox")).toEqual([{ n: 1 }, { n: 2 }]);
    await device.remove("outbox", "b");
    expect(await device.all("outbox")).toEqual([{ n: 1 }]);
    expect(await device.get("outbox", "b")).toBeUndefined();
    expect(store.durability).toEqual(["strict", "strict", "strict"]);
    expect(store.opened).toHaveLength(1);
  });

  it("finds and removes what begins with a text, in the order of names", async () => {
    for (const key of ["p1 cell 10", "p1 cell 02", "p1 gps 01", "p2 cell 01"]) await device.put("readings", key, key);
    expect(await device.from("readings", "p1 cell ")).toEqual(["p1 cell 02", "p1 cell 10"]);
    await device.removeFrom("readings", "p1 ");
    expect(await device.all("readings")).toEqual(["p2 cell 01"]);
  });

  it("says why it could not keep something", async () => {
    await device.put("states", "a", 1);
    store.fails = "abort";
    await expect(device.put("states", "a", 2)).rejects.toThrow("the device's store is full");
    store.fails = "error";
    await expect(device.put("states", "a", 2)).rejects.toThrow("the device's store failed");
    store.fails = null;
    expect(await device.get("states", "a")).toBe(1);
  });

  it("says why it is not to be had", async () => {
    store.opens = "error";
    await expect(device.get("states", "a")).rejects.toThrow("this device keeps nothing");
  });
  it("says that another window holds it", async () => {
    store.opens = "blocked";
    await expect(device.all("states")).rejects.toThrow("another window of the bench holds the device's store");
  });

  it("is let go for a newer bench, and opened again when needed", async () => {
    await device.put("states", "a", 1);
    store.changeVersion();
    expect(store.closed).toBe(1);
    expect(await device.get("states", "a")).toBe(1);
    expect(store.opened).toHaveLength(2);
  });
});

describe("what was kept when the bench was opened", () => {
  it("is read once, each state under its name", async () => {
    await device.put("states", "rig", { depth: 7 });
    await device.put("states", "deck", { cautioned: true });
    expect(module.keptIsRead()).toBe(false);
    expect(module.keptState("rig")).toBeUndefined();
    await module.readKept();
    expect(module.keptIsRead()).toBe(true);
    expect(module.keptState("rig")).toEqual({ depth: 7 });
    expect(module.keptState("deck")).toEqual({ cautioned: true });
  });

  it("is given up where the device does not answer, after less than a second", async () => {
    vi.useFakeTimers();
    store.opens = "never";
    let done = false;
    void module.readKept().then(() => {
      done = true;
    });
    await vi.advanceTimersByTimeAsync(500);
    expect(done).toBe(false);
    await vi.advanceTimersByTimeAsync(400);
    expect(done).toBe(true);
    expect(module.keptIsRead()).toBe(true);
  });

  it("is nothing where the device keeps nothing", async () => {
    store.opens = "error";
    await module.readKept();
    expect(module.keptIsRead()).toBe(true);
    expect(module.keptState("rig")).toBeUndefined();
  });
});
