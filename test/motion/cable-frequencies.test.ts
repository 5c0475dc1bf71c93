import { describe, expect, it } from "vitest";
import { generalisedAlpha, ledBow, type RodeState, step } from "../../src/motion/index.ts";
import { frequency, g, inAir, lineRig, placed, weightless } from "./lines.ts";

/** An elastic catenary between supports at one height, l apart, mass 1 kg/m, pulled by H. */
const SPAN = 100;
/** Sag of a fortieth: Irvine's parabola is then good to some 0.3 %. */
const H = (g * SPAN) / (8 / 40);

function cable(EA: number, elements: number): { state: RodeState; x: (n: number) => number } {
  const at = (s: number, L: number): [number, number, number] => {
    const V = g * (s - L / 2);
    const end = (g * L) / 2;
    const x = (H * s) / EA + (H / g) * (Math.asinh(V / H) + Math.asinh(end / H));
    const z = (g / EA) * ((s * s) / 2 - (L * s) / 2) + (H / g) * (Math.hypot(1, V / H) - Math.hypot(1, end / H));
    return [x, 0, z];
  };
  let [low, high] = [0.9 * SPAN, 1.1 * SPAN];
  for (let k = 0; k < 60; k++) {
    const L = (low + high) / 2;
    if (at(L, L)[0] < SPAN) low = L;
    else high = L;
  }
  const rig = lineRig({ length: low, stretch: { kind: "linear", stiffness: EA } });
  const { state } = placed(rig, elements, inAir, (s) => at(s, low));
  return { state, x: (n) => state.place[3 * n]! };
}

/** W = ω l √(m/H) of the mode whose shape is given, found by letting it swing. */
function measured(EA: number, shape: (x: number) => number, elements: number, h: number, seconds: number): number {
  const { state, x } = cable(EA, elements);
  const last = state.nodes - 1;
  const still = state.place.slice();
  const parts = Float64Array.from({ length: state.nodes }, (_, n) => shape(x(n) / SPAN));
  for (let n = 1; n < last; n++) state.speed[3 * n + 2] = 1e-3 * parts[n]!;
  const end = still.slice(3 * last);
  const held = ledBow((_, p, v, a) => {
    p.set(end);
    v.fill(0);
    a.fill(0);
  });
  const method = generalisedAlpha(0.9);
  const f = frequency(
    () => {
      let sum = 0;
      for (let n = 1; n < last; n++) sum += parts[n]! * (state.place[3 * n + 2]! - still[3 * n + 2]!);
      return sum;
    },
    () => {
      step(state, held, method, h);
      return state.time;
    },
    Math.round(seconds / h),
  );
  return 2 * Math.PI * f * SPAN * Math.sqrt(1 / H);
}

/** Irvine: λ² = (mgl/H)² l EA/(H Lₑ), Lₑ ≈ l (1 + 8 (d/l)²). */
const stiffnessFor = (lambda2: number): number => (lambda2 * H * (1 + 8 / 1600)) / ((g * SPAN) / H) ** 2;

describe("a sagging cable (Irvine & Caughey 1974, Proc. R. Soc. A 341, 299; W computed from their equation)", () => {
  it.each([
    [10, 1.345125],
    [4 * Math.PI ** 2, 2],
    [100, 2.597185],
  ])("with λ² = %f swings in its first symmetric mode at W = %f π, to 0.5 % at 100 elements", (lambda2, W) => {
    const w = W * Math.PI;
    // At λ² = 4π² the shape is 1 − cos, tan(W/2) being none.
    const shape = (u: number): number => 1 - Math.tan(w / 2) * Math.sin(w * u) - Math.cos(w * u);
    expect(Math.abs(measured(stiffnessFor(lambda2), shape, 100, 0.01, 40) / w - 1)).toBeLessThan(0.005);
  });

  it("swings in its first antisymmetric mode at W = 2 π whatever its stretch, to 0.5 %", () => {
    const found = measured(stiffnessFor(10), (u) => Math.sin(2 * Math.PI * u), 100, 0.01, 30);
    expect(Math.abs(found / (2 * Math.PI) - 1)).toBeLessThan(0.005);
  });
});

describe("the order of the method", () => {
  /** Relative error of a taut string's first frequency, (1/2l) √(T/m). */
  const stringError = (elements: number, h: number): number => {
    const [l, T, m, EA] = [20, 5000, 0.5, 1e6];
    const { state, elements: e } = placed(
      lineRig({ length: l, massPerLength: m, stretch: { kind: "linear", stiffness: EA } }),
      elements,
      { ...inAir, gravity: 0 },
      (s) => [s * (1 + T / EA), 1e-4 * Math.sin((Math.PI * s) / l), 0],
    );
    weightless(e);
    const stretched = l * (1 + T / EA);
    const held = ledBow((_, p, v, a) => {
      p.set([stretched, 0, 0]);
      v.fill(0);
      a.fill(0);
    });
    const exact = (1 / (2 * stretched)) * Math.sqrt(T / ((m * l) / stretched));
    const found = frequency(
      () => state.place[3 * (e.count / 2) + 1]!,
      () => {
        step(state, held, generalisedAlpha(1), h);
        return state.time;
      },
      Math.round(6 / h),
    );
    return Math.abs(found / exact - 1);
  };

  it("is two in the length of elements: half as long, a quarter of the error", () => {
    const [coarse, middle, fine] = [4, 8, 16].map((elements) => stringError(elements, 5e-4));
    for (const ratio of [coarse! / middle!, middle! / fine!]) expect(Math.abs(ratio - 4)).toBeLessThan(0.4);
  });

  it("is two in the step: half as long, a quarter of the error", () => {
    // 32 elements leave 4e-4; the step's own error is what is left over that.
    const space = stringError(32, 2.5e-4);
    const [coarse, fine] = [0.02, 0.01].map((h) => stringError(32, h) - space);
    expect(Math.abs(coarse! / fine! - 4)).toBeLessThan(0.4);
  });
});
