/**
 * Energy, sag and stretch of a rode in a current, against an integration of its own: from the bow down, by the classical
 * fourth-order rule with equal steps, of the equations dx/ds = (1 + ε) H/T, dz/ds = (1 + ε) V/T, dH/ds = −(1 + ε) f_x,
 * dV/ds = w − (1 + ε) f_z with Morison's steady drag, on which the sums of weight times height, strain and ½ T ε stand.
 */
import { describe, expect, it } from "vitest";
import { type LinePart, type Rig, readRig, settle, settleTraced } from "../../src/rode/index.ts";

const G = 9.80665;
const DRAG = { chain: { across: 2.4, along: 1.15 }, other: { across: 1.2, along: 0.03 } };

const rigOf = (current: string, rode: string, roller = "0 m"): Rig =>
  readRig(
    `format: rodebench/rig@1\nname: Stream\nsetting: { medium: water, depth: 8 m, rollerHeight: ${roller}, current: ${current} }\nrode: [${rode}]\n`,
    "stream.yaml",
  );
const ROPE = "line: { length: 30 m, massPerLength: 0.4 kg/m, density: 1400 kg/m3, stiffness: 60 kN, diameter: 20 mm }";
const CHAIN =
  "line: { length: 20 m, massPerLength: 2.3 kg/m, density: 7850 kg/m3, material: chain, diameter: 10 mm, stiffness: 6 MN }";

/** Sums from the bow down over what hangs, by part; stops at the anchor or where rode rests. */
function fromBow(rig: Rig, newtons: number) {
  const settled = settle(rig, { at: "bow", newtons });
  if (settled.kind !== "settled" || rig.setting.medium !== "water") throw new Error("settles in water");
  const { current: U, waterDensity: rho, depth, rollerHeight } = rig.setting;
  let [x, z, H, V] = [
    settled.span,
    depth + rollerHeight,
    settled.bow.tension * Math.cos(settled.bow.angle),
    settled.bow.tension * Math.sin(settled.bow.angle),
  ];
  let [lift, strain, stretch, sag] = [0, 0, 0, 0];
  let left = settled.lifted;
  const chord = Math.hypot(settled.span, depth + rollerHeight);
  for (const part of [...rig.rode].reverse() as LinePart[]) {
    const c = part.material === "chain" ? DRAG.chain : DRAG.other;
    const k = part.stretch.kind === "linear" ? 1 / part.stretch.stiffness : 0;
    const low = part.massPerLength * G * (1 - rho / part.density);
    const high = part.massPerLength * G;
    const length = Math.min(part.length, left);
    left -= length;
    const slopes = ([, z, H, V]: readonly number[]) => {
      const T = Math.hypot(H!, V!);
      const e = k * T;
      const [cos, sin] = [H! / T, V! / T];
      // The first step starts in the surface itself.
      const wet = z! < depth + 1e-9;
      const q = wet ? 0.5 * rho * part.diameter! * U * Math.abs(U) : 0;
      const n = q * c.across * Math.abs(sin);
      const t = q * c.along * Math.abs(cos) * cos;
      const energy = z! < depth ? low * z! : low * depth + high * (z! - depth);
      return [
        (1 + e) * cos,
        (1 + e) * sin,
        -(1 + e) * (n * sin * sin + t * cos),
        (wet ? low : high) - (1 + e) * (-n * sin * cos + t * sin),
        energy,
        0.5 * T * e,
        e,
      ];
    };
    const steps = 4000;
    const h = -length / steps;
    for (let i = 0; i < steps; i++) {
      const y = [x, z, H, V, lift, strain, stretch];
      const at = (k: number[], share: number) => y.map((each, j) => each + share * h * k[j]!);
      const k1 = slopes(y);
      const k2 = slopes(at(k1, 0.5));
      const k3 = slopes(at(k2, 0.5));
      const k4 = slopes(at(k3, 1));
      [x, z, H, V, lift, strain, stretch] = y.map(
        (each, j) => each + (h / 6) * (k1[j]! + 2 * k2[j]! + 2 * k3[j]! + k4[j]!),
      ) as [number, number, number, number, number, number, number];
      sag = Math.max(sag, ((depth + rollerHeight) * x - settled.span * z) / chord);
    }
  }
  return { settled, foot: { x, z }, lift: -lift, strain: -strain, stretch: -stretch, sag };
}

describe("a rode in a current", () => {
  it.each([
    ["rope against the stream", rigOf("1.5 m/s", ROPE), 400],
    ["rope with the stream", rigOf("-1 m/s", ROPE), 900],
    ["chain and rope", rigOf("1 m/s", `${CHAIN}, ${ROPE}`), 2500],
  ])("has the energy, sag and stretch of its weight and tension, not of its drag: %s", (_, rig, newtons) => {
    const own = fromBow(rig, newtons);
    // The integration comes down on the anchor: its sums are those of the same rode.
    expect(own.settled.grounded).toBe(0);
    expect(Math.hypot(own.foot.x, own.foot.z)).toBeLessThan(1e-7);
    // Equal steps of some millimetres: fourth order leaves 1e-9 or less.
    expect(Math.abs(own.settled.energy.lift / own.lift - 1)).toBeLessThan(1e-8);
    expect(Math.abs(own.settled.energy.stretch / own.strain - 1)).toBeLessThan(1e-8);
    expect(Math.abs(own.settled.stretch / own.stretch - 1)).toBeLessThan(1e-8);
    // The largest of equally spaced points falls short of the deepest by the square of half their distance.
    expect(Math.abs(own.settled.sag - own.sag)).toBeLessThan(1e-6 * own.sag + 1e-9);
  });

  it("through the surface weighs in air what is above it", () => {
    const own = fromBow(rigOf("1 m/s", ROPE, "1.5 m"), 700);
    // The step in which it comes through the surface is not split here: one step of 4000, with two weights in it.
    expect(Math.hypot(own.foot.x, own.foot.z)).toBeLessThan(0.01);
    expect(Math.abs(own.settled.energy.lift / own.lift - 1)).toBeLessThan(1e-3);
  });

  it("part by part adds up to the whole", () => {
    const traced = settleTraced(rigOf("1 m/s", `${CHAIN}, ${ROPE}`), { at: "bow", newtons: 900 });
    if (!("settled" in traced)) throw new Error(traced.cause);
    const { byPart } = traced.integrals;
    const sum = (parts: Float64Array) => parts.reduce((a, b) => a + b, 0);
    expect(sum(byPart.lift)).toBeCloseTo(traced.settled.energy.lift, 9);
    expect(sum(byPart.strain)).toBeCloseTo(traced.settled.energy.stretch, 9);
    expect(sum(byPart.stretch)).toBeCloseTo(traced.settled.stretch, 12);
  });
});
