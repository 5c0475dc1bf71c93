/**
 * A rode in a current, stepped anew from the anchor's printed answer to the bow: the flow split by vectors along and
 * across the line, the drag of Morison's form for steady flow put on it (½ ρ d C |u| u, d the diameter), by the classical
 * rule of Runge and Kutta. Nothing of the solver is used but its answer.
 */
import { describe, expect, it } from "vitest";
import { GRAVITY, type LinePart, type Part, type Rig, type Settled, settle } from "../../src/rode/index.ts";

const WATER = 1025;
const chain: LinePart = {
  kind: "line",
  name: "chain",
  length: 30,
  massPerLength: 2.3,
  density: 7850,
  diameter: 0.01,
  material: "chain",
  stretch: { kind: "rigid" },
};
const rope: LinePart = {
  kind: "line",
  name: "rope",
  length: 25,
  massPerLength: 0.12,
  density: 1140,
  diameter: 0.014,
  material: "rope",
  stretch: { kind: "linear", stiffness: 9e4 },
};

function rig(current: number, rode: readonly Part[], rollerHeight = 0): Rig {
  return {
    name: "in a current",
    setting: {
      medium: "water",
      depth: 8,
      rollerHeight,
      waterDensity: WATER,
      bottomSlope: 0,
      bottomFriction: 0,
      current,
    },
    rode,
    uncertainty: {},
  };
}

function settled(of: Rig, pull: Parameters<typeof settle>[1]): Settled {
  const answer = settle(of, pull);
  if (answer.kind !== "settled") throw new Error(answer.cause);
  return answer;
}

interface Coefficients {
  readonly across: number;
  readonly along: number;
  readonly diameter: number;
}

type State = readonly [x: number, z: number, H: number, V: number];

/** From the anchor's end of a rode that lies nowhere, to its bow. */
function stepped(of: Rig, anchor: { tension: number; angle: number }, drag: readonly Coefficients[]): State {
  const { setting } = of;
  if (setting.medium !== "water") throw new Error("water is expected");
  let y: State = [0, 0, anchor.tension * Math.cos(anchor.angle), anchor.tension * Math.sin(anchor.angle)];
  for (const [i, part] of of.rode.entries()) {
    if (part.kind !== "line") {
      const w = part.mass * GRAVITY * (1 - WATER / part.density);
      y = [y[0], y[1], y[2], y[3] + w];
      continue;
    }
    const rate = (at: State): State => {
      const [, z, H, V] = at;
      const T = Math.hypot(H, V);
      const e = [H / T, V / T] as const;
      // With the roller in the surface all is wet; rounding of the last step must not lift it out.
      const wet = setting.rollerHeight === 0 || z < setting.depth;
      const u = wet ? setting.current : 0;
      const along = [u * e[0] * e[0], u * e[0] * e[1]] as const;
      const across = [u - along[0], -along[1]] as const;
      const { across: ca, along: cl, diameter } = drag[i]!;
      const k = 0.5 * WATER * diameter;
      const f = [0, 1].map(
        (j) => k * (ca * Math.hypot(...across) * across[j]! + cl * Math.hypot(...along) * along[j]!),
      );
      const stretched = 1 + (part.stretch.kind === "linear" ? T / part.stretch.stiffness : 0);
      const w = part.massPerLength * GRAVITY * (1 - (wet ? WATER / part.density : 0));
      return [stretched * e[0], stretched * e[1], -stretched * f[0]!, w - stretched * f[1]!];
    };
    const steps = 1000;
    const h = part.length / steps;
    const on = (from: State, k: State, by: number): State => [
      from[0] + by * k[0],
      from[1] + by * k[1],
      from[2] + by * k[2],
      from[3] + by * k[3],
    ];
    for (let s = 0; s < steps; s++) {
      const k1 = rate(y);
      const k2 = rate(on(y, k1, h / 2));
      const k3 = rate(on(y, k2, h / 2));
      const k4 = rate(on(y, k3, h));
      y = [0, 1, 2, 3].map((j) => y[j]! + (h / 6) * (k1[j]! + 2 * k2[j]! + 2 * k3[j]! + k4[j]!)) as unknown as State;
    }
  }
  return y;
}

/** Recalled, as the program's documents say: DNV-OS-E301 for studless chain; a rough cylinder. */
const CHAIN: Coefficients = { across: 2.4, along: 1.15, diameter: 0.01 };
const ROPE: Coefficients = { across: 1.2, along: 0.03, diameter: 0.014 };
const own: LinePart = { ...rope, drag: { across: 1.9, along: 0.4 } };
const bare = ({ diameter: _, ...part }: LinePart): LinePart => part;
/** The circle that holds a rope's volume: A = mass per length over density. */
const roundOf = (part: LinePart): number => 2 * Math.sqrt(part.massPerLength / part.density / Math.PI);

describe("a rode in a current hangs as stepped anew from its anchor, both ends and span", () => {
  const rodes: [name: string, rode: readonly Part[], drag: readonly Coefficients[]][] = [
    ["chain", [chain], [CHAIN]],
    ["rope that stretches", [{ ...rope, length: 40 }], [ROPE]],
    ["chain and rope", [chain, rope], [CHAIN, ROPE]],
    [
      "chain, a kellet, a line of coefficients of its own",
      [chain, { kind: "point", name: "kellet", mass: 10, density: 7850 }, own],
      [CHAIN, CHAIN, { ...ROPE, across: 1.9, along: 0.4 }],
    ],
    ["a line without a diameter", [bare({ ...rope, length: 40 })], [{ ...ROPE, diameter: roundOf(rope) }]],
  ];
  describe.each(rodes)("%s", (_, rode, drag) => {
    it.each([1.5, 0.5, -0.5, -1.2])("in %d m/s", (current) => {
      const of = rig(current, rode);
      // Enough to lift it all, so that nothing rests.
      const answer = settled(of, { at: "horizontal", newtons: 4000 });
      expect(answer.grounded).toBe(0);
      const [x, z, H, V] = stepped(of, answer.anchor, drag);
      // Steps of some centimetres are good to 1e-9; a stated load in a current is closed to parts in a million.
      expect(Math.abs(z / 8 - 1)).toBeLessThan(1e-6);
      expect(Math.abs(x / answer.span - 1)).toBeLessThan(1e-6);
      expect(Math.abs(H / answer.horizontal - 1)).toBeLessThan(1e-6);
      expect(Math.abs(Math.hypot(H, V) / answer.bow.tension - 1)).toBeLessThan(1e-6);
      expect(Math.abs(Math.atan2(V, H) - answer.bow.angle)).toBeLessThan(1e-6);
    });
  });

  it("is dragged under water alone: with the roller far up, all above the surface weighs its weight in air and no flow", () => {
    const of = rig(1.5, [{ ...chain, length: 40 }], 6);
    const answer = settled(of, { at: "horizontal", newtons: 5000 });
    expect(answer.grounded).toBe(0);
    const [x, z, H] = stepped(of, answer.anchor, [CHAIN]);
    // A step across the surface mixes both media: a few hundredths of a metre of the rode's weight.
    expect(Math.abs(z / 14 - 1)).toBeLessThan(1e-4);
    expect(Math.abs(x / answer.span - 1)).toBeLessThan(1e-4);
    expect(Math.abs(H / answer.horizontal - 1)).toBeLessThan(1e-4);
  });
});

describe("a current from astern is none from ahead", () => {
  const horizontalAtAnchor = (answer: Settled): number => answer.anchor.tension * Math.cos(answer.anchor.angle);
  it("toward the boat it takes load off the bow's end, from astern it puts load on it", () => {
    const pull = { at: "horizontal", newtons: 4000 } as const;
    // Held at the bow alike, the anchor bears what the water adds toward the boat.
    const [toward, still, astern] = [1.2, 0, -1.2].map((u) => horizontalAtAnchor(settled(rig(u, [chain, rope]), pull)));
    expect(toward).toBeGreaterThan(still! + 10);
    expect(astern).toBeLessThan(still! - 10);
  });
  it("nearly straight, it drags by the closed form ½ρd(C_n U²sin³θ + C_t U²cos³θ)L along the horizontal", () => {
    const line: LinePart = { ...rope, length: 80, stretch: { kind: "rigid" }, drag: { across: 1.2, along: 0.8 } };
    const [sin, cos] = [0.1, Math.sqrt(1 - 0.01)];
    for (const U of [0.5, 1.5]) {
      const drag = 0.5 * WATER * 0.014 * U * U * 80 * (1.2 * sin ** 3 + 0.8 * cos ** 3);
      for (const sign of [1, -1]) {
        // Weight and drag bend it by less than a thousandth of a radian at such a load.
        const answer = settled(rig(sign * U, [line]), { at: "horizontal", newtons: 1e6 });
        const added = horizontalAtAnchor(answer) - answer.horizontal;
        expect(Math.abs(added / (sign * drag) - 1)).toBeLessThan(2e-3);
      }
    }
  });
  it("four times the drag at twice the speed, twice at twice the diameter", () => {
    const added = (U: number, diameter: number): number => {
      const answer = settled(rig(U, [{ ...rope, length: 80, diameter, stretch: { kind: "rigid" } }]), {
        at: "horizontal",
        newtons: 1e6,
      });
      return horizontalAtAnchor(answer) - answer.horizontal;
    };
    expect(added(1, 0.014) / added(0.5, 0.014)).toBeCloseTo(4, 2);
    expect(added(1, 0.028) / added(1, 0.014)).toBeCloseTo(2, 2);
  });
});
