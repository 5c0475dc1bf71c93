import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { partLoads, readRig, settleTraced } from "../../src/rode/index.ts";
import { hardestInUse } from "../../src/sizing/strength-in-use.ts";
import { rodebench } from "../support/command-line.ts";

const rig = readRig(readFileSync("data/demo/marsh-tern-nylon.yaml", "utf8"), "rig");
const traced = settleTraced(rig, { at: "bow", newtons: 6000 });
if (!("settled" in traced)) throw new Error(traced.cause);
const loads = partLoads(traced);

describe("strength in use", () => {
  it("of rope is its breaking load wet and by its ends, of chain its breaking load alone", () => {
    const found = hardestInUse(rig, loads, "spliced", null)!;
    // Polyamide loses 15 % wet (UFC 4-159-03, table 6-8), a splice leaves 90 % (data/sizing/facts.yaml, seen).
    const byHand = rig.rode.map((part, i) =>
      part.breakingLoad === undefined
        ? 0
        : loads[i]! / (part.breakingLoad * (part.kind === "line" && part.material === "rope" ? 0.85 * 0.9 : 1)),
    );
    expect(found.share).toBeCloseTo(Math.max(...byHand), 12);
    expect(found.part).toBe(byHand.indexOf(Math.max(...byHand)) + 1);
  });

  it("of a knotted rope is less by what the knot takes", () => {
    const [spliced, knotted] = (["spliced", "knotted"] as const).map(
      (ends) => hardestInUse(rig, loads, ends, { line: 0, share: 0 })!,
    );
    // 90 % and 60 % left (data/sizing/facts.yaml).
    expect(knotted!.share / spliced!.share).toBeCloseTo(0.9 / 0.6, 12);
  });

  it("is that of the snubber's leg where a snubber hangs", () => {
    expect(hardestInUse(rig, loads, "spliced", { line: 1, share: 0.9 })).toEqual({ part: 2, share: 0.9 });
  });

  it("is nothing where nothing states a breaking load", () => {
    const bare = { ...rig, rode: rig.rode.map(({ breakingLoad: _, ...part }) => part as (typeof rig.rode)[number]) };
    expect(hardestInUse(bare, loads, "spliced", null)).toBeNull();
  });
});

describe("a plan that holds strength in use", () => {
  const plan = (limits: string): string => `
format: rodebench/plan@1
setting: { medium: water, depth: 7 m, rollerHeight: 1.35 m }
load: { mean: 3 kN, peak: 6 kN, at: bow }
loads: [3 kN]
limits: ${limits}
candidates:
  - name: rope
    rode:
      - chain: { grade: "30", size: 10 mm, length: 8 m }
      - rope: { fibre: polyamide, lay: three-strand, diameter: 16 mm, length: 40 m }
`;
  const passed = async (limits: string): Promise<string[]> => {
    const said = await rodebench(["choose", "plan.yaml", "--json"], { "plan.yaml": plan(limits) });
    return (JSON.parse(said.out) as { candidates: { passed: string[] }[] }).candidates[0]!.passed;
  };

  it("puts one measure in the place of working load limits, which of rope are a twelfth", async () => {
    expect(await passed("{}")).toEqual(["workingLoad"]);
    expect(await passed("{ strength: 25 % }")).toEqual([]);
    expect(await passed("{ strength: 5 % }")).toEqual(["strength"]);
    expect(await passed("{ strength: 25 %, workingLoad: 100 % }")).toEqual(["workingLoad"]);
  });
});
