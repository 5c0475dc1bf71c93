/** A rope no longer than its rise reaches by its stretch. */
import { describe, expect, it } from "vitest";
import { endForcesOf, type Rig, readRig, settle } from "../../src/rode/index.ts";

const rigOf = (line: string): Rig =>
  readRig(`format: rodebench/rig@1\nsetting: { medium: air, rise: 10 m }\nrode: [${line}]\n`, "rig.yaml");
const [LENGTH, MASS, EA] = [10, 0.12, 25_000];
const NYLON = rigOf(`line: { length: 10 m, massPerLength: ${MASS} kg/m, density: 1140 kg/m3, stiffness: ${EA} N }`);

/** dx/ds = (1 + T/EA) H/T, dz/ds = (1 + T/EA) V/T, dV/ds = w from the bow down, by the classical fourth-order rule. */
function foot(tension: number, angle: number, x: number, z: number): [x: number, z: number, V: number] {
  const H = tension * Math.cos(angle);
  const w = MASS * 9.80665;
  const steps = 2000;
  const h = LENGTH / steps;
  let V = tension * Math.sin(angle);
  for (let i = 0; i < steps; i++) {
    const slope = (v: number) => {
      const T = Math.hypot(H, v);
      return [((1 + T / EA) * H) / T, ((1 + T / EA) * v) / T] as const;
    };
    const [a, b, c] = [slope(V), slope(V - 0.5 * w * h), slope(V - w * h)];
    x -= (h / 6) * (a[0] + 4 * b[0] + c[0]);
    z -= (h / 6) * (a[1] + 4 * b[1] + c[1]);
    V -= w * h;
  }
  return [x, z, V];
}

describe("a rope as long as its rise", () => {
  it.each([
    ["bow", 900],
    ["anchor", 900],
    ["horizontal", 300],
    ["bow", 60],
  ] as const)("reaches by its stretch, under a load at the %s of %i N", (at, newtons) => {
    const settled = settle(NYLON, { at, newtons });
    if (settled.kind !== "settled") throw new Error(settled.cause);
    const [x, z, V] = foot(settled.bow.tension, settled.bow.angle, settled.span, 10);
    // Smooth over two thousand steps: the rule leaves less than rounding of the sums.
    expect(Math.hypot(x, z)).toBeLessThan(1e-9);
    expect(Math.abs(V - settled.anchor.tension * Math.sin(settled.anchor.angle))).toBeLessThan(
      1e-8 * settled.bow.tension,
    );
    expect(endForcesOf(NYLON)({ at, newtons })!.span).toBeCloseTo(settled.span, 10);
  });

  it("of 25 kN stiffness stands at about 74.9 degrees over a span of about 2.70 m under 900 N, as a straight rope would", () => {
    const settled = settle(NYLON, { at: "bow", newtons: 900 });
    if (settled.kind !== "settled") throw new Error(settled.cause);
    // Straight, with the mean tension 900 N − w·10 m/2 all along: length 10 (1 + 894.1/25000), span √(length² − 100).
    const length = 10 * (1 + (900 - 0.5 * MASS * 9.80665 * 10) / EA);
    expect(settled.span).toBeCloseTo(Math.sqrt(length ** 2 - 100), 1);
    expect((settled.bow.angle * 180) / Math.PI).toBeCloseTo(75, 0);
  });

  it("does not reach under a pull that stretches it too little, and says what would; chain is refused as too short", () => {
    const short = rigOf("line: { length: 9.9 m, massPerLength: 0.12 kg/m, density: 1140 kg/m3, stiffness: 20 kN }");
    const none = settle(short, { at: "bow", newtons: 50 });
    expect(none).toMatchObject({ kind: "noEquilibrium", cause: "shortUntilStretched", given: 50 });
    if (none.kind !== "noEquilibrium") return;
    // Hanging straight up: 9.9 m stretched by T/EA, T at the middle of its own weight, to 10 m.
    const middle = 20_000 * (10 / 9.9 - 1);
    expect(Math.abs(none.limit / (middle + 0.5 * MASS * 9.80665 * 9.9) - 1)).toBeLessThan(1e-6);
    expect(settle(short, { at: "bow", newtons: 1.01 * none.limit }).kind).toBe("settled");
    const chain = rigOf('chain: { grade: "30", size: 10 mm, length: 9 m }');
    expect(settle(chain, { at: "bow", newtons: 5000 })).toMatchObject({ cause: "shorterThanRise" });
  });
});
