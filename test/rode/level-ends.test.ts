/** A winch on a flat beach, and one below what it pulls. */
import { describe, expect, it } from "vitest";
import { endForcesOf, type Rig, readRig, settle, settleTraced, shapeOf, uncertaintyOf } from "../../src/rode/index.ts";
import { rodebench } from "../support/command-line.ts";

const CHAIN = "line: { length: 30 m, massPerLength: 2.3 kg/m, density: 7850 kg/m3, stiffness: 5 MN }";
const WEIGHT = 2.3 * 9.80665;
const rigOf = (setting: string, more = ""): Rig =>
  readRig(
    `format: rodebench/rig@1\nname: Beach\nsetting: { medium: air, ${setting} }\nrode: [${CHAIN}]\n${more}`,
    "rig.yaml",
  );

describe("a winch on a flat beach", () => {
  const flat = rigOf("rise: 0 m, bottomFriction: 0.6");

  it.each([
    ["bow", 1000],
    ["horizontal", 1000],
    ["anchor", 1000 - 0.6 * WEIGHT * 30],
  ] as const)("lies on it all along, and what rubs is the difference of the loads: stated at the %s", (at, newtons) => {
    const settled = settle(flat, { at, newtons });
    if (settled.kind !== "settled") throw new Error(settled.cause);
    expect(settled.bow).toEqual({ tension: expect.closeTo(1000, 9), angle: 0 });
    expect(settled.anchor.tension).toBeCloseTo(1000 - 0.6 * WEIGHT * 30, 9);
    expect([settled.anchor.angle, settled.grounded, settled.lifted]).toEqual([0, 30, 0]);
    // Stretch under a tension that falls straight from one end to the other.
    expect(settled.stretch).toBeCloseTo((30 * (1000 - 0.3 * WEIGHT * 30)) / 5e6, 12);
    expect(settled.span).toBeCloseTo(30 + settled.stretch, 12);
    expect(endForcesOf(flat)({ at, newtons })!.span).toBe(settled.span);
  });

  it("answers a span, slack or stretched, and the command says that there is no scope", async () => {
    const stretched = settle(flat, { at: "span", metres: 30.01 });
    if (stretched.kind !== "settled") throw new Error(stretched.cause);
    const back = settle(flat, { at: "bow", newtons: stretched.bow.tension });
    expect(back.kind === "settled" && back.span).toBeCloseTo(30.01, 10);
    expect(settle(flat, { at: "span", metres: 20 })).toMatchObject({ kind: "settled", span: 20, horizontal: 0 });
    const text = `format: rodebench/rig@1\nsetting: { medium: air, rise: 0 m }\nrode: [${CHAIN}]\n`;
    const { out, status } = await rodebench(["settle", "-", "--pull", "2kN", "--at", "bow"], { "-": text });
    expect(status).toBe(0);
    expect(out).toContain("none: the ends are level");
  });

  it("tends to it as the winch comes down", () => {
    const low = settle(rigOf("rise: 0.001 m, bottomFriction: 0.6"), { at: "bow", newtons: 1000 });
    const none = settle(flat, { at: "bow", newtons: 1000 });
    if (low.kind !== "settled" || none.kind !== "settled") throw new Error("both settle");
    // √(2 H h/w), some 0.3 m, lifts and does not rub.
    expect(Math.abs(low.anchor.tension / none.anchor.tension - 1)).toBeLessThan(0.01);
    expect(Math.abs(low.span - none.span)).toBeLessThan(1e-3);
  });

  it("says how sure it is", () => {
    const unsure = rigOf("rise: 0 m, bottomFriction: 0.6", "uncertainty: { massPerLength: 2 % }\n");
    const { firstOrder } = uncertaintyOf(unsure, { at: "bow", newtons: 1000 }, { draws: 200 })!;
    expect(firstOrder!.anchorTension).toBeCloseTo(0.02 * 0.6 * WEIGHT * 30, 6);
  });
});

describe("a winch below what it pulls", () => {
  it("is the same rode seen from its other end", () => {
    const below = settleTraced(rigOf("rise: -9 m"), { at: "anchor", newtons: 2000 });
    const above = settleTraced(rigOf("rise: 9 m"), { at: "bow", newtons: 2000 });
    if (!("settled" in below && "settled" in above)) throw new Error("both settle");
    const [a, b] = [below.settled, above.settled];
    expect(a.anchor).toEqual({ tension: b.bow.tension, angle: -b.bow.angle, angleToBottom: -b.bow.angle });
    expect(a.bow).toEqual({ tension: b.anchor.tension, angle: -b.anchor.angle });
    expect([a.span, a.sag, a.stretch, a.grounded]).toEqual([b.span, b.sag, b.stretch, b.grounded]);
    expect(a.energy.lift).toBeCloseTo(b.energy.lift - WEIGHT * 30 * 9, 8);
    const [drawn, seen] = [shapeOf(below), shapeOf(above)];
    expect([drawn.x[0], drawn.z[0]]).toEqual([expect.closeTo(0, 9), expect.closeTo(0, 9)]);
    expect([drawn.x.at(-1), drawn.z.at(-1)]).toEqual([expect.closeTo(a.span, 9), expect.closeTo(-9, 9)]);
    expect(drawn.tension[0]).toBeCloseTo(seen.tension.at(-1)!, 9);
  });

  it("on a beach that falls to it, rests on the beach", () => {
    const settled = settle(rigOf("rise: -1 m, bottomSlope: -6 deg, bottomFriction: 0.5"), { at: "bow", newtons: 200 });
    if (settled.kind !== "settled") throw new Error(settled.cause);
    expect(settled.grounded).toBeGreaterThan(1);
    expect((settled.anchor.angle * 180) / Math.PI).toBeCloseTo(-6, 9);
    // What hangs climbs from the beach at −6 deg·x to −1 m: T − w z is the same at both its ends.
    const lifted = settled.lifted;
    expect(lifted).toBeGreaterThan(0);
  });
});
