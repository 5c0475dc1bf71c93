import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { parseQuantity } from "../../src/quantity/index.ts";
import { type Pull, readRig, type Settled, settle, settledFields } from "../../src/rode/index.ts";

interface Case {
  readonly name: string;
  readonly rig: unknown;
  readonly pull: { readonly at: "anchor" | "bow" | "horizontal"; readonly load: string };
  readonly expect: Readonly<Record<string, number>>;
}

const file = join(import.meta.dirname, "../../data/published/statics/reference.json");
const { cases } = JSON.parse(readFileSync(file, "utf8")) as { cases: Case[] };

/** Where the file's names stand in `settle --json`. */
const PLACES: Readonly<Record<string, (fields: ReturnType<typeof settledFields>) => number>> = {
  anchor_tension_N: (s) => s.anchor.tension_N,
  anchor_angle_deg: (s) => s.anchor.angle_deg,
  bow_tension_N: (s) => s.bow.tension_N,
  bow_angle_deg: (s) => s.bow.angle_deg,
  horizontal_N: (s) => s.horizontal_N,
  span_m: (s) => s.span_m,
  grounded_m: (s) => s.grounded_m,
};

function settledFrom(one: Case): Settled {
  const rig = readRig(JSON.stringify(one.rig), one.name);
  const pull: Pull = { at: one.pull.at, newtons: parseQuantity(one.pull.load, "force", "pull") };
  const answer = settle(rig, pull);
  if (answer.kind !== "settled") throw new Error(answer.cause);
  return answer;
}

/** The agreement asked of the file: 1e-8 relative; 1e-6 absolute where zero is expected. */
function agreed(expected: number): number {
  return expected === 0 ? 1e-6 : 1e-8 * Math.abs(expected);
}

describe("statics by independent integration (computed: DOP853 and shooting, data/published/statics)", () => {
  it("holds eight cases", () => expect(cases).toHaveLength(8));

  describe.each(cases)("$name", (one) => {
    const fields = settledFields(settledFrom(one));
    it.each(Object.entries(one.expect))("%s is %d", (name, expected) => {
      const found = PLACES[name]!(fields);
      expect(Math.abs(found - expected)).toBeLessThanOrEqual(agreed(expected));
    });
  });

  it.each(cases)("$name comes back the same from its span", (one) => {
    const forward = settledFrom(one);
    const back = settle(readRig(JSON.stringify(one.rig), one.name), { at: "span", metres: forward.span });
    if (back.kind !== "settled") throw new Error(back.cause);
    // A span fixes the load only as well as the rode is soft: the stiffest of these rodes gives 1e-5 m per relative 1e-8.
    expect(Math.abs(back.horizontal / forward.horizontal - 1)).toBeLessThanOrEqual(1e-8);
  });
});
