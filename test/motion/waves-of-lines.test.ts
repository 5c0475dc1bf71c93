import { describe, expect, it } from "vitest";
import { bodyBow, generalisedAlpha, ledBow, step } from "../../src/motion/index.ts";
import { frequency, g, inAir, lineRig, placed, weightless } from "./lines.ts";

const besselJ0 = (x: number): number => {
  let sum = 0;
  let term = 1;
  for (let k = 0; k < 40; k++) {
    sum += term;
    term *= -(x * x) / 4 / ((k + 1) * (k + 1));
  }
  return sum;
};

/** Frequency of a hanging chain's first mode, Hz: swung in its shape, its part in that shape watched. */
function hanging(elements: number, h: number): number {
  const EA = 1e7;
  const L = 10;
  const shape = (s: number): number => besselJ0(2.404825557695773 * Math.sqrt(Math.max(0, 1 - s / L)));
  const { state, elements: e } = placed(lineRig({ length: L }), elements, inAir, (s) => [
    1e-4 * shape(s),
    0,
    -s * (1 + (g * (L - s / 2)) / EA),
  ]);
  const half = 0.5 * e.mass[e.count - 1]!;
  // The free end: the half element that hangs there has its own mass.
  const bow = bodyBow({ mass: [half, half, half], force: (_q, _r, _t, out) => out.fill(0) });
  const method = generalisedAlpha(0.9);
  const part = (): number => {
    let sum = 0;
    for (let n = 0; n <= e.count; n++) sum += (n === e.count ? 0.5 : 1) * shape(e.along[n]!) * state.place[3 * n]!;
    return sum;
  };
  return frequency(
    part,
    () => {
      step(state, bow, method, h);
      return state.time;
    },
    Math.round(40 / h),
  );
}

describe("a hanging chain (Bernoulli 1732; Lamb, Higher Mechanics)", () => {
  // ω₁ = (j₀,₁/2) √(g/L): 0.18951084 Hz for 10 m (computed from the Bessel zero 2.40482556, A&S table 9.5).
  const exact = 0.18951084;

  it("swings at its first frequency to 0.5 % at 100 elements, and in truth to 1e-4", () => {
    expect(hanging(100, 0.02) / exact).toBeCloseTo(1, 3);
  });

  it("the error falls with more elements and a shorter step", () => {
    const coarse = Math.abs(hanging(20, 0.02) / exact - 1);
    const fine = Math.abs(hanging(80, 0.01) / exact - 1);
    // Elements lump their mass: the free end makes the error of first to second order in their length.
    expect(fine).toBeLessThan(coarse / 4);
  });
});

describe("a taut string", () => {
  it("sounds at (1/2l) √(T/m) (Mersenne)", () => {
    const l = 20;
    const T = 5000;
    const m = 0.5;
    const EA = 1e6;
    const { state, elements: e } = placed(
      lineRig({ length: l, massPerLength: m, stretch: { kind: "linear", stiffness: EA } }),
      60,
      { ...inAir, gravity: 0 },
      (s) => [s * (1 + T / EA), 1e-4 * Math.sin((Math.PI * s) / l), 0],
    );
    weightless(e);
    const end = state.place[3 * e.count]!;
    const bow = ledBow((_, p, v, a) => {
      p.set([end, 0, 0]);
      v.fill(0);
      a.fill(0);
    });
    const stretched = l * (1 + T / EA);
    const exact = (1 / (2 * stretched)) * Math.sqrt(T / ((m * l) / stretched));
    const found = frequency(
      () => state.place[3 * Math.floor(e.count / 2) + 1]!,
      () => {
        step(state, bow, generalisedAlpha(1), 0.002);
        return state.time;
      },
      6000,
    );
    expect(found / exact).toBeCloseTo(1, 3);
  });
});
