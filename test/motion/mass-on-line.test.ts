import { describe, expect, it } from "vitest";
import { bodyBow, generalisedAlpha, step } from "../../src/motion/index.ts";
import { frequency, inAir, lineRig, placed } from "./lines.ts";

const weightless = { ...inAir, gravity: 0 };

/** A body on one light element, pulled along x by a steady force. */
function onLine(
  stretch: Parameters<typeof lineRig>[0]["stretch"],
  given: { mass: number; force: number; from: number; damping?: number; acceleration: number },
) {
  const { state } = placed(lineRig({ length: 10, massPerLength: 1e-9, stretch: stretch! }), 1, weightless, (s) => [
    s === 0 ? 0 : given.from,
    0,
    0,
  ]);
  const bow = bodyBow({
    mass: [given.mass, Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY],
    damping: given.damping ?? 0,
    force: (_q, _r, _t, out) => {
      out.fill(0);
      out[0] = given.force;
    },
  });
  state.qAcceleration[0] = given.acceleration;
  return { state, bow };
}

describe("a mass on a line", () => {
  it("keeps its energy to 1e-3 over 1000 periods, and exactly where the method loses nothing", () => {
    const k = 1000;
    const mass = 100;
    const lost = (radius: number): number => {
      const { state, bow } = onLine(
        { kind: "linear", stiffness: 1e4 },
        { mass, force: 1000, from: 11.5, acceleration: -5 },
      );
      const energy = (): number => 0.5 * mass * state.qRate[0]! ** 2 + 0.5 * k * (state.q[0]! - 11) ** 2;
      const first = energy();
      const h = (2 * Math.PI * Math.sqrt(mass / k)) / 100;
      for (let n = 0; n < 100_000; n++) step(state, bow, generalisedAlpha(radius), h);
      return Math.abs(energy() / first - 1);
    };
    expect(lost(0.95)).toBeLessThan(1e-3);
    // Trapezoidal: rounding alone, 1e5 steps of it.
    expect(lost(1)).toBeLessThan(1e-10);
  });

  it("on a stretch curve of pieces swings with the period that a quadrature of its energy gives", () => {
    const points = [
      [0.05, 400],
      [0.1, 1500],
    ] as const;
    const tension = (x: number): number => {
      const e = x / 10 - 1;
      return e <= 0 ? 0 : e <= 0.05 ? (e / 0.05) * 400 : 400 + ((e - 0.05) / 0.05) * 1100;
    };
    const mass = 50;
    const force = 500;
    const from = 11.4;
    // Energy from the turning point: ½ m v² = ∫ (T − F) dx. The other turn, on the slack side, by bisection, the period by Gauss in angle.
    const work = (x: number): number => {
      const n = 4000;
      let sum = 0;
      for (let i = 0; i < n; i++) sum += tension(from + ((i + 0.5) * (x - from)) / n) - force;
      return (-sum * (x - from)) / n;
    };
    let low = 5;
    let high = 10.6;
    for (let i = 0; i < 60; i++) {
      const m = 0.5 * (low + high);
      if (work(m) < 0) low = m;
      else high = m;
    }
    const other = 0.5 * (low + high);
    const middle = 0.5 * (from + other);
    const half = 0.5 * (from - other);
    let period = 0;
    const n = 2000;
    for (let i = 0; i < n; i++) {
      const angle = ((i + 0.5) * Math.PI) / n;
      const x = middle + half * Math.cos(angle);
      period += (2 * half * Math.sin(angle)) / Math.sqrt((2 * Math.max(work(x), 1e-12)) / mass) / (n / Math.PI);
    }
    const { state, bow } = onLine(
      { kind: "curve", points },
      { mass, force, from, acceleration: (force - tension(from)) / mass },
    );
    const found = frequency(
      () => state.q[0]! - middle,
      () => {
        step(state, bow, generalisedAlpha(1), period / 400);
        return state.time;
      },
      8000,
    );
    // The quadrature of 2000 points of an inverse square root is good to some 1e-4.
    expect(found * period).toBeCloseTo(1, 3);
  });

  it("moored with damping dies out as its closed form has it", () => {
    const k = 1000;
    const mass = 100;
    const damping = 30;
    const { state, bow } = onLine(
      { kind: "linear", stiffness: 1e4 },
      { mass, force: 2000, from: 12.5, damping, acceleration: -5 },
    );
    const decay = damping / (2 * mass);
    const omega = Math.sqrt(k / mass - decay * decay);
    const h = 0.01;
    let worst = 0;
    for (let n = 0; n < 3000; n++) {
      step(state, bow, generalisedAlpha(1), h);
      const t = state.time;
      const exact = 12 + 0.5 * Math.exp(-decay * t) * (Math.cos(omega * t) + (decay / omega) * Math.sin(omega * t));
      worst = Math.max(worst, Math.abs(state.q[0]! - exact));
    }
    // Second order: phase error (ωh)²/12 a radian over 30 s · 3.2 rad/s, of half a metre dying out.
    expect(worst).toBeLessThan(1e-3);
  });
});
