/**
 * The closed forms of one piece (values and derivatives) against Gauss–Legendre integration of the equations themselves,
 * of the integrands only: nothing of the closed forms is used here.
 */
import { describe, expect, it } from "vitest";
import {
  ASK_C,
  ASK_CLIMB,
  ASK_H,
  ASK_K,
  ASK_V,
  ASK_W,
  advance,
  climbOfPiece,
  DX,
  DZ,
  piece,
  REACH,
  T_1,
  T_2,
  X_H,
  X_V,
  Z_V,
} from "../../src/rode/piece.ts";

/** Nodes and weights of Gauss–Legendre quadrature on (−1, 1), by Newton on the Legendre polynomial. */
function gauss(n: number): [node: number, weight: number][] {
  return Array.from({ length: n }, (_, i) => {
    let x = Math.cos((Math.PI * (i + 0.75)) / (n + 0.5));
    let slope = 1;
    for (let turn = 0; turn < 8; turn++) {
      let [before, here] = [1, x];
      for (let k = 2; k <= n; k++) [before, here] = [here, ((2 * k - 1) * x * here - (k - 1) * before) / k];
      slope = (n * (x * here - before)) / (x * x - 1);
      x -= here / slope;
    }
    return [x, 2 / ((1 - x * x) * slope * slope)];
  });
}
const NODES = gauss(20);

interface Piece {
  readonly H: number;
  readonly V: number;
  readonly w: number;
  readonly l: number;
  readonly c: number;
  readonly k: number;
}

/**
 * Cuts of [0, l] that the integrands are smooth between: V(s) = 0 is where they turn within a length of H/|w|, so the
 * pieces double in length from H/(2|w|) on, to either side of it. Lengths from there, at which V is exact.
 */
function panels({ H, V, w, l }: Piece): [from: number, to: number][] {
  const Vend = V + w * l;
  const cuts = [V, Vend];
  const low = Math.min(V, Vend);
  const high = Math.max(V, Vend);
  if (low < 0 && high > 0) cuts.push(0);
  for (let step = H / 2; step > 0 && step < Math.max(high, -low); step *= 1.5)
    for (const v of [step, -step]) if (v > low && v < high) cuts.push(v);
  cuts.sort((a, b) => a - b);
  return cuts.slice(1).map((to, i) => [cuts[i]!, to]);
}

/** Sums from small to large, with what each addition loses kept. */
class Sum {
  value = 0;
  #lost = 0;
  add(more: number): void {
    const next = this.value + more;
    this.#lost += Math.abs(this.value) >= Math.abs(more) ? this.value - next + more : more - next + this.value;
    this.value = next;
  }
  get all(): number {
    return this.value + this.#lost;
  }
}

/** ∫ of dx/ds, dz/ds and of their derivatives by H and V, and of the sizes of dz/ds and ∂/∂V (dx/ds), over the piece. */
function integrated(of: Piece) {
  const { H, V, w, l, c, k } = of;
  const sums = { x: new Sum(), z: new Sum(), xH: new Sum(), xV: new Sum(), zV: new Sum(), zSize: 0, xVSize: 0 };
  const at = (v: number, ds: number): void => {
    const T = Math.hypot(H, v);
    // d(s)/dH etc. of (1 + c)·H/T + k·H and (1 + c)·V/T + k·V.
    sums.x.add(ds * H * ((1 + c) / T + k));
    sums.z.add(ds * v * ((1 + c) / T + k));
    sums.xH.add(ds * ((1 + c) * (v / T) * (v / T) * (1 / T) + k));
    sums.xV.add(-ds * (1 + c) * (H / T) * (v / T) * (1 / T));
    sums.zV.add(ds * ((1 + c) * (H / T) * (H / T) * (1 / T) + k));
    sums.zSize += Math.abs(ds * v * ((1 + c) / T + k));
    sums.xVSize += Math.abs(ds * (1 + c) * (H / T) * (v / T) * (1 / T));
  };
  const Vend = V + w * l;
  if (Math.abs(Vend - V) < 1e-3 * Math.hypot(H, V)) {
    // Nearly constant tension: along s, since V over so short a way loses its digits.
    for (const [node, weight] of NODES) {
      const s = 0.5 * l * (1 + node);
      at(V + w * s, 0.5 * l * weight);
    }
  } else {
    for (const [from, to] of panels(of))
      for (const [node, weight] of NODES)
        at(0.5 * (from + to) + 0.5 * (to - from) * node, (0.5 * (to - from) * weight) / Math.abs(w));
  }
  return {
    x: sums.x.all,
    z: sums.z.all,
    xH: sums.xH.all,
    xV: sums.xV.all,
    zV: sums.zV.all,
    zSize: sums.zSize,
    xVSize: sums.xVSize,
  };
}

/** What the closed forms are promised to. */
const RELATIVE = 1e-12;
/**
 * ∂x/∂H alone is formed as a difference, ∫ds/T − ∫H²/T³ ds: where the piece lies nearly level both are x/H and it is
 * known to some roundings of that. It steers Newton and is in no answer but a stiffness, where κ l outweighs it.
 */
const ROUNDINGS = 8 * Number.EPSILON;

function compare(of: Piece): void {
  const { H, V, w, l, c, k } = of;
  const expected = integrated(of);
  advance(H, V, w, l, c, k);
  const said = JSON.stringify(of);
  const near = (what: string, found: number, value: number, size: number, roundings = 0): void => {
    expect(Math.abs(found - value), `${what} of ${said}: ${found} against ${value}`).toBeLessThanOrEqual(
      RELATIVE * size + roundings,
    );
  };
  near("x", piece[DX]!, expected.x, expected.x);
  // z and ∂x/∂V are sums of either sign where the piece dips: relative to what is summed.
  near("z", piece[DZ]!, expected.z, expected.zSize);
  near("∂x/∂H", piece[X_H]!, expected.xH, expected.xH, (ROUNDINGS * expected.x) / H);
  near("∂x/∂V", piece[X_V]!, expected.xV, expected.xVSize);
  near("∂z/∂V", piece[Z_V]!, expected.zV, expected.zV);
  near("T below", piece[T_1]!, Math.hypot(H, V), Math.hypot(H, V));
  near("T above", piece[T_2]!, Math.hypot(H, V + w * l), Math.hypot(H, V + w * l));
}

describe("the closed forms of a piece agree with integration to 1e-12", () => {
  const lengths = [1, 40, 10_000];
  // From weightless in air's sense to anchor chain, and what floats; N/m.
  const weights = [0, 1e-9, 1e-3, 0.3, 20, 300, -1e-6, -2];
  // Slack to taut, as horizontal force over the weight of ten metres of it, and a few newtons at least.
  const forces = [1e-3, 1, 50, 3e3, 1e6];
  // Where the lower end lies: dipping, level, rising.
  const heights = [-3, -1, -1e-4, 0, 1e-4, 0.5, 3];
  const stretches: [name: string, c: number, k: number][] = [
    ["without stretch", 0, 0],
    ["with linear stretch", 0, 1e-5],
    ["in a band of a stretch curve", 0.05, 3e-6],
    ["in a band that stiffens", 0.14, 4e-7],
  ];
  describe.each(stretches)("%s", (_, c, k) => {
    it.each(lengths)("%d m long, slack to taut, of any weight and either sign of V", (l) => {
      for (const w of weights)
        for (const H of forces)
          for (const height of heights) {
            compare({ H, V: height * H, w, l, c, k });
            // V of opposite signs at the ends, the low point in the middle and off it.
            compare({ H, V: -0.5 * w * l, w, l, c, k });
            compare({ H, V: -0.9 * w * l, w, l, c, k });
          }
    });
  });

  it("as the weight goes to nothing the piece becomes a straight line, without a seam", () => {
    const straight = Math.hypot(100, 40);
    for (let w = 1; w > 1e-300; w *= 1e-4) {
      compare({ H: 100, V: 40, w, l: 10, c: 0, k: 1e-4 });
      advance(100, 40, w, 10, 0, 0);
      // First order in w l/T.
      expect(Math.abs(piece[DX]! / ((10 * 100) / straight) - 1)).toBeLessThan((w * 10) / straight);
    }
  });

  it("as the horizontal force goes to nothing the piece hangs straight, without a seam", () => {
    for (let H = 1; H > 1e-120; H *= 1e-3) {
      // Rising throughout, and down and up again about a low point that becomes a fold.
      advance(H, 5, 20, 10, 0, 1e-4);
      // ½ H²/V of T is all that is not upright.
      expect(Math.abs(piece[DZ]! - (10 + 1e-4 * (50 + 1000)))).toBeLessThan(10 * H * H + 1e-14);
      advance(H, -80, 20, 10, 0, 0);
      // ∫V/T = (T₂ − T₁)/w exactly: 6 m up less 4 m down.
      expect(Math.abs(piece[DZ]! - (Math.hypot(H, 120) - Math.hypot(H, 80)) / 20)).toBeLessThan(1e-14);
      // x = (H/w)(asinh(120/H) + asinh(80/H)), in which nothing cancels.
      const x = (H / 20) * (Math.asinh(120 / H) + Math.asinh(80 / H));
      expect(Math.abs(piece[DX]! / x - 1)).toBeLessThan(RELATIVE);
    }
    advance(0, -80, 20, 10, 0, 0);
    expect(piece[DX]).toBe(0);
    expect(piece[DZ]).toBeCloseTo(2, 14);
    advance(0, 0, 0, 10, 0, 0);
    expect([...piece.slice(0, 5)]).toEqual([0, 0, 0, 0, 0]);
  });

  it("near lift-off, H small beside the weight, down to a millionth of it", () => {
    for (const H of [1e-4, 1e-2, 1]) {
      for (const V of [0, 1e-9, -1e-9, 1e-3 * H, 100, -700]) {
        compare({ H, V, w: 20, l: 50, c: 0, k: 0 });
        compare({ H, V, w: 20, l: 50, c: 0.02, k: 1e-6 });
      }
    }
  });
});

describe("the length that climbs a height", () => {
  it("climbs it by integration to 1e-12, for what rises and what first dips", () => {
    let looked = 0;
    for (const w of [1e-9, 1e-3, 2, 20, 300])
      for (const H of [1e-2, 1, 50, 3e3, 1e6])
        for (const V of [3 * H, 0.1 * H, 0, -0.1 * H, -2 * H])
          for (const [c, k] of [
            [0, 0],
            [0, 1e-5],
            [0.05, 3e-6],
          ] as const)
            for (const climb of [1e-3, 1, 30]) {
              piece[ASK_H] = H;
              piece[ASK_V] = V;
              piece[ASK_W] = w;
              piece[ASK_C] = c;
              piece[ASK_K] = k;
              piece[ASK_CLIMB] = climb;
              piece[T_1] = Math.hypot(H, V);
              climbOfPiece();
              const l = piece[REACH]!;
              // Beyond every rode: a nearly weightless line that starts downward comes up again only light-years on.
              if (l > 1e6) continue;
              looked++;
              const { z, zSize } = integrated({ H, V, w, l, c, k });
              expect(Math.abs(z - climb), JSON.stringify({ H, V, w, c, k, climb, l, z })).toBeLessThanOrEqual(
                RELATIVE * zSize,
              );
            }
    expect(looked).toBeGreaterThan(800);
  });

  it("is no length where the rode never comes so high", () => {
    piece[ASK_H] = 10;
    piece[ASK_V] = -5;
    piece[ASK_W] = 0;
    piece[ASK_C] = 0;
    piece[ASK_K] = 0;
    piece[ASK_CLIMB] = 1;
    piece[T_1] = Math.hypot(10, 5);
    climbOfPiece();
    expect(piece[REACH]).toBeNaN();
  });
});
