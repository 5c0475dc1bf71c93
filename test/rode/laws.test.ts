/** What holds of every rode, whatever its numbers. Seeds are fixed: a failing case is named by its number. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { settleContact } from "../../src/rode/contact/settle-contact.ts";
import {
  type LinePart,
  loadSweep,
  type Part,
  type PointPart,
  type Pull,
  type Rig,
  readRig,
  riseOf,
  type Settled,
  type SettledTrace,
  type StretchLaw,
  settle,
  settleTraced,
} from "../../src/rode/index.ts";
import { advance, DX, DZ, piece } from "../../src/rode/piece.ts";
import {
  LIFTED,
  POINT,
  R_H,
  R_KIND,
  R_LENGTH,
  R_PART,
  R_V1,
  R_W,
  R_Z,
  RESTING,
  TRACE_COLUMNS,
} from "../../src/rode/trace.ts";
import { rng } from "../../src/statistics/index.ts";
import { plausiblePull, plausibleRig, type Wildness } from "./random-rigs.ts";

const SEED = 20_040_119;
const number = fc.integer({ min: 0, max: 1e9 });

/** Runs a law on so many rodes somebody might lie to; each is called back by its number. */
function everyRode(runs: number, law: (rig: Rig, pull: Pull, share: number) => void, wild: Wildness = {}): void {
  fc.assert(
    fc.property(number, fc.double({ min: 0.05, max: 0.95, noNaN: true }), (seed, share) => {
      const random = rng(seed);
      const rig = plausibleRig(random, wild);
      law(rig, plausiblePull(random, rig), share);
    }),
    { seed: SEED, numRuns: runs },
  );
}

const lengthOf = (rig: Rig): number =>
  rig.rode.reduce((sum, part) => sum + (part.kind === "line" ? part.length : 0), 0);

/** How far two answers are apart: forces as a share of the forces, lengths of the lengths. */
function apart(rig: Rig, one: Settled, other: Settled): number {
  const forces = one.bow.tension + one.anchor.tension;
  const lengths = lengthOf(rig) + riseOf(rig.setting);
  const across = (end: { tension: number; angle: number }) => end.tension * Math.cos(end.angle);
  const upward = (end: { tension: number; angle: number }) => end.tension * Math.sin(end.angle);
  return Math.max(
    ...(["anchor", "bow"] as const).flatMap((end) => [
      Math.abs(across(one[end]) - across(other[end])) / forces,
      Math.abs(upward(one[end]) - upward(other[end])) / forces,
    ]),
    Math.abs(one.horizontal - other.horizontal) / forces,
    ...(["span", "grounded", "lifted", "stretch", "sag"] as const).map(
      (what) => Math.abs(one[what] - other[what]) / lengths,
    ),
    Math.abs(one.energy.lift - other.energy.lift) / (forces * lengths),
    Math.abs(one.energy.stretch - other.energy.stretch) / (forces * lengths),
  );
}

/** Both settle alike, or neither does and for the same cause. */
function alike(rig: Rig, one: ReturnType<typeof settle>, other: ReturnType<typeof settle>, within: number): void {
  if (one.kind === "settled" && other.kind === "settled") {
    expect(apart(rig, one, other)).toBeLessThanOrEqual(within);
  } else {
    expect(cause(other)).toBe(cause(one));
  }
}
const cause = (answer: ReturnType<typeof settle>): string => (answer.kind === "settled" ? "settled" : answer.cause);

/** z closes to 1e-13 of the lengths; a soft rode turns that into some hundred times as much of span or grounded length. */
const SAME = 1e-10;
/** Where floats or a point in the surface are, each touch is closed in turn: to 1e-9 of what is stated. */
const SAME_TOUCHING = 1e-8;

describe("splitting a line in two changes nothing", () => {
  const split = (rig: Rig, share: number): Rig => ({
    ...rig,
    rode: rig.rode.flatMap((part): Part[] =>
      part.kind === "line"
        ? [
            { ...part, length: part.length * share },
            { ...part, length: part.length * (1 - share) },
          ]
        : [part],
    ),
  });
  const splits = (runs: number, within: number, wild: Wildness = {}): number => {
    let settled = 0;
    everyRode(
      runs,
      (rig, pull, share) => {
        const whole = settle(rig, pull);
        alike(rig, whole, settle(split(rig, share), pull), within);
        if (whole.kind === "settled") settled++;
      },
      wild,
    );
    return settled;
  };
  it("of a rode heavier than its water", () => expect(splits(500, SAME)).toBeGreaterThan(350));
  it("of a rode with floats and floating line", () =>
    expect(splits(60, SAME_TOUCHING, { buoyant: 0.3 })).toBeGreaterThan(40));
});

describe("a rig file in metres and newtons and one in feet and pounds give the same", () => {
  const foot = 0.3048;
  const pound = 0.45359237;
  const lbf = 4.4482216152605;
  const unit = (us: boolean) => ({
    length: (m: number) => (us ? `${m / foot} ft` : `${m} m`),
    inches: (m: number) => (us ? `${m / (foot / 12)} in` : `${m * 1e3} mm`),
    mass: (kg: number) => (us ? `${kg / pound} lb` : `${kg} kg`),
    massPerLength: (kg: number) => (us ? `${(kg / pound) * foot} lb/ft` : `${kg} kg/m`),
    force: (N: number) => (us ? `${N / lbf} lbf` : `${N / 1e3} kN`),
    density: (kg: number) => (us ? `${(kg / pound) * foot ** 3} lb/ft3` : `${kg} kg/m3`),
  });
  const stretchIn = (law: StretchLaw, force: (N: number) => string): object =>
    law.kind === "linear"
      ? { stiffness: force(law.stiffness) }
      : law.kind === "curve"
        ? { stretch: law.points.map(([strain, load]) => [strain, force(load)]) }
        : {};
  const file = ({ setting, rode }: Rig, us: boolean): string => {
    if (setting.medium !== "water") throw new Error("a rode in water is expected");
    const { length, inches, mass, massPerLength, force, density } = unit(us);
    return JSON.stringify({
      format: "rodebench/rig@1",
      setting: {
        medium: "water",
        depth: length(setting.depth),
        rollerHeight: length(setting.rollerHeight),
        waterDensity: density(setting.waterDensity),
        bottomSlope: `${(setting.bottomSlope * 180) / Math.PI} deg`,
        bottomFriction: setting.bottomFriction,
      },
      rode: rode.map((part) =>
        part.kind === "line"
          ? {
              line: {
                length: length(part.length),
                massPerLength: massPerLength(part.massPerLength),
                density: density(part.density),
                diameter: inches(part.diameter!),
                ...stretchIn(part.stretch, force),
              },
            }
          : { weight: { mass: mass(part.mass), density: density(part.density) } },
      ),
    });
  };
  it("whatever the rig", () =>
    everyRode(300, (rig, pull) => {
      const metric = readRig(file(rig, false), "metric");
      const us = readRig(file(rig, true), "us");
      for (const [i, part] of us.rode.entries())
        if (part.kind === "line") expect(part.length / (metric.rode[i] as LinePart).length).toBeCloseTo(1, 14);
      alike(rig, settle(metric, pull), settle(us, pull), SAME);
    }));
});

describe("a heavier pull", () => {
  it("draws the boat off, and loads both ends more, on a level bottom", () =>
    everyRode(300, (rig) => {
      const level: Rig = { ...rig, setting: { ...rig.setting, bottomSlope: 0 } };
      let before: Settled | null = null;
      for (let newtons = 30; newtons < 3e4; newtons *= 1.4) {
        const now = settle(level, { at: "horizontal", newtons });
        if (now.kind !== "settled") throw new Error(now.cause);
        if (before !== null) {
          expect(now.span).toBeGreaterThan(before.span);
          expect(now.bow.tension).toBeGreaterThan(before.bow.tension);
          expect(now.anchor.tension).toBeGreaterThanOrEqual(before.anchor.tension);
          expect(now.grounded).toBeLessThanOrEqual(before.grounded + 1e-12 * lengthOf(rig));
        }
        before = now;
      }
    }));
  it("raises the angle at the anchor of one line that does not stretch", () =>
    everyRode(200, (rig) => {
      const line: LinePart = {
        ...(rig.rode.find((part) => part.kind === "line") as LinePart),
        stretch: { kind: "rigid" },
      };
      const plain: Rig = {
        ...rig,
        rode: [{ ...line, length: lengthOf(rig) }],
        setting: { ...rig.setting, bottomSlope: 0 },
      };
      let before = 0;
      for (let newtons = 30; newtons < 3e4; newtons *= 1.4) {
        const now = settle(plain, { at: "horizontal", newtons });
        if (now.kind !== "settled") throw new Error(now.cause);
        // Nearly straight, the angle stands still to rounding.
        expect(now.anchor.angle).toBeGreaterThanOrEqual(before - 1e-12);
        before = now.anchor.angle;
      }
    }));
});

describe("laws of scale", () => {
  const bigger = (rig: Rig, k: { length: number; perLength: number; force: number; stretches: boolean }): Rig => {
    const stretched = (law: StretchLaw): StretchLaw =>
      !k.stretches
        ? { kind: "rigid" }
        : law.kind === "linear"
          ? { kind: "linear", stiffness: law.stiffness * k.force }
          : law.kind === "curve"
            ? { kind: "curve", points: law.points.map(([strain, load]) => [strain, load * k.force] as const) }
            : law;
    const { setting } = rig;
    return {
      ...rig,
      setting:
        setting.medium === "air"
          ? { ...setting, rise: setting.rise * k.length }
          : { ...setting, depth: setting.depth * k.length, rollerHeight: setting.rollerHeight * k.length },
      rode: rig.rode.map(
        (part): Part =>
          part.kind === "line"
            ? {
                ...part,
                length: part.length * k.length,
                massPerLength: part.massPerLength * k.perLength,
                stretch: stretched(part.stretch),
              }
            : { ...part, mass: part.mass * k.length * k.perLength },
      ),
    };
  };
  const heavier = (pull: Pull, force: number, length: number): Pull =>
    pull.at === "span" ? { at: "span", metres: pull.metres * length } : { at: pull.at, newtons: pull.newtons * force };
  const settledBack = (answer: ReturnType<typeof settle>, force: number, length: number): ReturnType<typeof settle> =>
    answer.kind !== "settled"
      ? answer
      : {
          ...answer,
          anchor: { ...answer.anchor, tension: answer.anchor.tension / force },
          bow: { ...answer.bow, tension: answer.bow.tension / force },
          horizontal: answer.horizontal / force,
          span: answer.span / length,
          grounded: answer.grounded / length,
          lifted: answer.lifted / length,
          stretch: answer.stretch / length,
          sag: answer.sag / length,
          energy: { lift: answer.energy.lift / force / length, stretch: answer.energy.stretch / force / length },
        };

  it.each([0.01, 3, 1000])("without stretch, lengths and loads %d times: the same angles", (k) =>
    everyRode(150, (rig, pull) => {
      const small = bigger(rig, { length: 1, perLength: 1, force: 1, stretches: false });
      const large = bigger(rig, { length: k, perLength: 1, force: k, stretches: false });
      alike(rig, settle(small, pull), settledBack(settle(large, heavier(pull, k, k)), k, k), SAME);
    }),
  );
  it.each([0.01, 3, 1000])("masses, stiffness and loads %d times: the same shape", (k) =>
    everyRode(150, (rig, pull) => {
      const large = bigger(rig, { length: 1, perLength: k, force: k, stretches: true });
      alike(rig, settle(rig, pull), settledBack(settle(large, heavier(pull, k, 1)), k, 1), SAME);
    }),
  );
  it("mirror: a piece seen from its other end is as wide and as high, the other way up", () =>
    fc.assert(
      fc.property(
        fc.double({ min: 1e-3, max: 1e5, noNaN: true }),
        fc.double({ min: -1e4, max: 1e4, noNaN: true }),
        fc.double({ min: -10, max: 300, noNaN: true }),
        fc.double({ min: 0.1, max: 1e4, noNaN: true }),
        (H, V, w, l) => {
          advance(H, V, w, l, 0.01, 1e-6);
          const [x, z] = [piece[DX]!, piece[DZ]!];
          advance(H, -(V + w * l), w, l, 0.01, 1e-6);
          // V + w l rounds.
          const off =
            1e-12 *
            l *
            (1 + 1e-6 * (Math.abs(V) + Math.abs(w) * l)) *
            (1 + ((Math.abs(V) + Math.abs(w) * l) * 1e-4) / H);
          expect(Math.abs(piece[DX]! - x)).toBeLessThanOrEqual(off);
          expect(Math.abs(piece[DZ]! + z)).toBeLessThanOrEqual(off);
        },
      ),
      { seed: SEED, numRuns: 2000 },
    ));
});

describe("work along a ladder", () => {
  const loads = [100, 250, 600, 1500, 4000, 10_000].map((newtons): Pull => ({ at: "horizontal", newtons }));
  const onLevel = (rig: Rig, bottomFriction: number): Rig => ({
    ...rig,
    setting: { ...rig.setting, bottomSlope: 0, bottomFriction },
  });
  const climb = (rig: Rig) =>
    loadSweep(rig, loads).map((rung) => {
      if (rung.kind === "noEquilibrium") throw new Error(rung.cause);
      return rung;
    });
  const energyOf = ({ energy }: Settled): number => energy.lift + energy.stretch;

  it("is the energy gained, where nothing rubs", () =>
    everyRode(60, (rig) => {
      const rungs = climb(onLevel(rig, 0));
      for (const [i, { settled, work }] of rungs.entries()) {
        if (i === 0) continue;
        const gained = energyOf(settled) - energyOf(rungs[i - 1]!.settled);
        // The integral is asked to 1e-10 of ΔH Δx; a difference of energies rounds with their size.
        const scale = settled.horizontal * (settled.span - rungs[i - 1]!.settled.span);
        expect(Math.abs(work - gained)).toBeLessThanOrEqual(1e-8 * scale + 1e-12 * energyOf(settled));
      }
    }));
  it("is no less than the energy gained, where the bottom rubs, and more where chain lies on it", () => {
    let rubbed = 0;
    everyRode(60, (rig) => {
      const rungs = climb(onLevel(rig, 0.7));
      for (const [i, { settled, work }] of rungs.entries()) {
        if (i === 0) continue;
        const before = rungs[i - 1]!.settled;
        const gained = energyOf(settled) - energyOf(before);
        const scale = settled.horizontal * (settled.span - before.span);
        expect(work - gained).toBeGreaterThanOrEqual(-1e-8 * scale - 1e-12 * energyOf(settled));
        if (before.grounded > 0 && work - gained > 1e-6 * scale) rubbed++;
      }
    });
    expect(rubbed).toBeGreaterThan(10);
  });
});

describe("what goes to nothing leaves the plain answer", () => {
  /** How the answer departs from the plain one as what is added falls by tens; only for loads, and rodes that settle. */
  const departures = (plain: Rig, pull: Pull, added: readonly Rig[]): number[] | null => {
    const answer = settle(plain, pull);
    if (answer.kind !== "settled") return null;
    return added.map((rig) => {
      const with_ = settle(rig, pull);
      if (with_.kind !== "settled") throw new Error(with_.cause);
      return apart(plain, answer, with_);
    });
  };
  const loadOnly = (pull: Pull): Pull => (pull.at === "span" ? { at: "bow", newtons: 2000 } : pull);

  it("current: as its square", () => {
    let looked = 0;
    everyRode(40, (rig, pull) => {
      const inCurrent = (current: number): Rig => ({
        ...rig,
        setting: { ...rig.setting, bottomSlope: 0, current } as Rig["setting"],
      });
      const off = departures(inCurrent(0), loadOnly(pull), [0.1, 0.01, 0.001].map(inCurrent));
      if (off === null) return;
      looked++;
      // Marching with drag is good to 1e-8; a square falls a hundredfold for a tenth, here fiftyfold and up.
      expect(off[1]!).toBeLessThanOrEqual(off[0]! / 50 + 1e-8);
      expect(off[2]!).toBeLessThanOrEqual(off[0]! / 2500 + 1e-8);
    });
    expect(looked).toBeGreaterThan(25);
  });
  it("slope: in proportion, whichever way the bottom falls", () => {
    let looked = 0;
    everyRode(200, (rig, pull) => {
      const sloped = (bottomSlope: number): Rig => ({ ...rig, setting: { ...rig.setting, bottomSlope } });
      const off = departures(sloped(0), loadOnly(pull), [1e-4, -1e-4, 1e-6, -1e-6, 1e-9].map(sloped));
      if (off === null) return;
      looked++;
      expect(off[2]!).toBeLessThanOrEqual(off[0]! / 50 + SAME);
      expect(off[3]!).toBeLessThanOrEqual(off[1]! / 50 + SAME);
      expect(off[4]!).toBeLessThanOrEqual(off[0]! / 5e4 + SAME);
    });
    expect(looked).toBeGreaterThan(150);
  });
  it("stretch: in proportion", () => {
    let looked = 0;
    everyRode(200, (rig, pull) => {
      const stretching = (stretch: (line: LinePart) => StretchLaw): Rig => ({
        ...rig,
        rode: rig.rode.map((part) => (part.kind === "line" ? { ...part, stretch: stretch(part) } : part)),
      });
      const off = departures(
        stretching(() => ({ kind: "rigid" })),
        loadOnly(pull),
        [1e8, 1e10, 1e13].map((stiffness) => stretching(() => ({ kind: "linear", stiffness }))),
      );
      if (off === null) return;
      looked++;
      expect(off[1]!).toBeLessThanOrEqual(off[0]! / 50 + SAME);
      expect(off[2]!).toBeLessThanOrEqual(off[0]! / 5e4 + SAME);
    });
    expect(looked).toBeGreaterThan(150);
  });
});

/** Rows of a settled rode's record. */
function rowsOf({ trace }: SettledTrace): Float64Array[] {
  return Array.from({ length: trace.rows }, (_, row) =>
    trace.data.subarray(row * TRACE_COLUMNS, (row + 1) * TRACE_COLUMNS),
  );
}

describe("Newton's third law", () => {
  const between = (rig: Rig, pull: Pull, within: number): boolean => {
    const traced = settleTraced(rig, pull);
    if (!("settled" in traced)) return false;
    const { bow, anchor, horizontal } = traced.settled;
    const forces = bow.tension + anchor.tension;
    const rows = rowsOf(traced);
    const slope = rig.setting.bottomSlope;
    /** What the rode above pulls with at a row's lower end, and what that row pulls on at its upper. */
    const lower = (row: Float64Array): number[] =>
      row[R_KIND] === RESTING
        ? [Math.max(0, row[R_V1]!) * Math.cos(slope), Math.max(0, row[R_V1]!) * Math.sin(slope)]
        : [row[R_H]!, row[R_V1]!];
    const upper = (row: Float64Array): number[] =>
      row[R_KIND] === RESTING
        ? [Math.max(0, row[R_W]!) * Math.cos(slope), Math.max(0, row[R_W]!) * Math.sin(slope)]
        : row[R_KIND] === POINT
          ? [row[R_H]!, row[R_V1]! + row[R_W]!]
          : [row[R_H]!, row[R_V1]! + row[R_W]! * row[R_LENGTH]!];
    const same = (what: string, one: readonly number[], other: readonly number[]): void => {
      for (const i of [0, 1]) expect(Math.abs(one[i]! - other[i]!) / forces, what).toBeLessThanOrEqual(within);
    };
    // Points at rest bear on the bottom, which is no neighbour: from the first row that hangs on.
    const first = rows.findIndex((row) => row[R_KIND] === LIFTED);
    for (let i = 1; i < rows.length; i++) {
      const [before, here] = [rows[i - 1]!, rows[i]!];
      const restsOn = i <= first && (before[R_KIND] === POINT || here[R_KIND] === POINT);
      if (!restsOn) same(`between pieces ${i} and ${i + 1}`, upper(before), lower(here));
    }
    same("at the bow", upper(rows.at(-1)!), [bow.tension * Math.cos(bow.angle), bow.tension * Math.sin(bow.angle)]);
    same("the horizontal force", [upper(rows.at(-1)!)[0]!, 0], [horizontal, 0]);
    if (rows[0]![R_KIND] !== POINT)
      same("at the anchor", lower(rows[0]!), [
        anchor.tension * Math.cos(anchor.angle),
        anchor.tension * Math.sin(anchor.angle),
      ]);
    return true;
  };
  it("holds between all parts of a heavy rode, to the rounding of sums", () => {
    let settled = 0;
    everyRode(500, (rig, pull) => {
      if (between(rig, pull, 1e-12)) settled++;
    });
    expect(settled).toBeGreaterThan(350);
  });
});

describe("a float", () => {
  const water = 1025;
  const g = 9.80665;
  const rigWith = (float: PointPart, depth: number, rope: number): Rig => ({
    name: "float",
    setting: {
      medium: "water",
      depth,
      rollerHeight: 1.2,
      waterDensity: water,
      bottomSlope: 0,
      bottomFriction: 0,
      current: 0,
    },
    rode: [
      { kind: "line", name: "chain", length: 2 * depth, massPerLength: 1.4, density: 7850, stretch: { kind: "rigid" } },
      float,
      {
        kind: "line",
        name: "rope",
        length: rope,
        massPerLength: 0.12,
        density: 1140,
        stretch: { kind: "linear", stiffness: 9e4 },
      },
    ],
    uncertainty: {},
  });

  it("that would breach rides at the surface with no more buoyancy than it needs; under it, with all it has", () => {
    const seen = { riding: 0, under: 0 };
    fc.assert(
      fc.property(
        fc.double({ min: 4, max: 15, noNaN: true }),
        fc.double({ min: 2, max: 30, noNaN: true }),
        fc.double({ min: 3, max: 25, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (depth, mass, more, share) => {
          const float: PointPart = { kind: "point", name: "float", mass, density: 120 };
          const rig = rigWith(float, depth, depth + more);
          const newtons = 100 * 60 ** share;
          const traced = settleTraced(rig, { at: "horizontal", newtons });
          if (!("settled" in traced)) throw new Error(traced.cause);
          const rows = rowsOf(traced);
          const at = rows.findIndex((row) => row[R_PART] === 1 && row[R_KIND] === POINT);
          const [below, above] = [rows[at - 1]!, rows[at + 1]!];
          const rising = (row: Float64Array): number =>
            row[R_KIND] === LIFTED ? row[R_V1]! + row[R_W]! * row[R_LENGTH]! : 0;
          const weight = (above[R_KIND] === LIFTED ? above[R_V1]! : 0) - rising(below);
          const least = mass * g * (1 - water / 120);
          const most = mass * g;
          const rounding = 1e-9 * traced.settled.bow.tension;
          if (Math.abs(rows[at]![R_Z]! - depth) <= 1e-9 * depth) {
            seen.riding++;
            expect(weight).toBeGreaterThanOrEqual(least - rounding);
            expect(weight).toBeLessThanOrEqual(most + rounding);
          } else {
            seen.under++;
            expect(rows[at]![R_Z]!).toBeLessThan(depth);
            expect(Math.abs(weight - least)).toBeLessThanOrEqual(rounding);
          }
        },
      ),
      { seed: SEED, numRuns: 300 },
    );
    expect(seen.riding).toBeGreaterThan(40);
    expect(seen.under).toBeGreaterThan(40);
  });

  it("at the surface may be as large as you like: what it cannot use changes nothing", () => {
    const ride = (mass: number) => {
      const float: PointPart = { kind: "point", name: "float", mass, density: 120 };
      const answer = settle(rigWith(float, 8, 20), { at: "horizontal", newtons: 300 });
      if (answer.kind !== "settled") throw new Error(answer.cause);
      return answer;
    };
    const rig = rigWith({ kind: "point", name: "float", mass: 20, density: 120 }, 8, 20);
    // Not the energies: those count the float's own weight.
    const plain = (answer: Settled): Settled => ({ ...answer, energy: { lift: 0, stretch: answer.energy.stretch } });
    expect(apart(rig, plain(ride(20)), plain(ride(200)))).toBeLessThanOrEqual(SAME_TOUCHING);
  });
});

describe("the fast solver and the one for what touches", () => {
  it("give the same for a rode heavier than its water", () => {
    let settled = 0;
    everyRode(120, (rig, pull) => {
      const fast = settle(rig, pull);
      if (fast.kind !== "settled" || fast.horizontal === 0) return;
      const touching = settleContact(rig, pull);
      if (!("settled" in touching)) throw new Error(touching.cause);
      settled++;
      expect(apart(rig, fast, touching.settled)).toBeLessThanOrEqual(SAME_TOUCHING);
    });
    expect(settled).toBeGreaterThan(80);
  });
});
