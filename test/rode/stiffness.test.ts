/** Stiffness, work and fields of a ladder and of an equilibrium, against closed forms and differences of the answers. */
import { describe, expect, it } from "vitest";
import {
  GRAVITY,
  type LinePart,
  loadSweep,
  type Rig,
  type Settled,
  settle,
  settledFields,
} from "../../src/rode/index.ts";

const line: LinePart = {
  kind: "line",
  name: "line",
  length: 30,
  massPerLength: 2.3,
  density: 7850,
  diameter: 0.01,
  stretch: { kind: "linear", stiffness: 2e5 },
};
const rig = (over: object, rode: Rig["rode"] = [line]): Rig => ({
  name: "stiff",
  setting: {
    medium: "water",
    depth: 7,
    rollerHeight: 1,
    waterDensity: 1025,
    bottomSlope: 0,
    bottomFriction: 0,
    current: 0,
    ...over,
  },
  rode,
  uncertainty: {},
});
const float = { kind: "point", name: "float", mass: 2, density: 150 } as const;

function settledAt(of: Rig, newtons: number): Settled {
  const answer = settle(of, { at: "horizontal", newtons });
  if (answer.kind !== "settled") throw new Error(answer.cause);
  return answer;
}

describe("stiffness is the rise of horizontal force over movement of the loaded end", () => {
  it.each([
    ["in still water", rig({})],
    ["on a slope that rubs", rig({ bottomSlope: 0.05, bottomFriction: 0.6 })],
    ["in a current toward the boat", rig({ current: 1 })],
    ["in a current from ahead of it", rig({ current: -1 })],
    ["with a float", rig({}, [line, float, { ...line, length: 10, massPerLength: 0.3, density: 1140 }])],
  ])("%s", (_, of) => {
    for (const newtons of [400, 1500, 6000]) {
      const [rung] = loadSweep(of, [{ at: "horizontal", newtons }]);
      if (rung?.kind !== "rung") throw new Error("it settles");
      const h = 1e-3 * newtons;
      const slope = (2 * h) / (settledAt(of, newtons + h).span - settledAt(of, newtons - h).span);
      // A central difference over a thousandth: its own error is of the order of 1e-6.
      expect(Math.abs(rung.stiffness / slope - 1)).toBeLessThan(2e-4);
    }
  });

  it("of a line pulled straight, is that of a bar: EA/L along it and T/L across it", () => {
    const straight = rig({ rollerHeight: 0, depth: 3 }, [{ ...line, massPerLength: 1e-4, density: 1e3 }]);
    const [rung] = loadSweep(straight, [{ at: "horizontal", newtons: 2e4 }]);
    if (rung?.kind !== "rung") throw new Error("it settles");
    const { bow, span } = rung.settled;
    const stretched = Math.hypot(span, 3);
    const [cos, sin] = [span / stretched, 3 / stretched];
    const bar = (2e5 / 30) * cos ** 2 + (bow.tension / stretched) * sin ** 2;
    // What it weighs bends it by parts in a million.
    expect(Math.abs(rung.stiffness / bar - 1)).toBeLessThan(1e-4);
  });
});

describe("a ladder", () => {
  it("tells movement and work since the rung before, none on the first", () => {
    const pulls = [500, 1200, 2500].map((newtons) => ({ at: "horizontal", newtons }) as const);
    const rungs = loadSweep(rig({}), pulls);
    expect(rungs).toHaveLength(3);
    let before: Settled | null = null;
    for (const rung of rungs) {
      if (rung.kind !== "rung") throw new Error("it settles");
      if (before === null) expect([rung.movement, rung.work]).toEqual([0, 0]);
      else {
        expect(rung.movement).toBeCloseTo(rung.settled.span - before.span, 12);
        // By the trapezoid over two hundred loads between, exact to its own 1e-4.
        let work = 0;
        for (let i = 0; i < 200; i++) {
          const [a, b] = [i, i + 1].map(
            (k) => before!.horizontal * (rung.settled.horizontal / before!.horizontal) ** (k / 200),
          );
          work += 0.5 * (a! + b!) * (settledAt(rig({}), b!).span - settledAt(rig({}), a!).span);
        }
        expect(Math.abs(rung.work / work - 1)).toBeLessThan(1e-4);
      }
      before = rung.settled;
    }
  });
  it("works against a current as force over movement says", () => {
    const of = rig({ current: 1.2 });
    const [, rung] = loadSweep(
      of,
      [800, 1600].map((newtons) => ({ at: "horizontal", newtons }) as const),
    );
    if (rung?.kind !== "rung") throw new Error("it settles");
    let work = 0;
    for (let i = 0; i < 50; i++) {
      const [a, b] = [800 * 2 ** (i / 50), 800 * 2 ** ((i + 1) / 50)];
      work += 0.5 * (a + b) * (settledAt(of, b).span - settledAt(of, a).span);
    }
    expect(Math.abs(rung.work / work - 1)).toBeLessThan(1e-3);
  });
});

describe("the fields of an equilibrium for other programs", () => {
  it("each says what its name says", () => {
    const settled = settledAt(rig({ bottomSlope: 0.04, rollerHeight: 1.5 }), 700);
    const degrees = 180 / Math.PI;
    expect(settledFields(settled)).toEqual({
      anchor: {
        tension_N: settled.anchor.tension,
        angle_deg: settled.anchor.angle * degrees,
        angleToBottom_deg: settled.anchor.angleToBottom * degrees,
      },
      bow: { tension_N: settled.bow.tension, angle_deg: settled.bow.angle * degrees },
      horizontal_N: settled.horizontal,
      span_m: settled.span,
      grounded_m: settled.grounded,
      lifted_m: settled.lifted,
      stretch_m: settled.stretch,
      sag_m: settled.sag,
      scope: settled.scope,
      energy_J: { lift: settled.energy.lift, stretch: settled.energy.stretch },
    });
    expect(settled.scope).toBeCloseTo(30 / 8.5, 12);
    expect(settled.grounded + settled.lifted).toBeCloseTo(30, 10);
    const { span, stretch, sag, energy } = settled;
    expect(new Set([span, stretch, sag, energy.lift, energy.stretch].map((v) => v.toPrecision(6))).size).toBe(5);
  });
  it("a lifted line in one medium pulls harder at the bow by its weight in water times the rise", () => {
    const settled = settledAt(rig({ rollerHeight: 0, depth: 8 }, [{ ...line, stretch: { kind: "rigid" } }]), 3000);
    const w = 2.3 * GRAVITY * (1 - 1025 / 7850);
    expect(settled.bow.tension - settled.anchor.tension).toBeCloseTo(w * 8, 6);
  });
});
