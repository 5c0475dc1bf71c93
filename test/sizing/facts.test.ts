import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { pack, packed } from "../../scripts/pack-sizing.ts";
import { readFacts } from "../../src/sizing/index.ts";

const text = readFileSync(new URL("../../data/sizing/facts.yaml", import.meta.url), "utf8");

describe("figures sizing rests on", () => {
  it("are packed as they stand in data/sizing/facts.yaml", () => {
    expect(readFileSync(packed, "utf8").replace(/\s/g, "")).toBe(pack().replace(/\s/g, ""));
  });

  it.each([
    ["a source that is not there", text.replace("source: heat-page", "source: hear-say"), "rope.loss.polyamide.source"],
    ["no uncertainty", text.replace("{ value: 30, u: 10,", "{ value: 30,"), "rope.film.u"],
    ["a negative figure", text.replace("{ value: 30, u: 10,", "{ value: -30, u: 10,"), "rope.film.value"],
    ["a mistyped field", text.replace("chainSolid:", "chainSolidity:"), "is chainSolid meant?"],
  ])("refuse %s in one line", (_, wrong, told) => {
    expect(() => readFacts(wrong, "facts.yaml")).toThrow(told);
    try {
      readFacts(wrong, "facts.yaml");
    } catch (error) {
      expect((error as Error).message).not.toContain("\n");
    }
  });
});
