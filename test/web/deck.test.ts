import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { checkFields, isId, type Kind } from "../../src/record/index.ts";
import { settle } from "../../src/rode/index.ts";
import { planSeries, readSeries } from "../../src/series/index.ts";
import { rng } from "../../src/statistics/index.ts";
import { holdSoFar, howPulled } from "../../src/study/index.ts";
import { setupCodec } from "../../src/web/deck/address.ts";
import { pullOf } from "../../src/web/deck/begin.ts";
import { holdEvents, ruleOf } from "../../src/web/deck/hold-events.ts";
import { atTheAnchor, atTheBow, deploymentOfPull, giveNear, weakestOf } from "../../src/web/deck/loads.ts";
import { setupPlanned } from "../../src/web/deck/planned-setup.ts";
import {
  type DeckPull,
  deployedAt,
  endOf,
  type Happened,
  loadsOf,
  rowsOf,
  stepOf,
  undoable,
} from "../../src/web/deck/pull.ts";
import { beginRecords, endRecords, markIdOf, typedLogRecords } from "../../src/web/deck/pull-records.ts";
import { stepsTyped, usualSetup } from "../../src/web/deck/setup-state.ts";
import { meanTilt, turned } from "../../src/web/deck/tilt.ts";
import { exampleState } from "../../src/web/rig/state.ts";

const DEGREE = Math.PI / 180;
const NOW = Date.UTC(2026, 5, 2, 8, 0, 0);
const fresh = pullOf({ ...usualSetup, anchor: "Plough A", code: " x9-22e" }, exampleState.rig, NOW);
const having = (...happened: readonly (Happened & { readonly at?: number })[]): DeckPull => ({
  ...fresh,
  events: happened.map(({ at, ...one }, n) => ({ at: at ?? NOW + 1000 * n, ...one, n }) as DeckPull["events"][number]),
});
const load = (newtons: number) => ({ kind: "load", newtons }) as const;

describe("a pull under way", () => {
  it("loses nothing that was taken back, and shows nothing of it", () => {
    const pull = having(load(500), load(15_000), { kind: "takenBack", of: 1 }, load(1500));
    expect(loadsOf(pull).map(({ newtons }) => newtons)).toEqual([500, 1500]);
    expect(pull.events).toHaveLength(4);
    expect(endOf(pull, NOW).load).toBe(1500);
  });

  it("never sends a row whose load may still be taken back, and never moves a row it sent", () => {
    const step = fc.oneof(
      fc.integer({ min: 1, max: 5000 }).map((newtons) => load(newtons)),
      fc.constant({ kind: "moved" } as const),
      fc.constant("back" as const),
    );
    fc.assert(
      fc.property(fc.array(step, { maxLength: 40 }), (touches) => {
        let pull: DeckPull = fresh;
        let sent: readonly number[] = [];
        for (const touch of touches) {
          const last = undoable(pull);
          if (touch === "back" && last === null) continue;
          const one: Happened = touch === "back" ? { kind: "takenBack", of: last!.n } : touch;
          pull = { ...pull, events: [...pull.events, { ...one, n: pull.events.length, at: NOW }] };
          const rows = rowsOf(pull).map(({ n }) => n);
          expect(rows.slice(0, sent.length)).toEqual(sent.slice(0, rows.length));
          // What was sent is among what stands, ever after.
          for (const n of sent) expect(loadsOf(pull).map((event) => event.n)).toContain(n);
          if (rows.length > sent.length) sent = rows;
        }
        const ended: DeckPull = { ...pull, ended: endOf(pull, NOW) };
        expect(rowsOf(ended)).toEqual(loadsOf(ended));
        expect(
          rowsOf(ended)
            .map(({ n }) => n)
            .slice(0, sent.length),
        ).toEqual(sent);
      }),
    );
  });

  it("holds from the first reading at the load asked, until one falls below it, a step, a moving or a giving way", () => {
    const question = { asked: 1000, rule: ruleOf(fresh), direction: null, give: null };
    const at = (pull: DeckPull) => {
      const { since } = holdSoFar(holdEvents(pull, []), question);
      return since === null ? null : 1000 * since;
    };
    expect(at(having(load(500)))).toBeNull();
    expect(at(having(load(500), load(990), load(1020)))).toBe(NOW + 1000);
    expect(at(having(load(990), load(700)))).toBeNull();
    expect(at(having(load(990), load(700), load(1000)))).toBe(NOW + 2000);
    expect(at(having(load(990), { kind: "step", step: 1 }))).toBeNull();
    expect(at(having(load(990), { kind: "gaveWay" }))).toBeNull();
    expect(at(having(load(990), { kind: "moved" }))).toBeNull();
    expect(at(having(load(990), { kind: "moved" }, { kind: "takenBack", of: 1 }))).toBe(NOW);
    expect(stepOf(having({ kind: "step", step: 1 }, { kind: "step", step: 2 }, { kind: "takenBack", of: 1 }))).toBe(1);
  });

  it("ends as what was touched suggests: the highest load before it gave way, else the highest held", () => {
    expect(endOf(having(load(500), load(900), { kind: "gaveWay" }, load(1200)), 1)).toMatchObject({
      kind: "gaveWay",
      load: 900,
      at: 1,
    });
    expect(endOf(having(load(500), load(900), load(800)), 1)).toEqual({
      kind: "heldTo",
      load: 900,
      at: 1,
      steps: [{ load_N: 800, duration_s: 2 }],
    });
    expect(endOf(having({ kind: "moved" }), 1)).toEqual({ kind: "none", load: null, at: 1, steps: [] });
  });

  it("ends with what was out at its load: gave way after the veer, or held the most before it", () => {
    const veered = { ...fresh, steps: stepsTyped("1 kN, veer 45 m, 1 kN, 2 kN", 60) };
    const pulled = [{ kind: "step", step: 1 }, load(1000), { kind: "step", step: 2 }, load(200)] as const;
    const end = (...more: Happened[]) => endOf({ ...veered, events: having(...pulled, ...more).events }, 1);
    expect(end({ kind: "step", step: 3 }, load(900), { kind: "gaveWay" })).toMatchObject({
      kind: "gaveWay",
      load: 900,
      paidOut: 45,
      steps: [{ load_N: 1000 }, { load_N: 200, paidOut_m: 45 }, { load_N: 900, paidOut_m: 45 }],
    });
    const held = end({ kind: "step", step: 3 }, load(900));
    expect([held.kind, held.load, held.paidOut]).toEqual(["heldTo", 1000, undefined]);
    expect(held.steps?.[0]).toEqual({ load_N: 1000, duration_s: 0 });
    const ended = { ...veered, events: [], ended: end({ kind: "step", step: 4 }, load(2100), { kind: "gaveWay" }) };
    const [pull] = endRecords(ended, markIdOf(ended));
    expect(pull!.set.result).toEqual({ kind: "gaveWay", load_N: 2100, u_N: 20, paidOut_m: 45 });
    expect(() => checkFields("pull", pull!.set)).not.toThrow();
  });
});

describe("what goes into the book", () => {
  it("is records the book takes, with ids of its form that are the same each time", () => {
    const pull: DeckPull = {
      ...having(
        { kind: "step", step: 1 },
        load(900),
        { kind: "moved" },
        { kind: "angle", angle: 0.2, u: 0.01 },
        { kind: "gaveWay" },
      ),
      ended: null,
    };
    const ended = { ...pull, ended: endOf(pull, NOW + 9000) };
    const records = [...beginRecords(pull), ...typedLogRecords(pull), ...endRecords(ended, markIdOf(ended))];
    for (const { kind, id, set } of records) {
      expect(isId(id), kind).toBe(true);
      expect(() => checkFields(kind as Kind, set)).not.toThrow();
    }
    expect(new Set(records.map(({ id }) => id)).size).toBe(records.length - 1);
    expect(endRecords(ended, markIdOf(ended))).toEqual(endRecords(ended, markIdOf(ended)));
    expect(records.filter(({ kind }) => kind === "mark").map(({ set }) => set.kind)).toEqual([
      "step",
      "note",
      "note",
      "drag",
    ]);
    expect(records.at(-5)).toMatchObject({
      kind: "pull",
      set: { result: { kind: "gaveWay", load_N: 900, u_N: 20 }, endedBy: "drag" },
    });
  });
});

describe("the hold rule of a pull on deck", () => {
  const { pulls } = planSeries(readSeries(readFileSync("data/series/creek-trial.yaml", "utf8"), "creek.yaml"));
  const series = { hold: 60, holdRule: { heldFor: 30, heldWithin: 0.5 } };
  const setup = setupPlanned(pulls[0]!, series)!;

  it("comes from the plan, through the address, and goes into the pull's record, by which Days judges", () => {
    expect(setupCodec.read(setupCodec.write(setup))).toMatchObject({
      state: { heldFor: 30, heldWithin: 0.5, hold: 60, code: pulls[0]!.code },
    });
    const pull = pullOf(setup, exampleState.rig, NOW);
    expect(ruleOf(pull)).toEqual(series.holdRule);
    const set = beginRecords(pull).find(({ kind }) => kind === "pull")!.set;
    expect(set).toMatchObject({ heldFor_s: 30, heldWithin_m: 0.5 });
    expect(() => checkFields("pull", set)).not.toThrow();
    expect(howPulled({ pull: set as never, series: { heldFor_s: 90 } as never })).toMatchObject(series.holdRule);
  });

  it("is not written where nobody stated one: the series' own stands, and on deck the usual one is shown", () => {
    const set = beginRecords(fresh).find(({ kind }) => kind === "pull")!.set;
    expect(Object.keys(set).filter((name) => name.startsWith("held"))).toEqual([]);
    expect(howPulled({ pull: set as never, series: { heldFor_s: 90 } as never }).heldFor).toBe(90);
    expect(ruleOf(fresh)).toEqual({ heldFor: 8, heldWithin: 1 });
    expect(setupCodec.read(setupCodec.write(usualSetup))).toMatchObject({ state: { heldFor: null, heldWithin: null } });
  });

  it("is refused in an address that states one out of its bounds", () => {
    const read = (name: string, value: string) => setupCodec.read({ ...setupCodec.write(setup), [name]: value });
    expect(read("held-for", "1").kind).toBe("read");
    expect(read("held-for", "0").kind).not.toBe("read");
    expect(read("held-within", "-1").kind).not.toBe("read");
  });
});

describe("a load read at the bow", () => {
  const deployment = deploymentOfPull(fresh);
  it("is at the anchor what settling the rode in this water gives, and back", () => {
    const carried = atTheAnchor(deployment, 2000, 20)!;
    const settled = settle(deployment.rig, { at: "bow", newtons: 2000 });
    expect(settled.kind === "settled" && carried.anchor.value).toBeCloseTo(
      (settled as { anchor: { tension: number } }).anchor.tension,
      9,
    );
    expect(carried.anchor.u).toBeGreaterThanOrEqual(20 * 0.9);
    expect(atTheBow(deployment, carried.anchor.value)).toBeCloseTo(2000, 6);
  });

  it("lets the boat go back as far as settling says, between the points by less than 2 cm of 10 % of load", () => {
    const give = giveNear(deployment, 2000)!;
    const span = (newtons: number) => (settle(deployment.rig, { at: "bow", newtons }) as { span: number }).span;
    // At its points it is the settled span itself; elsewhere straight lines, whose bend over such a step is below 2 cm.
    for (const newtons of [1800, 2000, 2300, 2800]) expect(give(newtons)).toBeCloseTo(span(newtons), 9);
    for (const newtons of [1860, 1930, 2100, 2500]) expect(Math.abs(give(newtons) - span(newtons))).toBeLessThan(0.02);
    expect(give(3200)).toBeGreaterThan(give(2800));
  });

  it("uses as much of the weakest part as its tension is of its limit", () => {
    const weakest = weakestOf(deployment.rig, 2000)!;
    const limits = deployment.rig.rode.flatMap(({ workingLoad }) => (workingLoad === undefined ? [] : [workingLoad]));
    // No part carries more than the bow, and the weakest part no less than the level part of the pull.
    expect(weakest.share).toBeLessThanOrEqual(2000 / Math.min(...limits) + 1e-12);
    expect(weakest.share).toBeGreaterThan(0);
    expect(limits).toContain(weakest.limit);
  });
});

describe("the device as an angle gauge", () => {
  it("finds the angle and its own zero, whatever that is, from both ways round", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -60, max: 60, noNaN: true }),
        fc.double({ min: -5, max: 5, noNaN: true }),
        (angle, zero) => {
          const one = meanTilt(Array.from({ length: 64 }, () => angle + zero))!;
          const other = meanTilt(Array.from({ length: 64 }, () => -angle + zero))!;
          const found = turned(one, other);
          expect(found.angle.angle / DEGREE).toBeCloseTo(angle, 9);
          expect(found.zero.angle / DEGREE).toBeCloseTo(zero, 9);
        },
      ),
    );
  });

  it("states a ± that holds the truth about as often as it says, under a swell and with noise", () => {
    const random = rng(3);
    let held = 0;
    const trials = 400;
    for (let k = 0; k < trials; k++) {
      const phase = 2 * Math.PI * random.uniform();
      // 40 s at 30 Hz, a swell of 2° with a period of 5 s, noise of 0.5°.
      const readings = Array.from(
        { length: 1200 },
        (_, i) => 12 + 2 * Math.sin((2 * Math.PI * i) / 150 + phase) + 0.5 * random.normal(),
      );
      const { angle, u } = meanTilt(readings)!;
      if (Math.abs(angle / DEGREE - 12) <= (2 * u) / DEGREE) held++;
    }
    // 95 in 100, as two standard uncertainties say, or more.
    expect(held / trials).toBeGreaterThan(0.93);
    expect(meanTilt([1, 2, 3])).toBeNull();
  });
});

describe("steps as they are written", () => {
  it("are loads to hold, veers and resets, and one that is none is named", () => {
    const set = { kind: "set", load: null, hold: 0 };
    const hold = (load: number) => ({ kind: "hold", load, hold: 60 });
    expect(stepsTyped("500 N, 1 kN; 1.5 kN,", 60)).toEqual([set, hold(500), hold(1000), hold(1500)]);
    expect(stepsTyped("500 N, veer to 45 m, Reset, 1 kN", 60)).toEqual([
      set,
      hold(500),
      { kind: "veer", load: null, hold: 0, paidOut: 45 },
      { kind: "reset", load: null, hold: 0 },
      hold(1000),
    ]);
    expect(() => stepsTyped("500 N, 12 kn", 60)).toThrow(/loads/);
    expect(() => stepsTyped("veer 12 kn", 60)).toThrow(/loads: veer/);
    expect(() => stepsTyped("reset 3 m", 60)).toThrow(/loads: reset/);
  });

  it("carry each load with the length then out: as a rode of that length carries it", () => {
    const pull = pullOf({ ...usualSetup, loads: "1 kN, veer 60 m, 1 kN" }, exampleState.rig, NOW);
    const longer = pullOf({ ...usualSetup, paidOut: 60 }, exampleState.rig, NOW);
    expect([0, 1, 2, 3].map((step) => deployedAt(pull, step).paidOut)).toEqual([35, 35, 60, 60]);
    const after = atTheAnchor(deploymentOfPull(pull, 3), 1500, 20)!;
    expect(after.anchor).toEqual(atTheAnchor(deploymentOfPull(longer), 1500, 20)!.anchor);
    expect(after.angleToBottom.value).toBeLessThan(atTheAnchor(deploymentOfPull(pull), 1500, 20)!.angleToBottom.value);
  });
});
