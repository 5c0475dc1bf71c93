/** The line a rode is drawn with, against the catenary and the lengths of its own strokes. */
import { describe, expect, it } from "vitest";
import { GRAVITY, type LinePart, type Pull, partLoads, type Rig, settleTraced, shapeOf } from "../../src/rode/index.ts";
import { rng } from "../../src/statistics/index.ts";
import { plausiblePull, plausibleRig } from "./random-rigs.ts";

const chain: LinePart = {
  ...{ kind: "line", name: "chain", length: 30, massPerLength: 2, density: 7850, material: "chain" },
  stretch: { kind: "rigid" },
};
const rig = (rode: Rig["rode"], setting: object): Rig => ({
  name: "drawn",
  setting: { bottomSlope: 0, bottomFriction: 0, ...setting } as Rig["setting"],
  rode,
  uncertainty: {},
});
function drawn(of: Rig, pull: Pull, perPiece?: number) {
  const traced = settleTraced(of, pull);
  if (!("settled" in traced)) throw new Error(traced.cause);
  return { traced, settled: traced.settled, shape: shapeOf(traced, perPiece) };
}

describe("chain in air, part of it on the ground", () => {
  // H = 400 N, w = 2 g: a = H/w. From a level touchdown it climbs h over s = √(h² + 2 a h).
  const [H, w, rise] = [400, 2 * GRAVITY, 6];
  const a = H / w;
  const hanging = Math.sqrt(rise ** 2 + 2 * a * rise);
  const { shape, settled } = drawn(rig([chain], { medium: "air", rise }), { at: "horizontal", newtons: H }, 8);

  it("lies straight, then hangs in the catenary z = a (cosh(x/a) − 1), stroke by stroke of equal length", () => {
    expect(shape.x).toHaveLength(1 + 1 + 8);
    expect([...shape.resting]).toEqual([0, 1, 0, 0, 0, 0, 0, 0, 0, 0]);
    const lies = 30 - hanging;
    expect(shape.x[1]).toBeCloseTo(lies, 9);
    for (let n = 0; n <= 8; n++) {
      const s = (hanging * n) / 8;
      const i = 1 + n;
      expect(shape.along[i]).toBeCloseTo(lies + s, 9);
      expect(shape.x[i]).toBeCloseTo(lies + a * Math.asinh(s / a), 9);
      expect(shape.z[i]).toBeCloseTo(Math.hypot(a, s) - a, 9);
      expect(shape.tension[i]).toBeCloseTo(Math.hypot(H, w * s), 7);
      expect(shape.part[i]).toBe(0);
    }
    expect([shape.x.at(-1), shape.z.at(-1)]).toEqual([expect.closeTo(settled.span, 9), expect.closeTo(rise, 9)]);
    expect(shape.points).toEqual([]);
  });

  it("down and up a slope it lies along the slope", () => {
    for (const bottomSlope of [0.1, -0.1]) {
      const sloping = drawn(rig([chain], { medium: "air", rise, bottomSlope }), { at: "horizontal", newtons: H });
      expect(sloping.shape.resting[1]).toBe(1);
      expect(Math.atan2(sloping.shape.z[1]!, sloping.shape.x[1]!)).toBeCloseTo(bottomSlope, 9);
      expect(Math.hypot(sloping.shape.z[1]!, sloping.shape.x[1]!)).toBeCloseTo(sloping.shape.along[1]!, 9);
      // Nothing rubs: along the slope the pull of a metre's weight is w sin.
      expect(sloping.shape.tension[1]! - sloping.shape.tension[0]!).toBeCloseTo(
        w * Math.sin(bottomSlope) * sloping.shape.along[1]!,
        7,
      );
    }
  });
});

describe("a rode of three parts", () => {
  const rope: LinePart = {
    ...{ kind: "line", name: "rope", length: 14, massPerLength: 0.2, density: 1140, diameter: 0.014 },
    stretch: { kind: "linear", stiffness: 20_000 },
  };
  const kellet = { kind: "point", name: "kellet", mass: 12, density: 7850 } as const;
  const rode = [{ ...chain, length: 12 }, kellet, rope];
  const water = { medium: "water", depth: 7, rollerHeight: 1.2, waterDensity: 1025, current: 0 };

  it.each([0, 0.9, -0.9])(
    "is drawn part by part, each stroke as long as its tension stretches it, in %d m/s",
    (current) => {
      const { shape, traced, settled } = drawn(rig(rode, { ...water, current }), { at: "bow", newtons: 2500 });
      expect([...new Set(shape.part)]).toEqual([0, 2]);
      expect(shape.points.map(({ part }) => part)).toEqual([1]);
      const [point] = shape.points;
      const at = shape.along.findIndex((s) => Math.abs(s - 12) < 1e-9);
      expect([shape.x[at], shape.z[at]]).toEqual([expect.closeTo(point!.x, 9), expect.closeTo(point!.z, 9)]);
      expect(shape.along.at(-1)).toBeCloseTo(26, 9);
      expect([shape.x.at(-1), shape.z.at(-1)]).toEqual([expect.closeTo(settled.span, 8), expect.closeTo(8.2, 8)]);
      expect(shape.tension.at(-1)).toBeCloseTo(2500, 6);
      expect(shape.tension[0]).toBeCloseTo(settled.anchor.tension, 6);
      for (let i = 1; i < shape.x.length; i++) {
        const chord = Math.hypot(shape.x[i]! - shape.x[i - 1]!, shape.z[i]! - shape.z[i - 1]!);
        const unloaded = shape.along[i]! - shape.along[i - 1]!;
        const stretched = unloaded * (1 + (shape.part[i] === 2 ? shape.tension[i]! / 20_000 : 0));
        // A stroke of a twenty-fourth of a piece is straight within a thousandth; in a current the cubic within the same.
        expect(Math.abs(chord / stretched - 1), `stroke ${i}`).toBeLessThan(2e-3);
      }
      // The kellet carries the pull of the chain below it, and at most its own weight in water more.
      const loads = partLoads(traced);
      const highest = (part: number) =>
        Math.max(...shape.tension.filter((_, i) => shape.part[i] === part || shape.part[i + 1] === part));
      expect(loads[0]! / highest(0)).toBeGreaterThan(1 - 1e-9);
      expect(loads[2]).toBeCloseTo(2500, 6);
      expect(loads[1]).toBeGreaterThan(shape.tension[at]!);
      expect(loads[1]).toBeLessThan(shape.tension[at]! + 12 * GRAVITY * (1 - 1025 / 7850));
    },
  );

  it("seen from its other end is the same line", () => {
    // A winch below what it pulls: the anchor is the upper end. The rode hangs free of the ground.
    const up = drawn(rig(rode, { medium: "air", rise: 6 }), { at: "horizontal", newtons: 3000 });
    const down = drawn(rig([...rode].reverse(), { medium: "air", rise: -6 }), { at: "horizontal", newtons: 3000 });
    expect(down.settled.span).toBeCloseTo(up.settled.span, 9);
    const last = up.shape.x.length - 1;
    for (let i = 0; i <= last; i++) {
      expect(down.shape.x[i]).toBeCloseTo(up.settled.span - up.shape.x[last - i]!, 8);
      expect(down.shape.z[i]).toBeCloseTo(up.shape.z[last - i]! - 6, 8);
      expect(down.shape.along[i]).toBeCloseTo(26 - up.shape.along[last - i]!, 8);
      // On the two sides of the kellet the tensions differ by its weight.
      if (Math.abs(down.shape.along[i]! - 14) > 1e-9)
        expect(down.shape.tension[i]).toBeCloseTo(up.shape.tension[last - i]!, 6);
    }
    expect(down.shape.points).toEqual([
      {
        part: 1,
        x: expect.closeTo(up.settled.span - up.shape.points[0]!.x, 8),
        z: expect.closeTo(up.shape.points[0]!.z - 6, 8),
      },
    ]);
    expect(down.shape.part[1]).toBe(0);
    expect(down.shape.part[last]).toBe(2);
    expect([...partLoads(down.traced)].reverse()).toEqual(
      [...partLoads(up.traced)].map((load) => expect.closeTo(load, 6)),
    );
  });
});

/** Strain of a line under a load, by its law read from the definition: linear between the points of its curve. */
function strainAt({ stretch }: LinePart, load: number): number {
  if (stretch.kind === "rigid") return 0;
  if (stretch.kind === "linear") return load / stretch.stiffness;
  const points = [[0, 0] as const, ...stretch.points];
  let i = 1;
  while (i < points.length - 1 && load > points[i]![1]) i++;
  const [[s0, l0], [s1, l1]] = [points[i - 1]!, points[i]!];
  return s0 + ((load - l0) * (s1 - s0)) / (l1 - l0);
}

describe.each([
  ["heavier than its water", {}],
  ["with floats and floating line", { buoyant: 0.5 }],
  ["in a current", { current: 1.2 }],
  ["with floats in a current", { buoyant: 0.3, current: 0.8 }],
])("a rode %s", (_, wild) => {
  it("is drawn from anchor to bow without a gap, as long as its loads stretch it, no part loaded above what is said", () => {
    const random = rng(29);
    let looked = 0;
    for (let k = 0; k < 40; k++) {
      const of = plausibleRig(random, wild);
      const pull = plausiblePull(random, of);
      const traced = settleTraced(of, pull);
      if (!("settled" in traced)) continue;
      looked++;
      const { settled } = traced;
      const { x, z, along, tension, part, resting, points } = shapeOf(traced, 40);
      const loads = partLoads(traced);
      const rise = of.setting.medium === "water" ? of.setting.depth + of.setting.rollerHeight : of.setting.rise;
      const last = x.length - 1;
      expect([x[0], z[0], along[0]]).toEqual([0, 0, 0]);
      expect(x[last]! / settled.span).toBeCloseTo(1, 6);
      expect(z[last]! / rise).toBeCloseTo(1, 6);
      expect(Math.abs(tension[0]! - settled.anchor.tension)).toBeLessThan(1e-6 * (1 + settled.anchor.tension));
      if (of.rode.at(-1)!.kind === "line") expect(tension[last]! / settled.bow.tension).toBeCloseTo(1, 6);
      const grounded = along.reduce((sum, s, i) => sum + (resting[i] === 1 ? s - along[i - 1]! : 0), 0);
      expect(grounded).toBeCloseTo(settled.grounded, 6);
      expect(points.map((point) => point.part)).toEqual(of.rode.flatMap((one, i) => (one.kind === "point" ? [i] : [])));
      let from = 0;
      // What points one after another weigh together, or lift.
      let most = 0;
      for (const [i, one] of of.rode.entries()) {
        if (one.kind === "point") {
          // It lies where the length below it ends; on its sides the pull differs by what it weighs or lifts in air at most.
          const point = points.find((each) => each.part === i)!;
          const at = along.findIndex((s) => Math.abs(s - from) < 1e-6 * along[last]!);
          expect(Math.hypot(x[at]! - point.x, z[at]! - point.z)).toBeLessThan(1e-6 * along[last]!);
          most += one.mass * GRAVITY * Math.max(1, Math.abs(1 - 1025 / one.density));
          if (resting[at] === 0) {
            expect(loads[i]).toBeGreaterThan(tension[at]! * (1 - 1e-6));
            expect(loads[i]).toBeLessThan((tension[at]! + most) * (1 + 1e-6));
          }
          continue;
        }
        from += one.length;
        most = 0;
        let [drawn, stretched, highest] = [0, 0, 0];
        for (let n = 1; n <= last; n++) {
          if (part[n] !== i) continue;
          const unloaded = along[n]! - along[n - 1]!;
          const load = Math.max(tension[n]!, part[n - 1] === i || n === 1 ? tension[n - 1]! : 0);
          drawn += Math.hypot(x[n]! - x[n - 1]!, z[n]! - z[n - 1]!);
          const low = part[n - 1] === i || n === 1 ? tension[n - 1]! : tension[n]!;
          stretched += unloaded * (1 + 0.5 * (strainAt(one, tension[n]!) + strainAt(one, low)));
          highest = Math.max(highest, load);
        }
        // Forty strokes a piece: a chord is shorter than its arc, by less than a hundredth of it.
        expect(drawn / stretched, `part ${i}`).toBeGreaterThan(0.985);
        expect(drawn / stretched, `part ${i}`).toBeLessThan(1.005);
        expect(loads[i]! / highest, `part ${i}`).toBeGreaterThan(1 - 1e-3);
      }
    }
    expect(looked).toBeGreaterThan(20);
  });
});
