/** A plan file field by field, its candidates, ropes between the catalogue's sizes, and what is summed over loads: each worked out here. */
import { describe, expect, it } from "vitest";
import { catalogue, findChain, type RopeRow } from "../../src/gear/index.ts";
import { endForcesOf } from "../../src/rode/index.ts";
import { inertiaOf } from "../../src/sea/index.ts";
import { canTabulate, read, tabulate } from "../../src/sizing/below-hook.ts";
import { readAt } from "../../src/sizing/catenary-end.ts";
import { quickInputs } from "../../src/sizing/certainty.ts";
import { movementOver } from "../../src/sizing/give-curve.ts";
import { giveOverLoads } from "../../src/sizing/give-over-loads.ts";
import { facts, givePerLoad, loadAt, planPaths, readPlan, ropeOf } from "../../src/sizing/index.ts";
import { readDiameter, readRopeName, rowsOf, scaledLaw } from "../../src/sizing/rope-choice.ts";
import { energyOf, snatchForce } from "../../src/sizing/snatch.ts";
import { unitLaw } from "../../src/sizing/snubber-column.ts";
import { springOf } from "../../src/sizing/spring.ts";
import { allChain, inAir, mixed, rigOf, settled, straightRope } from "./rigs.ts";

const KNOT = 1852 / 3600;
const setting = { medium: "water", depth: "8 m", rollerHeight: "1.5 m" };
const chain = (size = "10 mm") => ({ chain: { grade: "30", size, length: "45 m" } });
const boat = {
  format: "rodebench/boat@1",
  name: "invented",
  ...{ length: "9 m", waterline: "8 m", beam: "3 m", draught: "1.5 m", bodyDraught: "0.5 m" },
  ...{ displacement: "4000 kg", bowRollerHeight: "1 m" },
  windage: { shapes: [{ hull: { freeboard: "1.1 m" } }] },
};
const fields = (over: object = {}) => ({
  format: "rodebench/plan@1",
  setting,
  load: { mean: "2 kN" },
  candidates: [{ rode: [chain()] }],
  ...over,
});
const plan = (over: object = {}) => readPlan(JSON.stringify(fields(over)), "plan.json");

describe("a plan", () => {
  it("has its name, loads and currency; what it does not say is the usual", () => {
    expect(plan()).toMatchObject({
      name: "plan",
      load: { kind: "stated", at: "bow", mean: { value: 2000, u: 0 } },
      ...{ limits: { workingLoad: 1 }, winds: [], loads: [] },
    });
    const bare = plan();
    for (const none of ["surge", "surgeU", "criteria", "currency"]) expect(bare).not.toHaveProperty(none);
    expect(plan({ name: "own", loads: ["1 kN", 500], currency: "EUR", criteria: ["weight", "peak"] })).toMatchObject({
      ...{ name: "own", loads: [1000, 500], currency: "EUR", criteria: ["weight", "peak"] },
    });
    expect(plan().candidates[0]).toMatchObject({ ends: "spliced", rig: { name: "rode", setting: { depth: 8 } } });
  });
  it("states a load with its ±, and a peak as unsure as it is higher", () => {
    expect(plan({ load: { mean: "2 kN", peak: "3 kN", u: "100 N", at: "anchor" } }).load).toEqual({
      kind: "stated",
      at: "anchor",
      mean: { value: 2000, u: 100 },
      peak: { value: 3000, u: 150 },
    });
    expect(plan({ load: { mean: "2 kN", peak: "2 kN" } }).load).toMatchObject({ peak: { value: 2000, u: 0 } });
    expect(() => plan({ load: { mean: "2 kN", peak: "1.9 kN" } })).toThrow("not below the mean");
    expect(() => plan({ load: { mean: "0 kN" } })).toThrow("load.mean");
    expect(() => plan({ load: { mean: "1 kN", u: "-1 N" } })).toThrow("zero or more");
    expect(() => plan({ load: {} })).toThrow("neither mean nor wind");
    expect(() => plan({ load: { mean: "2 kN", wind: "20 kn" } })).toThrow("both mean and wind");
    for (const only of [{ by: "windage" }, { gust: "froya" }])
      expect(() => plan({ load: { mean: "2 kN", ...only } })).toThrow("a wind is expected with it");
  });
  it("has a wind on a boat instead, by windage or as it was measured, with its gusts", () => {
    const load = plan({ load: { wind: "20 kn", u: "2 kn", boat, gust: "kaimal-b" }, winds: ["10 kn", "30 kn"] });
    expect(load.load).toMatchObject({
      kind: "wind",
      wind: { value: expect.closeTo(20 * KNOT, 9), u: expect.closeTo(2 * KNOT, 9) },
      by: "windage",
      conditions: { gust: { model: { kind: "kaimal", turbulence: "B" }, averaging: 600, duration: 3 } },
    });
    expect(load.winds).toEqual([expect.closeTo(10 * KNOT, 9), expect.closeTo(30 * KNOT, 9)]);
    const gusts = {
      froya: { kind: "froya" },
      "kaimal-a": { kind: "kaimal", turbulence: "A" },
      "kaimal-c": { kind: "kaimal", turbulence: "C" },
      "ochi-shin": { kind: "ochi-shin" },
    };
    for (const [gust, model] of Object.entries(gusts)) {
      const { load: one } = plan({ load: { wind: "20 kn", boat, gust } });
      expect(one.kind === "wind" && one.conditions.gust?.model).toEqual(model);
    }
    const calm = plan({ load: { wind: "20 kn", boat } }).load;
    expect(calm.kind === "wind" && calm.conditions.gust).toBeFalsy();
    const { windage: _, ...bare } = boat;
    expect(() => plan({ load: { wind: "20 kn", boat: bare } })).toThrow("windage or measured points");
    expect(() => plan({ load: { wind: "20 kn", boat, by: "measured" } })).toThrow("a boat with measured points");
    expect(() => plan({ load: { wind: "20 kn" } })).toThrow("load.boat");
    expect(() => plan({ load: { wind: "20 kn", boat, at: "bow" } })).toThrow("no end is expected");
    expect(() => plan({ load: { wind: "20 kn", boat, peak: "3 kN" } })).toThrow("a mean is expected with it");
    expect(() => plan({ load: { wind: "101 m/s", boat } })).toThrow("at most 100 m/s");
    expect(() => plan({ load: { wind: "100 m/s", boat } })).not.toThrow();
    expect(() => plan({ load: { mean: "2 kN" }, winds: ["20 kn"] })).toThrow("winds without a boat");
    expect(() => plan({ load: { wind: "20 kn", boat }, winds: ["101 m/s"] })).toThrow("winds #1");
  });
  it("has a surge at a speed or over a distance", () => {
    expect(plan({ surge: { speed: "1 kn", mass: "8 t", u: "0.2 kn" } })).toMatchObject({
      surge: { kind: "speed", speed: expect.closeTo(KNOT, 9), mass: 8000 },
      surgeU: expect.closeTo(0.2 * KNOT, 9),
    });
    expect(plan({ surge: { distance: "0.8 m", u: "10 cm" } })).toMatchObject({
      surge: { kind: "distance", distance: 0.8 },
      surgeU: 0.1,
    });
    expect(plan({ surge: { distance: "0.8 m" } }).surgeU).toBe(0);
    const { surge } = plan({ load: { wind: "20 kn", boat }, surge: { speed: "1 kn" } });
    const load = plan({ load: { wind: "20 kn", boat } }).load;
    if (load.kind !== "wind" || surge?.kind !== "speed") throw new Error("a wind is expected");
    expect(surge.mass).toBe(inertiaOf(load.boat).surge.value);
    expect(plan({ load: { wind: "20 kn", boat }, surge: { speed: "1 kn", mass: "8 t" } }).surge).toMatchObject({
      mass: 8000,
    });
    expect(() => plan({ surge: { speed: "1 kn" } })).toThrow("surge.mass");
    expect(() => plan({ surge: { distance: "1 m", mass: "8 t" } })).toThrow("a speed is expected with it");
    expect(() => plan({ surge: { speed: "1 kn", mass: "8 t", distance: "1 m" } })).toThrow("both speed and distance");
    expect(() => plan({ surge: { mass: "8 t" } })).toThrow("neither speed nor distance");
    expect(() => plan({ surge: { speed: "10.1 m/s", mass: "8 t" } })).toThrow("at most 10 m/s");
  });
  it("has limits, each in its unit; working loads hold unless another measure is taken", () => {
    expect(
      plan({
        limits: {
          ...{ workingLoad: "80 %", breakingLoad: "40 %", ropeShare: "25 %", anchorAngle: "0 deg", peak: "8 kN" },
          ...{ weight: "120 kg", volume: "0.08 m3", span: "60 m", price: 900 },
        },
      }).limits,
    ).toEqual({
      ...{ workingLoad: 0.8, breakingLoad: 0.4, ropeShare: 0.25, anchorAngle: 0, peak: 8000 },
      ...{ weight: 120, volume: 0.08, span: 60, price: 900 },
    });
    expect(plan({ limits: { strength: "25 %" } }).limits).toEqual({ strength: 0.25 });
    expect(plan({ limits: { strength: "25 %", workingLoad: "90 %" } }).limits).toEqual({
      strength: 0.25,
      workingLoad: 0.9,
    });
    expect(() => plan({ limits: { weight: "0 kg" } })).toThrow("limits.weight");
    expect(() => plan({ limits: { anchorAngle: "-1 deg" } })).toThrow("limits.anchorAngle");
  });
  it("names its candidates, each once, and the files they come from", () => {
    const file = JSON.stringify(
      fields({
        load: { wind: "20 kn", boat: "b.yaml" },
        candidates: [{ rig: "a.yaml" }, { rig: "a.yaml", name: "x" }, { rode: [chain()] }],
      }),
    );
    expect(planPaths(file, "plan.json")).toEqual(["b.yaml", "a.yaml"]);
    const rig = {
      text: JSON.stringify({ format: "rodebench/rig@1", name: "own rig", setting, rode: [chain("8 mm")] }),
      place: "a.yaml",
    };
    const found = readPlan(file, "plan.json", {
      "a.yaml": rig,
      "b.yaml": { text: JSON.stringify(boat), place: "b.yaml" },
    });
    expect(found.candidates.map(({ name }) => name)).toEqual(["own rig", "x", found.candidates[2]!.rig.rode[0]!.name]);
    expect(() => readPlan(file, "plan.json", { "b.yaml": { text: JSON.stringify(boat), place: "b.yaml" } })).toThrow(
      "a readable rig file",
    );
    expect(() => readPlan(file, "plan.json", { "a.yaml": rig })).toThrow("a readable boat file");
    expect(() => plan({ candidates: [{ rode: [chain()] }, { rode: [chain()] }] })).toThrow("a name of its own");
    expect(() => plan({ candidates: [] })).toThrow("at least one candidate");
    expect(() => plan({ candidates: [{ rode: [chain()], rig: "a" }] })).toThrow("both rode and rig");
    expect(() => plan({ candidates: [{ name: "x" }] })).toThrow("neither rode nor rig");
    expect(() => plan({ setting: undefined })).toThrow("the plan's setting is expected");
    expect(plan({ uncertainty: { massPerLength: "3 %" } }).candidates[0]!.rig.uncertainty).toEqual({
      massPerLength: 0.03,
    });
    expect(() => plan({ criteria: ["price"] })).toThrow("price of every candidate");
    expect(plan({ criteria: ["price"], candidates: [{ rode: [chain()], price: 0 }] }).candidates[0]!.price).toBe(0);
  });
  it("hangs a snubber on a candidate", () => {
    const of = (snubber: object) =>
      plan({ candidates: [{ rode: [chain()], snubber: { diameter: "14 mm", length: "9 m", ...snubber } }] })
        .candidates[0]!;
    const plain = of({});
    expect(plain.snubber).toMatchObject({
      length: 9,
      hooked: "veered",
      rope: { fibre: "polyamide", lay: "three-strand", diameter: 0.014 },
    });
    expect(plain.snubber).not.toHaveProperty("slack");
    expect(plain.snubber).not.toHaveProperty("bridle");
    expect(of({ within: true, slack: "0 m", ends: "knotted" })).toMatchObject({
      ends: "knotted",
      snubber: { hooked: "within", slack: 0 },
    });
    expect(of({ within: false, slack: "3 m" }).snubber).toMatchObject({ hooked: "veered", slack: 3 });
    expect(of({ beam: "2.4 m", heading: "20 deg" }).snubber!.bridle).toEqual({
      beam: 2.4,
      heading: expect.closeTo((20 * Math.PI) / 180, 12),
    });
    expect(of({ beam: "2.4 m" }).snubber!.bridle).toEqual({ beam: 2.4, heading: 0 });
    expect(() => of({ heading: "20 deg" })).toThrow("a beam is expected");
    expect(() => of({ beam: "2 m", heading: "90 deg" })).toThrow("within 90 deg");
    expect(() => of({ beam: "2 m", heading: "-89 deg" })).not.toThrow();
    expect(() => of({ length: "0 m" })).toThrow("snubber.length");
  });
  it("takes of each grade the lightest chain that is as strong", () => {
    const chains = (of: object) =>
      plan({ candidates: undefined, chains: { grades: ["30", "43"], length: "45 m", ...of } }).candidates;
    const own = findChain({ grade: "30", size: "10 mm" }, catalogue, "x");
    const [same, stronger] = chains({ asStrongAs: { grade: "30", size: "10 mm" } });
    const lineOf = (one: typeof same) =>
      one!.rig.rode[0] as { massPerLength: number; workingLoad: number; length: number };
    expect(lineOf(same).length).toBe(45);
    for (const [one, grade] of [
      [same, "30"],
      [stronger, "43"],
    ] as const) {
      expect(lineOf(one).workingLoad).toBeGreaterThanOrEqual(own.workingLoad! * 0.999);
      for (const row of catalogue.rows)
        if (row.kind === "chain" && row.grade === grade && (row.workingLoad ?? 0) >= own.workingLoad! * 0.999)
          expect(row.massPerLength).toBeGreaterThanOrEqual(lineOf(one).massPerLength);
    }
    expect(lineOf(stronger).massPerLength).toBeLessThan(lineOf(same).massPerLength);
    expect(same).toMatchObject({ ends: "spliced", name: same!.rig.rode[0]!.name });
    expect(chains({ workingLoad: "1 kN", grades: ["G30"] })).toHaveLength(1);
    expect(() => chains({})).toThrow("neither workingLoad nor asStrongAs");
    expect(() => chains({ workingLoad: "1 kN", asStrongAs: { grade: "30", size: "10 mm" } })).toThrow(
      "both workingLoad and asStrongAs",
    );
    expect(() => chains({ workingLoad: "1 kN", grades: ["30", "none such"] })).toThrow("grades #2");
    expect(() => chains({ workingLoad: "1000 kN" })).toThrow("a chain as strong as that");
    expect(() => chains({ workingLoad: "0 N" })).toThrow("a load above zero");
  });
});

describe("a rope between the catalogue's sizes", () => {
  const wanted = { fibre: "polyamide", lay: "three-strand" };
  const rows = rowsOf(wanted, catalogue, "rope");
  const metric = rows.filter(({ size }) => size.endsWith("mm"));
  it("weighs and holds by its diameter squared, straight between its neighbours, its curve by its strength", () => {
    const [below, above] = [metric[2]!, metric[3]!] as [RopeRow, RopeRow];
    const share = 0.25;
    const diameter = below.diameter + share * (above.diameter - below.diameter);
    const rope = ropeOf({ ...wanted, diameter }, catalogue, "rope");
    const per = (of: (row: RopeRow) => number) => {
      const [a, b] = [of(below) / below.diameter ** 2, of(above) / above.diameter ** 2];
      return (a + share * (b - a)) * diameter ** 2;
    };
    expect(rope.breakingLoad).toBeCloseTo(
      per((row) => row.breakingLoad!),
      6,
    );
    expect(rope.massPerLength).toBeCloseTo(
      per((row) => row.massPerLength),
      9,
    );
    expect(rope.wetBreakingLoad / rope.breakingLoad).toBeCloseTo(
      (below.wetBreakingLoad ?? below.breakingLoad!) / below.breakingLoad!,
      12,
    );
    expect(rope).toMatchObject({
      from: "scaled",
      diameter,
      density: below.density,
      fibre: "polyamide",
      lay: "three-strand",
    });
    if (rope.stretch.kind !== "curve" || below.stretch.kind !== "curve") throw new Error("curves are expected");
    const scale = rope.breakingLoad / below.breakingLoad!;
    expect(rope.stretch.points).toEqual(
      below.stretch.points.map(([strain, load]) => [strain, expect.closeTo(load * scale, 6)]),
    );
    // Nearer to the upper size it is that one's curve.
    const near = ropeOf(
      { ...wanted, diameter: above.diameter - 0.2 * (above.diameter - below.diameter) },
      catalogue,
      "rope",
    );
    expect(near.stretchU).toBe(above.uncertainty.stretch ?? 0);
  });
  it("of a size it has is the row itself; beyond the ends it goes on, to half the least and twice the most", () => {
    const [first, last] = [rows[0]!, rows.at(-1)!];
    for (const row of [metric[1]!, first, last]) {
      const own = ropeOf({ ...wanted, diameter: row.diameter + 1e-5 }, catalogue, "rope");
      expect(own).toMatchObject({
        from: "row",
        name: row.name,
        diameter: row.diameter,
        breakingLoad: row.breakingLoad,
        massPerLength: row.massPerLength,
      });
    }
    const thick = ropeOf({ ...wanted, diameter: 1.5 * metric.at(-1)!.diameter }, catalogue, "rope");
    if (metric.at(-1)! === last) expect(thick.breakingLoad / last.breakingLoad!).toBeCloseTo(2.25, 9);
    expect(() => ropeOf({ ...wanted, diameter: 0.499 * first.diameter }, catalogue, "rope")).toThrow("rope.diameter");
    expect(() => ropeOf({ ...wanted, diameter: 2.001 * last.diameter }, catalogue, "rope")).toThrow("rope.diameter");
    expect(() => ropeOf({ ...wanted, diameter: 0.501 * first.diameter }, catalogue, "rope")).not.toThrow();
    expect(() => ropeOf({ ...wanted, fibre: "straw", diameter: 0.014 }, catalogue, "rope")).toThrow("rope");
    expect(rows.every((row, i) => i === 0 || row.diameter >= rows[i - 1]!.diameter)).toBe(true);
  });
  it("is named by fibre and lay, and has a diameter above zero", () => {
    expect(readRopeName(" polyamide, three-strand ", "x")).toEqual({ fibre: "polyamide", lay: "three-strand" });
    for (const text of ["polyamide", "a b c"]) expect(() => readRopeName(text, "x")).toThrow("a fibre and a lay");
    expect(readDiameter("14 mm", "x")).toBe(0.014);
    expect(() => readDiameter("0 mm", "x")).toThrow("above zero");
  });
  it("as many times as strong has every load so many times", () => {
    expect(scaledLaw({ kind: "linear", stiffness: 10 }, 3)).toEqual({ kind: "linear", stiffness: 30 });
    expect(scaledLaw({ kind: "curve", points: [[0.1, 10]] }, 3)).toEqual({ kind: "curve", points: [[0.1, 30]] });
    expect(scaledLaw({ kind: "rigid" }, 3)).toEqual({ kind: "rigid" });
    const rope = ropeOf({ ...wanted, diameter: 0.014 }, catalogue, "rope");
    expect(loadAt(unitLaw(rope.stretch, rope.breakingLoad), 0.1) * rope.breakingLoad).toBeCloseTo(
      loadAt(rope.stretch, 0.1),
      8,
    );
  });
});

describe("sums over loads", () => {
  it("a movement is ∫ dU/H, of fourth order from three energies", () => {
    // U = H^1.7 from 500 to 800 N: ∫ dU/H = 1.7/0.7 (H₂^0.7 − H₁^0.7).
    const energy = (u: number) => Math.exp(1.7 * u);
    const [a, b] = [Math.log(500), Math.log(800)];
    const exact = (1.7 / 0.7) * (800 ** 0.7 - 500 ** 0.7);
    const whole = movementOver(a, b, energy(a), energy((a + b) / 2), energy(b));
    const c = (a + b) / 2;
    const halves =
      movementOver(a, c, energy(a), energy((a + c) / 2), energy(c)) +
      movementOver(c, b, energy(c), energy((b + c) / 2), energy(b));
    expect(Math.abs(whole / exact - 1)).toBeLessThan(1e-4);
    expect(Math.abs(halves - exact) / Math.abs(whole - exact)).toBeLessThan(1 / 12);
  });
  it("gives per load are those at each load, none below zero, none where nothing rests", () => {
    const { weight, stretch } = giveOverLoads(mixed, "bow", [0, -5, 50, 1500, 4000]);
    expect([weight[0], weight[1], stretch[0], weight[2]]).toEqual([Number.NaN, Number.NaN, Number.NaN, Number.NaN]);
    for (const [i, load] of [
      [3, 1500],
      [4, 4000],
    ] as const) {
      const H = endForcesOf(mixed)({ at: "bow", newtons: load })!.horizontal;
      const seen = givePerLoad(mixed, H, "bow")!;
      expect([weight[i], stretch[i]]).toEqual([seen.weight, seen.stretch]);
      expect(seen.whole).toBeCloseTo(seen.weight + seen.stretch, 15);
    }
    const at = settled(mixed, 2000);
    expect([readAt(at, "bow"), readAt(at, "anchor"), readAt(at, "horizontal")]).toEqual([
      at.bow.tension,
      at.anchor.tension,
      at.horizontal,
    ]);
  });
  it("a boat brings half her mass times her speed squared; in waves that of her largest surge", () => {
    expect(energyOf({ kind: "speed", speed: 0.6, mass: 5000 })).toBe(900);
    const waves = { kind: "waves", largest: 0.5, period: 4, mass: 5000 } as Parameters<typeof energyOf>[0];
    expect(energyOf(waves)).toBeCloseTo(0.5 * 5000 * ((2 * Math.PI * 0.5) / 4) ** 2, 9);
    const spring = springOf(straightRope);
    expect(snatchForce(straightRope, 800, { kind: "distance", distance: 0.3 })).toBe(spring.forceMoved(0.3, 800));
    expect(snatchForce(straightRope, 800, { kind: "speed", speed: 0.6, mass: 5000 })).toBe(
      spring.forceTaking(900, 800),
    );
    const least = Math.min(spring.forceTaking(energyOf(waves), 800), spring.forceMoved(0.5, 800));
    expect(snatchForce(straightRope, 800, waves)).toBe(least);
    expect(snatchForce(straightRope, 800, { ...waves, largest: 0.05 } as typeof waves)).toBeLessThan(least);
  });
  it("rope worked quickly is less sure, chain by its guessed stretch", () => {
    const names = (of: typeof mixed) => quickInputs(of).map(({ input }) => input);
    expect([names(mixed), names(allChain), names(straightRope)]).toEqual([
      ["stretch", "metalStretch"],
      ["metalStretch"],
      ["stretch"],
    ]);
    // A weight on the chain is no rope.
    const weight = { kind: "point", name: "weight", mass: 9, density: 7850 } as const;
    expect(names({ ...allChain, rode: [...allChain.rode, weight] })).toEqual(["metalStretch"]);
    expect(quickInputs(mixed)[0]!.u).toBe(facts.rope.quick.u);
  });
});

describe("the rode below a hook", () => {
  it("can be tabulated on a level bottom, in still water, with nothing that floats", () => {
    expect([allChain, mixed, inAir].map(canTabulate)).toEqual([true, true, true]);
    const afloat = "medium: water, depth: 8 m, rollerHeight: 1.5 m";
    for (const [setting, part] of [
      [`${afloat}, bottomSlope: 1 deg`, "chain: { grade: 30, size: 10 mm, length: 45 m }"],
      [`${afloat}, current: 0.1 m/s`, "chain: { grade: 30, size: 10 mm, length: 45 m }"],
      [afloat, "line: { length: 30 m, massPerLength: 0.12 kg/m, density: 910 }"],
    ] as const)
      expect(canTabulate(rigOf(setting, part)), setting).toBe(false);
  });
  it("is a table of the equilibria themselves, read between them", () => {
    const forces = Float64Array.of(800, 2500);
    const table = tabulate(allChain, 0, 40, forces, 14);
    expect(table.highest).toBeCloseTo(Math.sqrt(9.5), 12);
    const own = (height: number, k: number) => {
      const part = { ...allChain.rode[0]!, length: 40 } as (typeof allChain.rode)[number];
      const water = {
        ...allChain.setting,
        depth: Math.min(8, height),
        rollerHeight: Math.max(0, height - 8),
      } as typeof allChain.setting;
      return endForcesOf({ ...allChain, setting: water, rode: [part] })({ at: "horizontal", newtons: forces[k]! })!;
    };
    for (const k of [0, 1])
      for (const height of [2.2, 6, 9.1]) {
        const exact = own(height, k);
        const root = Math.sqrt(height);
        expect(read(table, table.out, k, root)).toBeCloseTo(exact.span, 2);
        expect(read(table, table.hold, k, root) / (exact.horizontal * Math.tan(exact.bowAngle))).toBeCloseTo(1, 2);
        expect(read(table, table.angle, k, root)).toBeCloseTo(exact.angleToBottom, 2);
      }
    // At its nodes it is exact.
    const node = (table.highest * 5) / 13;
    expect(read(table, table.out, 0, node)).toBeCloseTo(own(node ** 2, 0).span, 9);
  });
});
