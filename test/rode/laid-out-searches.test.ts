/**
 * Rodes with floats or in a current: the search that lays them out force by force finds what closing all unknowns at once
 * finds, with that put out of action; and with it in action the rode is walked a few times only.
 */
import { describe, expect, it, vi } from "vitest";
import type * as Close from "../../src/rode/contact/close-legs.ts";
import { contactRode, layContact, settleContact } from "../../src/rode/contact/settle-contact.ts";
import type * as Walk from "../../src/rode/contact/walk.ts";
import type { LinePart, Pull, Rig } from "../../src/rode/index.ts";
import { rng } from "../../src/statistics/index.ts";
import { imbalanceOf } from "./balance.ts";
import { plausiblePull, plausibleRig } from "./random-rigs.ts";

const counted = vi.hoisted(() => ({ closes: true, walks: 0 }));
vi.mock("../../src/rode/contact/close-legs.ts", async (original) => {
  const real = await original<typeof Close>();
  const closeLegs: typeof real.closeLegs = (...asked) =>
    counted.closes ? real.closeLegs(...asked) : { kind: "open", H: Number.NaN };
  return { ...real, closeLegs };
});
vi.mock("../../src/rode/contact/walk.ts", async (original) => {
  const real = await original<typeof Walk>();
  const walk: typeof real.walk = (...asked) => {
    counted.walks++;
    return real.walk(...asked);
  };
  return { ...real, walk };
});

describe.each([
  ["with floats", { buoyant: 0.5 }, 40],
  ["in a current", { current: 1.2 }, 6],
  ["with floats in a current", { buoyant: 0.4, current: 0.8 }, 6],
])("rodes %s", (_, wild, rigs) => {
  it("settle to the same state by either search, and refuse for the same reason", () => {
    const random = rng(41);
    let same = 0;
    for (let i = 0; i < rigs; i++) {
      const rig = plausibleRig(random, wild);
      const pull = plausiblePull(random, rig);
      counted.closes = true;
      const at = settleContact(rig, pull);
      counted.closes = false;
      const laid = settleContact(rig, pull);
      counted.closes = true;
      if (!("settled" in at) || !("settled" in laid)) {
        // Force by force a stiff rode may not close as sharply as is asked; what it is refused for is a limit of the rode.
        if (!("settled" in at) && !("settled" in laid)) expect(laid).toEqual(at);
        continue;
      }
      same++;
      const [a, b] = [at.settled, laid.settled];
      const forces = a.bow.tension + a.anchor.tension;
      for (const [one, other] of [
        [a.bow.tension, b.bow.tension],
        [a.anchor.tension, b.anchor.tension],
        [a.horizontal, b.horizontal],
      ] as const)
        expect(Math.abs(one - other) / forces).toBeLessThan(1e-6);
      expect(Math.abs(a.span / b.span - 1)).toBeLessThan(1e-7);
      expect(Math.abs(a.grounded - b.grounded)).toBeLessThan(1e-5);
    }
    expect(same).toBeGreaterThan(rigs / 3);
  });

  it("begun from one that lies near, are walked some ten times, not hundreds", () => {
    const random = rng(43);
    let [looked, walks] = [0, 0];
    for (let i = 0; i < 30; i++) {
      const rig = plausibleRig(random, wild);
      const pull = plausiblePull(random, rig);
      const scaled = (by: number): Pull =>
        pull.at === "span"
          ? { at: "span", metres: pull.metres * (1 - (by - 1) * 1e-3) }
          : { at: pull.at, newtons: pull.newtons * by };
      const contact = contactRode(rig);
      const beside = layContact(contact, scaled(1.01), undefined);
      if ("kind" in beside) continue;
      counted.walks = 0;
      const here = layContact(contact, pull, beside.near);
      if ("kind" in here) continue;
      looked++;
      // A rode that touches elsewhere than the one beside it is looked for anew.
      if (here.near.legs.length === beside.near.legs.length) walks += Math.min(counted.walks, 200);
      else walks += 12;
    }
    expect(looked).toBeGreaterThan(12);
    expect(walks / looked).toBeLessThan(40);
  });
});

describe("a rode with floats, whatever it touches", () => {
  it("is in balance piece by piece, worked out anew", () => {
    let settled = 0;
    for (let i = 0; i < 120; i++) {
      const random = rng(7000 + i);
      const rig = plausibleRig(random, { buoyant: 0.5 });
      const pull = plausiblePull(random, rig);
      const answer = settleContact(rig, pull);
      if (!("settled" in answer)) continue;
      settled++;
      const { worst, which } = imbalanceOf(rig, pull, answer);
      expect(worst, `rig ${i}: ${which}`).toBeLessThan(1e-8);
    }
    expect(settled).toBeGreaterThan(60);
  });
});

describe("a rode with a float on a bottom that rises", () => {
  it("may come down on the bottom again far beyond its own rise: it is ashore only where that leaves the water", () => {
    const chain: LinePart = {
      ...{ kind: "line", name: "chain", length: 22, massPerLength: 2, density: 7850 },
      stretch: { kind: "rigid" },
    };
    const rig: Rig = {
      name: "touching again",
      setting: {
        ...{ medium: "water", depth: 7, rollerHeight: 1, waterDensity: 1025 },
        ...{ bottomSlope: 0.08, bottomFriction: 0.3, current: 0 },
      },
      rode: [chain, { kind: "point", name: "float", mass: 1, density: 150 }, { ...chain, length: 34 }],
      uncertainty: {},
    };
    let again = 0;
    for (const newtons of [350, 450, 600, 800]) {
      const pull = { at: "horizontal", newtons } as const;
      const answer = settleContact(rig, pull);
      if (!("settled" in answer)) throw new Error(answer.cause);
      expect(imbalanceOf(rig, pull, answer).worst).toBeLessThan(1e-8);
      const touch = answer.near?.legs.find(({ stage }) => stage.kind === "touching");
      if (touch?.stage.kind !== "touching") continue;
      again++;
      expect(touch.stage.from.x).toBeGreaterThan(8);
      expect(touch.stage.from.x).toBeLessThan(7 / Math.tan(0.08));
    }
    expect(again).toBeGreaterThan(0);
  });
});
