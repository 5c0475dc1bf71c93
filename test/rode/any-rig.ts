/** Random rigs that a rig file can say, for property tests. */
import fc from "fast-check";
import type { Part, Rig, Setting, StretchLaw } from "../../src/rode/index.ts";

const within = (min: number, max: number) => fc.double({ min, max, noNaN: true });
/** Round figures as people have them, and any others. */
const figure = (min: number, max: number) =>
  fc.oneof(
    within(min, max),
    within(min, max).map((value) => Math.min(max, Math.max(min, Number(value.toPrecision(3))))),
  );
const name = fc.oneof(
  fc.constantFrom(
    "chain",
    "no",
    "null",
    "12",
    "1e3",
    "a: b",
    "# x",
    "~",
    "- y",
    "'",
    '"',
    "π ½ ✓",
    "two\nlines",
    "{a}",
  ),
  fc.string({ minLength: 1, maxLength: 20, unit: "grapheme" }),
);
const sometimes = <T>(field: string, value: fc.Arbitrary<T>) =>
  fc.option(value, { nil: undefined }).map((one) => (one === undefined ? {} : { [field]: one }));

const strengths = fc
  .tuple(fc.boolean(), fc.boolean(), figure(1, 1e5), within(1, 4))
  .map(([working, breaking, load, factor]) => ({
    ...(working ? { workingLoad: load } : {}),
    ...(breaking ? { breakingLoad: load * factor } : {}),
  }));

const curve = fc.array(fc.tuple(figure(0.001, 0.1), figure(1, 1e4)), { minLength: 1, maxLength: 6 }).map((steps) => {
  let [strain, load] = [0, 0];
  const points = steps.map(([moreStrain, moreLoad]) => {
    [strain, load] = [strain + moreStrain, load + moreLoad];
    return [strain, load] as const;
  });
  return { kind: "curve" as const, points };
});

const stretch: fc.Arbitrary<StretchLaw> = fc.oneof(
  fc.constant({ kind: "rigid" as const }),
  figure(100, 1e9).map((stiffness) => ({ kind: "linear" as const, stiffness })),
  curve,
);

const line: fc.Arbitrary<Part> = fc
  .tuple(
    fc.record({
      name,
      length: figure(0.01, 5000),
      massPerLength: figure(0.001, 100),
      density: figure(100, 20_000),
      stretch,
    }),
    sometimes("diameter", figure(0.001, 0.5)),
    sometimes("drag", fc.record({ across: figure(0, 3), along: figure(0, 1.5) })),
    sometimes("material", fc.constantFrom("chain", "rope", "wire", "line")),
    strengths,
  )
  .map(([given, ...more]) => Object.assign({ kind: "line" as const, ...given }, ...more) as Part);

const point: fc.Arbitrary<Part> = fc
  .tuple(fc.record({ name, mass: figure(0.001, 500), density: figure(10, 20_000) }), strengths)
  .map(([given, more]) => ({ kind: "point" as const, ...given, ...more }));

const bottom = fc.record({
  bottomSlope: fc.oneof(fc.constant(0), figure(-0.7, 0.7).map(notMinusZero)),
  bottomFriction: fc.oneof(fc.constant(0), figure(0, 2)),
});

const setting: fc.Arbitrary<Setting> = fc.oneof(
  fc.tuple(figure(0.1, 500), bottom).map(([rise, more]) => ({ medium: "air" as const, rise, ...more })),
  fc
    .tuple(
      fc.record({
        depth: figure(0.1, 1000),
        rollerHeight: figure(0, 20).map(notMinusZero),
        waterDensity: figure(950, 1250),
        current: fc.oneof(fc.constant(0), figure(-3, 3).map(notMinusZero)),
      }),
      bottom,
    )
    .map(([water, more]) => ({ medium: "water" as const, ...water, ...more })),
);

export const anyRig: fc.Arbitrary<Rig> = fc.record({
  name,
  setting,
  rode: fc.array(fc.oneof({ weight: 3, arbitrary: line }, { weight: 1, arbitrary: point }), {
    minLength: 1,
    maxLength: 6,
  }),
  uncertainty: fc
    .tuple(
      sometimes("massPerLength", figure(0, 0.5).map(notMinusZero)),
      sometimes("rise", figure(0, 5).map(notMinusZero)),
    )
    .map(([one, other]) => ({ ...one, ...other })),
});

function notMinusZero(value: number): number {
  return value === 0 ? 0 : value;
}
