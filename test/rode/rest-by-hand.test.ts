/** Rode at rest: how long it lies, what is stored in it and where its weight is, against sums over small pieces of it. */
import { describe, expect, it } from "vitest";
import { compile } from "../../src/rode/compile.ts";
import { GRAVITY, type LinePart, type Rig, settleTraced, shapeOf } from "../../src/rode/index.ts";
import { GIVE, RUN, rest, stretchAtRest } from "../../src/rode/rest.ts";
import { bandEnergy, strainAtRest, unevenAtRest } from "../../src/rode/rest-energy.ts";
import { bandsOf, strainAt as strainByLaw } from "./descent.ts";

const points = [
  [0.02, 300],
  [0.05, 500],
  [0.08, 2000],
] as const;
const laws: readonly (readonly [string, LinePart["stretch"]])[] = [
  ["that does not stretch", { kind: "rigid" }],
  ["that stretches in proportion", { kind: "linear", stiffness: 9e3 }],
  ["with corners in its law", { kind: "curve", points }],
];
const line = (stretch: LinePart["stretch"], length = 12): LinePart => ({
  ...{ kind: "line", name: "line", length, massPerLength: 2, density: 7850 },
  stretch,
});
const made = (rode: Rig["rode"], setting: object = {}): Rig => ({
  name: "resting",
  setting: { medium: "air", rise: 5, bottomSlope: 0, bottomFriction: 0, ...setting } as Rig["setting"],
  rode,
  uncertainty: {},
});

/** From one end to the other, over one, two and all bands, up and down, slack at an end, slack all along, and even. */
const tensions: readonly (readonly [number, number])[] = [
  ...[[50, 250] as const, [250, 50] as const, [100, 900] as const, [2500, 120] as const, [-200, 400] as const],
  ...[[700, -300] as const, [-90, -10] as const, [400, 400] as const, [0, 0] as const, [300, 500] as const],
];
const L = 12;
const N = 4000;

describe.each(laws)("a line %s", (_, stretch) => {
  const rode = compile(made([line({ kind: "rigid" }, 3), line(stretch)]));
  const bands = bandsOf(line(stretch));
  const strain = (T: number) => (T > 0 ? strainByLaw(bands, T) : 0);
  /** ∫ T dε from nothing to a tension, by its law. */
  const energy = (T: number): number => {
    let sum = 0;
    for (const { from, to, compliance } of bands) {
      const top = Math.min(to, Math.max(T, 0));
      if (top > from) sum += 0.5 * compliance * (top * top - from * from);
    }
    return sum;
  };

  it.each(tensions)("lies from %d to %d N as long as that stretches it, and stores what it took", (T1, T2) => {
    let [run, stored, further] = [0, 0, 0];
    const h = L / N;
    for (let i = 0; i < N; i++) {
      const T = T1 + ((i + 0.5) / N) * (T2 - T1);
      // The weight of this piece lies in its middle, stretched with all below it.
      further += h * (run + 0.5 * h * (1 + strain(T)));
      run += h * (1 + strain(T));
      stored += h * energy(T);
    }
    stretchAtRest(rode, 1, L, T1, T2);
    // A middle sum of four thousand: within a millionth, but for the pieces that corners cut.
    expect(rest[RUN]).toBeCloseTo(run, 5);
    expect(Math.abs(strainAtRest(rode, 1, L, T1, T2) - stored)).toBeLessThan(1e-5 * (1 + stored));
    expect(unevenAtRest(rode, 1, L, T1, T2)).toBeCloseTo(further - 0.5 * run * L, 5);
  });

  it("gives where it is taut as it lies longer for a newton more all along", () => {
    for (const [T1, T2] of [
      [60, 250],
      [700, 320],
      [400, 400],
    ] as const) {
      stretchAtRest(rode, 1, L, T1, T2);
      const [run, give] = [rest[RUN]!, rest[GIVE]!];
      stretchAtRest(rode, 1, L, T1 + 1e-3, T2 + 1e-3);
      const h = (rest[RUN]! - run) / 1e-3;
      expect(give).toBeCloseTo(h, 8);
    }
    stretchAtRest(rode, 1, L, -50, -20);
    expect([rest[RUN], rest[GIVE]]).toEqual([L, 0]);
  });

  it("has in each band the energy of those below it", () => {
    bands.forEach(({ from, compliance }, i) => {
      const band = rode.firstBand[1]! + i;
      for (const T of [from + 10, from + 90])
        expect(bandEnergy(rode, 1, band) + 0.5 * compliance * T * T).toBeCloseTo(
          energy(from) + 0.5 * compliance * (T * T - from * from),
          9,
        );
    });
  });
});

/** What is summed along a rode, summed again along its drawn line. */
describe.each([
  ["that hangs", { rise: 5 }, 3000],
  ["that rests in part", { rise: 5, bottomFriction: 0.4 }, 260],
  ["that rests on a slope it rubs on", { rise: 5, bottomSlope: 0.1, bottomFriction: 0.4 }, 260],
  ["that rests down a slope", { rise: 5, bottomSlope: -0.1, bottomFriction: 0.4 }, 260],
  [
    "that a current drags back",
    { medium: "water", depth: 9, rollerHeight: 1, waterDensity: 1025, current: 2, bottomFriction: 0.4 },
    330,
  ],
  [
    "that a current carries on",
    { medium: "water", depth: 9, rollerHeight: 1, waterDensity: 1025, current: -2, bottomFriction: 0.4 },
    480,
  ],
  ["that comes out of the water", { medium: "water", depth: 3, rollerHeight: 2, waterDensity: 1025, current: 0 }, 300],
])("a rode %s", (_, setting, newtons) => {
  it.each(laws)("of line %s has the sums of its drawn line: stretch, lift, what is stored, sag", (_law, stretch) => {
    const of = made(
      [
        line({ kind: "linear", stiffness: 4e4 }, 14),
        { kind: "point", name: "weight", mass: 6, density: 7850 },
        { ...line(stretch, 9), massPerLength: 0.5, density: 1500, drag: { across: 1.2, along: 0.9 } },
      ],
      setting,
    );
    const traced = settleTraced(of, { at: "horizontal", newtons });
    if (!("settled" in traced)) throw new Error(traced.cause);
    const dragged = of.setting.medium === "water" && of.setting.current !== 0;
    const { x, z, along, tension, part } = shapeOf(traced, dragged ? 600 : 3000);
    const surface = of.setting.medium === "water" ? of.setting.depth : Number.POSITIVE_INFINITY;
    const water = of.setting.medium === "water" ? 1025 : 0;
    const lifted = (mass: number, density: number, height: number) =>
      mass * GRAVITY * (height - (water / density) * Math.min(height, surface));
    const sums = of.rode.map(() => ({ lift: 0, strain: 0, stretch: 0 }));
    let sag = 0;
    const chord = Math.hypot(x.at(-1)!, z.at(-1)!);
    const lineOf = (i: number) => of.rode[i] as LinePart;
    const last = { T: traced.settled.anchor.tension, part: part[1]! };
    for (let i = 1; i < x.length; i++) {
      const own = lineOf(part[i]!);
      const l = along[i]! - along[i - 1]!;
      // What pulls at the lower side of a stroke beyond a weight is not what is drawn at the upper side of the one before.
      const below = last.part === part[i]! ? last.T : tension[i]!;
      const T = Math.max(0, 0.5 * (tension[i]! + below));
      const bands = bandsOf(own);
      const sum = sums[part[i]!]!;
      const resting = i > 0 && l > 0.5;
      if (resting) {
        // One stroke for all that rests: in thousand pieces.
        const slope = of.setting.bottomSlope;
        let run = 0;
        for (let n = 0; n < 1000; n++) {
          const t = Math.max(0, below + ((n + 0.5) / 1000) * (tension[i]! - below));
          const piece = (l / 1000) * (1 + strainByLaw(bands, t));
          sum.lift += lifted(
            (own.massPerLength * l) / 1000,
            own.density,
            z[i - 1]! + (run + 0.5 * piece) * Math.sin(slope),
          );
          sum.stretch += piece - l / 1000;
          sum.strain += (l / 1000) * stored(bands, t);
          run += piece;
        }
      } else {
        sum.lift += lifted(own.massPerLength * l, own.density, 0.5 * (z[i]! + z[i - 1]!));
        sum.stretch += l * strainByLaw(bands, T);
        sum.strain += l * stored(bands, T);
      }
      sag = Math.max(sag, (z.at(-1)! * x[i]! - x.at(-1)! * z[i]!) / chord);
      last.T = tension[i]!;
      last.part = part[i]!;
    }
    const [point] = traced.trace.rows > 0 ? shapeOf(traced).points : [];
    sums[1]!.lift = lifted(6, 7850, point!.z);
    const { integrals, settled } = traced;
    // In a current the line is drawn by cubics, and the tension straight along them.
    const within = dragged ? 3e-3 : 2e-4;
    const close = (found: number, sum: number, what: string) =>
      expect(Math.abs(found - sum), `${what}: ${found} for ${sum}`).toBeLessThan(within * Math.abs(sum) + 1e-3);
    of.rode.forEach((_each, i) => {
      close(integrals.byPart.lift[i]!, sums[i]!.lift, `lift of ${i}`);
      close(integrals.byPart.strain[i]!, sums[i]!.strain, `stored in ${i}`);
      expect(Math.abs(integrals.byPart.stretch[i]! - sums[i]!.stretch)).toBeLessThan(within * sums[i]!.stretch + 1e-6);
    });
    const total = (of: "lift" | "strain" | "stretch") => sums.reduce((all, each) => all + each[of], 0);
    close(settled.energy.lift, total("lift"), "lift");
    close(settled.energy.stretch, total("strain"), "stored");
    close(settled.stretch, total("stretch"), "stretch");
    close(settled.sag, sag, "sag");
  });
});

function stored(bands: ReturnType<typeof bandsOf>, T: number): number {
  let sum = 0;
  for (const { from, to, compliance } of bands) {
    const top = Math.min(to, T);
    if (top > from) sum += 0.5 * compliance * (top * top - from * from);
  }
  return sum;
}
