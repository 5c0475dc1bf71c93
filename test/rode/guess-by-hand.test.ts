/**
 * Where a solve begins, against catenaries worked out here. A uniform chain that does not stretch, on a bottom it does not
 * rub on, is guessed to where it ends; the rest so near that Newton's steps go straight there.
 */
import { describe, expect, it } from "vitest";
import { compile } from "../../src/rode/compile.ts";
import { guessAsked, guessExcess, guessH } from "../../src/rode/guess.ts";
import type { Rig } from "../../src/rode/index.ts";
import { ASKED_EXCESS, ASKED_H } from "../../src/rode/march.ts";
import {
  STATED_ANCHOR,
  STATED_BOW,
  STATED_HORIZONTAL,
  STATED_SPAN,
  state,
  stated,
  TARGET,
} from "../../src/rode/solve-state.ts";

/** m, m, and N for a metre in water, by the standard gravity. */
const LENGTH = 40;
const RISE = 8;
const w = 2.3 * (1 - 1025 / 7850) * 9.80665;
const W = w * LENGTH;
const REACH = Math.sqrt(LENGTH ** 2 - RISE ** 2);

const chain = (bottomSlope = 0, bottomFriction = 0) =>
  compile({
    name: "chain",
    setting: {
      medium: "water",
      depth: RISE,
      rollerHeight: 0,
      waterDensity: 1025,
      bottomSlope,
      bottomFriction,
      current: 0,
    },
    rode: [
      {
        ...{ kind: "line", name: "chain", length: LENGTH, massPerLength: 2.3, density: 7850, diameter: 0.01 },
        stretch: { kind: "rigid" },
      },
    ],
    uncertainty: {},
  } as Rig);

function guessed(kind: number, target: number, slope = 0, friction = 0): { H: number; excess: number } {
  stated[TARGET] = target;
  guessAsked(chain(slope, friction), kind);
  return { H: state[ASKED_H]!, excess: state[ASKED_EXCESS]! };
}

/** What of a chain hangs over a level bottom, m: its top stands at a cosh of the way, and rises by h over a length s. */
const hanging = (H: number): number => Math.sqrt(RISE ** 2 + (2 * RISE * H) / w);

/** Where f, which rises, is nought. */
function root(f: (x: number) => number, low: number, high: number): number {
  let [a, b] = [low, high];
  for (let i = 0; i < 200; i++) {
    const half = (a + b) / 2;
    if (f(half) < 0) a = half;
    else b = half;
  }
  return (a + b) / 2;
}

describe("a chain of which a part lies still", () => {
  it.each([100, 400, 1000])("under %i N level leaves the bottom where its catenary does", (H) => {
    const { H: same, excess } = guessed(STATED_HORIZONTAL, H);
    expect(same).toBe(H);
    expect(excess / W).toBeCloseTo((w * hanging(H) - W) / W, 12);
    expect(guessExcess(chain(), H)).toBe(excess);
  });
  it.each([300, 600, 1200])("under %i N at the bow bears the weight of the rise less below", (T) => {
    const { H, excess } = guessed(STATED_BOW, T);
    expect(H / T).toBeCloseTo((T - w * RISE) / T, 12);
    expect(excess / W).toBeCloseTo((w * hanging(T - w * RISE) - W) / W, 12);
  });
  it("rubs off what the lying part bears: two turns leave of the first error what each turn leaves of it", () => {
    for (const friction of [0.3, 0.8]) {
      const of = (H: number) => H - friction * w * (LENGTH - hanging(H));
      const H = root((x) => of(x) - 500, 100, 2000);
      // H follows from what lies at the H before: an error shrinks by friction × weight × change of what hangs with H.
      const turn = (friction * RISE) / hanging(500 * (REACH / LENGTH));
      const left = Math.abs(500 * (REACH / LENGTH) - H) * turn ** 2;
      expect(Math.abs(guessed(STATED_ANCHOR, 500, 0, friction).H - H)).toBeLessThan(left);
    }
  });
  it.each([-0.15, -0.05, 0.08])("leaves a bottom that rises by %f rad along it", (slope) => {
    for (const H of [300, 700]) {
      const { excess } = guessed(STATED_HORIZONTAL, H, slope);
      const s = (excess + W) / w;
      // Along the bottom up to where it leaves, then a catenary that begins with its slope.
      const [from, to] = [Math.asinh(Math.tan(slope)), Math.asinh(Math.tan(slope) + (w * s) / H)];
      const lying = (LENGTH - s) * Math.sin(slope);
      expect(s).toBeGreaterThan(0);
      expect(s).toBeLessThan(LENGTH);
      expect(lying + (H / w) * (Math.cosh(to) - Math.cosh(from))).toBeCloseTo(RISE, 9);
    }
  });
  it("on a sloping bottom carries its own weight down it: what the bow and the anchor feel differ by that of the rise", () => {
    const slope = -0.05;
    for (const [kind, T] of [
      [STATED_BOW, 600],
      [STATED_ANCHOR, 400],
    ] as const) {
      const { H, excess } = guessed(kind, T, slope);
      const touchdown = H / Math.cos(slope);
      const lies = -excess / w;
      const told =
        kind === STATED_ANCHOR
          ? touchdown - w * lies * Math.sin(slope)
          : touchdown + w * (RISE - lies * Math.sin(slope));
      expect(told / T).toBeCloseTo(1, 2);
    }
  });
});

describe("a chain that hangs from end to end", () => {
  /** Half a span over H/w, of L² = h² + (2 H/w sinh u)²; and what stands upright at the anchor, N. */
  const hung = (H: number) => {
    const u = Math.asinh((w * REACH) / (2 * H));
    return { span: (2 * H * u) / w, upright: (w / 2) * (RISE / Math.tanh(u) - LENGTH) };
  };
  it.each([5e3, 2e4, 1e5])("under %i N level pulls the anchor up as its catenary does", (H) => {
    const { excess } = guessed(STATED_HORIZONTAL, H);
    expect(excess).toBeGreaterThan(0);
    // A parabola for the catenary: what it leaves out begins with w h u / 4, u = w L / (2 H).
    const first = (w * RISE * ((w * REACH) / (2 * H))) / 4;
    expect(Math.abs(excess - hung(H).upright)).toBeLessThan(1.1 * first);
  });
  it("on a slope tells that beyond what leads along the bottom", () => {
    const H = 2e4;
    expect(guessExcess(chain(0.05), H) / H).toBeCloseTo(hung(H).upright / H - Math.tan(0.05), 3);
  });
  it("is nearly straight where much is asked: the loads at the ends lie along the chord", () => {
    expect(guessH(chain(), STATED_BOW, 5e4)).toBeCloseTo((5e4 * REACH) / LENGTH, 6);
    expect(guessH(chain(), STATED_ANCHOR, 5e4)).toBeCloseTo((5e4 * REACH) / LENGTH, 6);
  });
  it.each([0.9995, 0.998])("at %f of its longest span has the force of its sag", (share) => {
    const H = root((x) => hung(x).span - share * REACH, 1, 1e6);
    expect(guessH(chain(), STATED_SPAN, share * REACH) / H).toBeCloseTo(1, 1);
    expect(Math.abs(guessH(chain(), STATED_SPAN, share * REACH) / H - 1)).toBeLessThan(0.04);
  });
});

describe("what leaves no place to begin", () => {
  it("begins at a fifth of a load at the bow that the hanging part alone would take", () => {
    for (const T of [0.5, 0.9, 1.2])
      expect(guessH(chain(), STATED_BOW, T * w * RISE)).toBeCloseTo(0.2 * T * w * RISE, 9);
  });
  it("begins at a thousandth of the hanging weight where the ends stand nearly above each other, never at none", () => {
    expect(guessH(chain(), STATED_SPAN, 0.01)).toBeCloseTo((w * RISE) / 1000, 9);
    expect(guessH(chain(), STATED_SPAN, REACH * 1.01)).toBeGreaterThan(0);
    expect(Number.isFinite(guessH(chain(), STATED_SPAN, REACH * 1.01))).toBe(true);
  });
  it("begins with half its weight on the anchor's side where a rope no longer than its rise hangs", () => {
    const short = chain();
    expect(guessExcess({ ...short, rise: LENGTH }, 10)).toBeGreaterThanOrEqual(-W / 2);
  });
});
