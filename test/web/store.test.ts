import { describe, expect, it } from "vitest";
import { createStore, newStroke } from "../../src/web/state/store.ts";

describe("the state of a place", () => {
  it("takes back and does again, step by step, with the label of each", () => {
    const store = createStore(1);
    store.set(2, { label: "depth" });
    store.set((before) => before + 10, { label: "load" });
    expect([store.get(), store.undoLabel(), store.redoLabel()]).toEqual([12, "load", null]);
    store.undo();
    expect([store.get(), store.undoLabel(), store.redoLabel()]).toEqual([2, "depth", "load"]);
    store.undo();
    store.undo();
    expect([store.get(), store.undoLabel()]).toEqual([1, null]);
    store.redo();
    store.redo();
    store.redo();
    expect([store.get(), store.redoLabel()]).toEqual([12, null]);
  });

  it("takes a whole stroke back at once, and no more than it", () => {
    const store = createStore(0);
    const [one, other] = [newStroke(), newStroke()];
    for (const value of [1, 2, 3]) store.set(value, { label: "drag", stroke: one });
    for (const value of [4, 5]) store.set(value, { label: "drag", stroke: other });
    store.undo();
    expect(store.get()).toBe(3);
    store.undo();
    expect(store.get()).toBe(0);
    store.set(9, { stroke: one });
    expect(store.redoLabel()).toBeNull();
  });

  it("begins a new step when a stroke goes on after it was taken back", () => {
    const store = createStore(0);
    const stroke = newStroke();
    store.set(1, { stroke });
    store.undo();
    store.set(2, { stroke });
    expect(store.undoLabel()).not.toBeNull();
    store.undo();
    expect(store.get()).toBe(0);
  });

  it("makes no step of what the address brings, nor of a value that is the same", () => {
    const store = createStore("a");
    let told = 0;
    const leave = store.subscribe(() => {
      told += 1;
    });
    store.put("b");
    store.set("b");
    expect([store.undoLabel(), told]).toEqual([null, 1]);
    leave();
    store.set("c");
    expect(told).toBe(1);
  });
});
