import { describe, expect, it } from "vitest";
import { TouchIntent } from "../../src/web/controls/touch-intent.ts";

describe("a press", () => {
  it("by a mouse is meant at once", () => {
    const intent = new TouchIntent();
    expect(intent.down(10, 10, "mouse")).toBe(true);
    expect(intent.move(10, 60)).toBe(true);
  });

  it("by a finger is meant after sideways motion, and stays so whichever way it goes then", () => {
    const intent = new TouchIntent();
    expect(intent.down(100, 100, "touch")).toBe(false);
    expect(intent.move(105, 102)).toBe(false);
    expect(intent.move(115, 104)).toBe(true);
    expect(intent.move(116, 180)).toBe(true);
    expect(intent.meant).toBe(true);
    expect(intent.up()).toBe(false);
    expect(intent.meant).toBe(false);
  });

  it("by a finger that scrolls is never meant, not even when it goes sideways later", () => {
    const intent = new TouchIntent();
    intent.down(100, 100, "touch");
    expect(intent.move(102, 130)).toBe(false);
    expect(intent.move(180, 130)).toBe(false);
    expect(intent.up()).toBe(false);
  });

  it("by a finger that rests is a tap, unless the browser took it for scrolling", () => {
    const intent = new TouchIntent();
    intent.down(100, 100, "touch");
    intent.move(103, 104);
    expect(intent.up()).toBe(true);
    intent.down(100, 100, "touch");
    intent.cancel();
    expect(intent.up()).toBe(false);
    expect(intent.move(300, 100)).toBe(false);
  });
});
