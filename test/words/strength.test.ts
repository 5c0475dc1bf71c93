import { describe, expect, it } from "vitest";
import { strengthLine, unknownStrengthLine } from "../../src/words/index.ts";

const part = {
  part: 2,
  name: "Rope",
  load: 9000,
  workingLoad: 5000,
  breakingLoad: 20_000,
  past: "workingLoad",
} as const;

describe("what is said of strength", () => {
  it("names the part, its load and the limit it is past; nothing where it is past none", () => {
    expect(strengthLine(part, "metric")).toBe("part 2, Rope: 9000 N is past its working load limit of 5000 N");
    expect(strengthLine({ ...part, load: 21_000, past: "breakingLoad" }, "metric")).toMatch(
      /is past its minimum breaking load of 20.?000 N|of 20\.0 kN/,
    );
    expect(strengthLine({ ...part, past: null }, "metric")).toBeNull();
  });

  it("names the parts of which no limit is stated, and nothing where each states one", () => {
    expect(unknownStrengthLine([part, { ...part, workingLoad: null }, { ...part, breakingLoad: null }])).toBeNull();
    const bare = { ...part, workingLoad: null, breakingLoad: null, past: null };
    expect(
      unknownStrengthLine([part, { ...bare, part: 1, name: "Chain" }, { ...bare, part: 3, name: "Snubber" }]),
    ).toBe("part 1, Chain; part 3, Snubber: no strength is stated, so the answer may lie beyond what breaks");
  });
});
