import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { catalogue } from "../../src/gear/index.ts";
import { certaintyOf, settle } from "../../src/rode/index.ts";
import { weather } from "../../src/sea/index.ts";
import {
  type Choice,
  choose,
  facts,
  notBeaten,
  type Plan,
  readPlan,
  snatch,
  stowed,
  type Weighed,
} from "../../src/sizing/index.ts";
import { read } from "./command.ts";

const boatText = read("data/boats/marsh-tern.yaml");
const files = { "../boats/marsh-tern.yaml": { text: boatText, place: "marsh-tern.yaml" } };
const plan: Plan = readPlan(read("data/plans/marsh-tern.yaml"), "plan.yaml", files);
const choice: Choice = choose(plan);
const weighed = (name: string): Weighed => {
  const one = choice.candidates.find((each) => each.name === name);
  if (one?.kind !== "weighed") throw new Error(name);
  return one;
};
const G30 = "chain 3/8 in grade 30";
const [g30, g43, g70] = ["chain 10 mm", "5/16 in grade 43", "1/4 in grade 70"].map(
  (part) => choice.candidates.findIndex(({ name }) => name.includes(part)) as number,
) as [number, number, number];

function onePlan(change: (text: string) => string = (text) => text): Plan {
  return readPlan(
    change(`format: rodebench/plan@1
setting: { medium: water, depth: 8 m, rollerHeight: 1.5 m }
load: { mean: 1.5 kN, u: 100 N }
candidates:
  - { name: heavy, price: 500, rode: [{ chain: { grade: "30", size: 10 mm, length: 45 m } }] }
  - { name: light, price: 300, rode: [{ chain: { grade: "30", size: 8 mm, length: 45 m } }] }
  - { name: dearer, price: 600, rode: [{ chain: { grade: "30", size: 8 mm, length: 45 m } }] }
`),
    "plan.yaml",
  );
}

describe("choose", () => {
  it("takes the load from the boat's own points, as weather has it", () => {
    if (plan.load.kind !== "wind") throw new Error(plan.load.kind);
    const seen = weather(plan.load.boat, plan.load.wind).measured[0]!;
    expect(choice.load.mean.value).toBeCloseTo(seen.mean.value, 9);
    expect(choice.load.mean.u).toBeCloseTo(seen.mean.u, 9);
    expect(choice.load.peak.value).toBeCloseTo(seen.peak!.value, 9);
    expect(choice.load.at).toBe("bow");
  });

  it("the stronger grade lets the chain be thinner, and loses catenary: at every wind, weight gives less", () => {
    const [heavy, middle, light] = [g30, g43, g70].map((i) => choice.candidates[i] as Weighed);
    expect(middle!.stowed.weight).toBeLessThan(heavy!.stowed.weight);
    expect(light!.stowed.weight).toBeLessThan(middle!.stowed.weight);
    expect(choice.table.map(({ wind }) => wind! / 0.514444)).toEqual(
      [10, 20, 30, 40].map((knots) => expect.closeTo(knots, 3)),
    );
    for (const { cells } of choice.table) {
      expect(cells[g43]!.weight).toBeLessThan(cells[g30]!.weight);
      expect(cells[g70]!.weight).toBeLessThan(cells[g43]!.weight);
      expect(cells[g43]!.anchorAngle).toBeGreaterThanOrEqual(cells[g30]!.anchorAngle);
      expect(cells[g70]!.anchorAngle).toBeGreaterThanOrEqual(cells[g43]!.anchorAngle);
    }
    // All three at least as strong as what they stand for (G30 3/8 in: 2650 lbf, seen in 49 CFR 393.108), to a thousandth.
    for (const i of [g30, g43, g70]) {
      const part = plan.candidates[i]!.rig.rode[0]!;
      expect(part.workingLoad! / (2650 * 4.4482216152605)).toBeGreaterThan(0.999);
    }
    expect(G30).toContain("grade 30");
  });

  it("answers each candidate as the parts of the library do", () => {
    const one = weighed("chain and rope");
    const rig = plan.candidates.find(({ name }) => name === "chain and rope")!.rig;
    const mean = settle(rig, { at: "bow", newtons: choice.load.mean.value });
    if (mean.kind !== "settled") throw new Error(mean.cause);
    expect(one.mean).toEqual(mean);
    const found = snatch(rig, { at: "bow", newtons: choice.load.mean.value }, plan.surge!);
    if (found.kind !== "snatch") throw new Error(found.kind);
    expect(one.peakFrom).toBe("surge");
    expect(one.peak.bow.tension / found.peak.bow.tension).toBeCloseTo(1, 9);
    expect(one.give!.movement).toBeCloseTo(found.give.movement, 8);
    const part = one.weakest!;
    expect(part.workingLoad).toBeCloseTo(found.loads[part.part - 1]! / rig.rode[part.part - 1]!.workingLoad!, 8);
    expect(Math.max(...one.strengths.map(({ workingLoad }) => workingLoad ?? 0))).toBe(one.workingLoad);
  });

  it("marks those that none beats: not dearer, heavier, steeper and weaker than another within the limits", () => {
    const marked = choose(onePlan());
    expect(marked.criteria).toEqual(["weight", "anchorAngle", "workingLoad", "price"]);
    expect(marked.notBeaten).toEqual([0, 1]);
    // Asked by weight alone, the two of one weight are left: of equals all stay.
    expect(choose(onePlan((text) => `${text}criteria: [weight]\n`)).notBeaten).toEqual([1, 2]);
    expect(choose(onePlan((text) => `${text}limits: { weight: 80 kg }\n`)).notBeaten).toEqual([1]);
    expect(choose(onePlan((text) => `${text}limits: { weight: 10 kg }\n`)).notBeaten).toEqual([]);
  });

  it("names every limit passed", () => {
    const answer = choose(
      onePlan(
        (text) =>
          `${text}limits: { weight: 80 kg, anchorAngle: 0 deg, workingLoad: 5 %, breakingLoad: 2 %, peak: 1 kN, span: 30 m, volume: 0.01 m3, price: 400 }\n`,
      ),
    );
    const heavy = answer.candidates[0] as Weighed;
    expect([...heavy.passed].sort()).toEqual([
      "breakingLoad",
      "peak",
      "price",
      "span",
      "volume",
      "weight",
      "workingLoad",
    ]);
    // The heavy chain still lies on the bottom at that load.
    expect(heavy.peak.anchor.angleToBottom).toBe(0);
  });

  it("says in which wind each candidate reaches its first limit: within all just below it, past one just above", () => {
    const { surge: _, surgeU: __, ...still } = plan;
    const answer = choose(still);
    expect(answer.limitWinds).toHaveLength(still.candidates.length);
    const reached = answer.limitWinds.flatMap((one, i) => (one.kind === "reached" ? [{ ...one, i }] : []));
    expect(reached.length).toBeGreaterThan(1);
    // The others pass a limit that no wind moves, such as their weight.
    expect(answer.limitWinds.some(({ kind }) => kind === "always")).toBe(true);
    for (const { wind, i } of reached) {
      const passedIn = (at: number): boolean => {
        const there = choose({
          ...still,
          winds: [],
          load: { ...plan.load, wind: { value: at, u: 0 } } as Plan["load"],
          candidates: [plan.candidates[i]!],
        }).candidates[0]!;
        return there.kind === "notWeighed" || there.passed.length > 0;
      };
      expect([passedIn(0.985 * wind), passedIn(1.015 * wind)]).toEqual([false, true]);
    }
  });

  it("holds working load limits unless told otherwise", () => {
    expect(onePlan().limits.workingLoad).toBe(1);
  });

  it("says why a candidate has no answer, and goes on", () => {
    const answer = choose(onePlan((text) => text.replace("size: 8 mm, length: 45 m", "size: 8 mm, length: 9 m")));
    expect(answer.candidates[1]).toMatchObject({ kind: "notWeighed", name: "light" });
    expect(answer.candidates[0]!.kind).toBe("weighed");
    expect(answer.notBeaten).not.toContain(1);
  });

  it("counts a snubber with its strength, its weight and the chain beside it", () => {
    const [with_, without] = [weighed("grade 43 and snubber"), choice.candidates[g43] as Weighed];
    expect(with_.ropeShare).toBeGreaterThan(0);
    expect(with_.peak.bow.tension).toBeLessThan(without.peak.bow.tension);
    // 13 m more of chain and 9 m of rope, by hand: 1.1 lb/ft and the rope's own.
    const candidate = plan.candidates.find(({ name }) => name === "grade 43 and snubber")!;
    const chain = candidate.rig.rode[0] as { massPerLength: number };
    const rope = candidate.snubber!.rope;
    expect(with_.stowed.weight - without.stowed.weight).toBeCloseTo(
      13 * chain.massPerLength + 9 * rope.massPerLength,
      9,
    );
  });

  it("carries the load's ± to angle, span and peak", () => {
    const sure = choose(onePlan((text) => text.replace(", u: 100 N", "").replace("1.5 kN", "3 kN")));
    const unsure = choose(onePlan((text) => text.replace("1.5 kN", "3 kN")));
    expect((sure.candidates[0] as Weighed).u).toEqual({ anchorAngle: 0, span: 0, peak: 0 });
    const { peak, ...rest } = unsure.candidates[0] as Weighed;
    const u = rest.u!;
    // The peak here is the mean load itself, at the bow.
    expect(u.peak).toBeCloseTo(100, 6);
    expect(u.anchorAngle).toBeGreaterThan(0);
    expect(peak.bow.tension).toBeCloseTo(3000, 6);
  });
});

describe("an input with no equilibrium on one side", () => {
  // 9.6 m of chain over a rise of 9.5 m that is known to 0.3 m: a third of a deviation higher, the rode does not reach.
  const short = onePlan((text) => text.replaceAll("length: 45 m", "length: 9.6 m").replace(", u: 100 N", ""));
  const unsure = (rise: number) => {
    const candidates = short.candidates.map((one) => ({ ...one, rig: { ...one.rig, uncertainty: { rise } } }));
    return choose({ ...short, candidates }).candidates[0] as Weighed;
  };

  it("counts as settle counts it, and half of it for half", () => {
    const one = unsure(0.3);
    const rig = { ...short.candidates[0]!.rig, uncertainty: { rise: 0.3 } };
    const settled = certaintyOf(rig, { at: "bow", newtons: 1500 })!;
    expect(one.u!.anchorAngle).toBeGreaterThan(0.05);
    expect(one.u!.anchorAngle).toBeCloseTo(settled.angleToBottom, 12);
    // The angle bends with the rise: halves of differences over a sixty-fourth of each agree to some per cent.
    expect(Math.abs(unsure(0.15).u!.anchorAngle / one.u!.anchorAngle - 0.5)).toBeLessThan(0.02);
  });
});

describe("notBeaten", () => {
  it("keeps just those that no other dominates, in any list", () => {
    const list = fc.array(
      fc.tuple(fc.integer({ min: 0, max: 4 }), fc.integer({ min: 0, max: 4 }), fc.integer({ min: 0, max: 4 })),
      {
        minLength: 1,
        maxLength: 12,
      },
    );
    fc.assert(
      fc.property(list, (scores) => {
        const kept = notBeaten(scores);
        expect(kept.length).toBeGreaterThan(0);
        for (const [i, own] of scores.entries()) {
          const dominated = scores.some(
            (other) => other.every((x, k) => x <= own[k]!) && other.some((x, k) => x < own[k]!),
          );
          expect(kept.includes(i)).toBe(!dominated);
        }
      }),
      { seed: 23, numRuns: 300 },
    );
  });
});

describe("what a rode weighs and takes up", () => {
  it("a heap of 100 m of 20 mm chain takes the yard table's 0.387 m³ (seen), and half the rule with room above (seen)", () => {
    const chain = {
      kind: "line",
      name: "",
      length: 100,
      massPerLength: 0.0219 * 400,
      density: 7850,
      stretch: { kind: "rigid" },
      material: "chain",
    } as const;
    const { weight, volume } = stowed([chain]);
    expect(weight).toBeCloseTo(876, 6);
    // The share of metal was taken from this table, rounded to two digits.
    expect(volume.value).toBeCloseTo(0.387, 2);
    const rule = (100 * 20 ** 2) / 49_000;
    expect(volume.value / rule).toBeGreaterThan(0.4);
    expect(volume.value / rule).toBeLessThan(0.6);
    expect(volume.u / volume.value).toBeCloseTo(facts.locker.chainSolid.u / facts.locker.chainSolid.value, 9);
  });

  it("adds up over parts, and grows with length", () => {
    const rode = plan.candidates[0]!.rig.rode;
    const once = stowed(rode);
    const twice = stowed([...rode, ...rode]);
    expect(twice.weight).toBeCloseTo(2 * once.weight, 9);
    expect(twice.volume.value).toBeCloseTo(2 * once.volume.value, 9);
  });

  it("a rope with a diameter and the same without come out alike", () => {
    const row = catalogue.rows.find((one) => one.name === "polyamide three-strand 12 mm")!;
    if (row.kind !== "rope") throw new Error(row.kind);
    const rope = {
      kind: "line",
      name: "",
      length: 50,
      massPerLength: row.massPerLength,
      density: row.density,
      stretch: row.stretch,
      material: "rope",
    } as const;
    // Fibre fills about seven tenths of a laid rope's round; catalogues differ by a tenth.
    expect(stowed([rope]).volume.value / stowed([{ ...rope, diameter: row.diameter }]).volume.value).toBeCloseTo(1, 0);
  });
});
