/** What is typed in Readings goes to its own row and column, in its unit, within its bounds; verdicts stand beside their rows. */
import { afterEach, describe, expect, it } from "vitest";
import { type LinePart, settle } from "../../../src/rode/index.ts";
import { HowRead } from "../../../src/web/readings/how-read.tsx";
import type { Outcome } from "../../../src/web/readings/judge-run.ts";
import { RigSummary } from "../../../src/web/readings/rig-summary.tsx";
import { type ReadingsState, readingsStore, usualReadings } from "../../../src/web/readings/state.ts";
import { Tables } from "../../../src/web/readings/tables.tsx";
import { chainAndRope } from "../../../src/web/rig/state.ts";
import { rigStore } from "../../../src/web/rig/store.ts";
import { useStore } from "../../../src/web/state/use-store.ts";
import { openDrawn, type Page } from "./page.tsx";

const DEGREE = Math.PI / 180;
const state: ReadingsState = {
  ...usualReadings,
  u: { load: 15, angle: 0.01, movement: 0.004, gaugeZero: 0.002 },
  readings: [
    { load: 500, angle: 0.1, liftoff: false },
    { load: 900, angle: null, liftoff: true },
  ],
  release: [
    { load: 2000, movement: 0.3 },
    { load: 1000, movement: 0.5 },
  ],
};
let page: Page | undefined;
afterEach(() => page?.close());
async function opened(part: React.ReactNode): Promise<Page> {
  readingsStore.put(state);
  page = await openDrawn(part);
  return page;
}
const shown = () => readingsStore.get();
const near = (value: number) => expect.closeTo(value, 10);

function Rigs() {
  const now = useStore(readingsStore);
  return <RigSummary state={now} onRig={(rig) => readingsStore.put({ ...readingsStore.get(), rig })} />;
}

describe("how it was read", () => {
  it.each<[label: string, text: string, change: Partial<ReadingsState["u"]>]>([
    ["Load ±", "25 N", { load: 25 }],
    ["Load ±", "", { load: 0 }],
    ["Load ±", "0 N", {}],
    ["Angle ±", "1 deg", { angle: near(DEGREE) as never }],
    ["Angle ±", "", { angle: 0 }],
    ["Movement ±", "2 mm", { movement: near(0.002) as never }],
    ["Movement ±", "-1 mm", {}],
    ["Gauge zero ±", "0.5 deg", { gaugeZero: near(0.5 * DEGREE) as never }],
    ["Gauge zero ±", "", { gaugeZero: 0 }],
  ])("%s of %s", async (label, text, change) => {
    (await opened(<HowRead />)).fill(label, text);
    expect(shown()).toEqual({ ...state, u: { ...state.u, ...change } });
  });
  it("has a cell and a gauge at either end, each by itself", async () => {
    const at = await opened(<HowRead />);
    at.choose("upper end", 0);
    expect(shown()).toEqual({ ...state, loadCellAt: "bow" });
    readingsStore.put(state);
    at.choose("upper end", 1);
    expect(shown()).toMatchObject({ angleAt: "bow" });
  });
  it("says what is taken where nothing is stated", async () => {
    page = undefined;
    readingsStore.put({ ...state, u: { load: 0, angle: 0, movement: 0, gaugeZero: 0 } });
    page = await openDrawn(<HowRead />);
    const told = ["Load ±", "Angle ±", "Movement ±", "Gauge zero ±"].map((label) =>
      page!.field(label).getAttribute("placeholder"),
    );
    expect(told).toEqual(["1 %", "0.5°", "5 mm", "as angle"]);
  });
});

describe("the rig that was read", () => {
  it.each<[label: string, text: string, uncertainty: object]>([
    ["Mass per length ±", "5 %", { massPerLength: near(0.05), rise: 0.1 }],
    ["Mass per length ±", "51 %", { massPerLength: 0.03, rise: 0.1 }],
    ["Mass per length ±", "", { rise: 0.1 }],
    ["Rise ±", "0.2 m", { massPerLength: 0.03, rise: 0.2 }],
    ["Rise ±", "4.1 m", { massPerLength: 0.03, rise: 0.1 }],
    ["Rise ±", "", { massPerLength: 0.03 }],
  ])("%s of %s", async (label, text, uncertainty) => {
    (await opened(<Rigs />)).fill(label, text);
    expect(shown()).toEqual({ ...state, rig: { ...state.rig, uncertainty } });
  });
  it("goes to the bench under the heaviest load read at the cell's end, and comes from it", async () => {
    let at = await opened(<Rigs />);
    at.press("Open in Rig");
    expect(rigStore.get()).toMatchObject({ rig: state.rig, load: { at: "anchor", newtons: 2000 } });
    at.close();
    // Before any is read, twice the weight of the rode: 28 m of 2.25 kg/m.
    readingsStore.put({ ...state, readings: [], release: [], loadCellAt: "bow" });
    page = at = await openDrawn(<Rigs />);
    at.press("Open in Rig");
    expect(rigStore.get().load).toEqual({ at: "bow", newtons: expect.closeTo(2 * 9.81 * 28 * 2.25, 6) });
    const answer = settle(state.rig, { at: "bow", newtons: 2 * 9.81 * 28 * 2.25 });
    expect(answer.kind === "settled" && answer.grounded).toBe(0);
    rigStore.put({ ...rigStore.get(), rig: chainAndRope });
    at.press("Take the rig from Rig");
    expect(shown().rig).toBe(chainAndRope);
    expect((state.rig.rode[0] as LinePart).length).toBe(28);
  });
});

describe("the tables", () => {
  const reading = (i: number, change: object) => ({
    readings: state.readings.map((row, n) => (n === i ? { ...row, ...change } : row)),
  });
  const release = (i: number, change: object) => ({
    release: state.release.map((row, n) => (n === i ? { ...row, ...change } : row)),
  });
  const added = { load: null, angle: null, liftoff: false };
  it.each<[name: string, nth: number, text: string, change: Partial<ReadingsState>]>([
    ["load, row 1", 0, "600 N", reading(0, { load: 600 })],
    ["load, row 1", 0, "", reading(0, { load: null })],
    ["load, row 1", 0, "0 N", {}],
    ["load, row 2", 0, "1.1 kN", reading(1, { load: 1100 })],
    ["angle, row 1", 0, "12 deg", reading(0, { angle: near(12 * DEGREE) })],
    ["angle, row 1", 0, "90 deg", {}],
    ["angle, row 1", 0, "-90 deg", {}],
    ["angle, row 2", 0, "3", reading(1, { angle: near(3 * DEGREE) })],
    ["load, row 3", 0, "700 N", { readings: [...state.readings, { ...added, load: 700 }] }],
    ["angle, row 3", 0, "5 deg", { readings: [...state.readings, { ...added, angle: near(5 * DEGREE) as never }] }],
    ["load, row 1", 1, "1900 N", release(0, { load: 1900 })],
    ["moved, row 2", 0, "450 mm", release(1, { movement: near(0.45) })],
    ["moved, row 2", 0, "", release(1, { movement: null })],
    ["moved, row 3", 0, "0.6 m", { release: [...state.release, { load: null, movement: near(0.6) as never }] }],
  ])("%s (%i) of %j", async (name, nth, text, change) => {
    (await opened(<Tables outcome={null} />)).fill(name, text, nth);
    expect(shown()).toEqual({ ...state, ...change });
  });
  it("tick a lift-off and lose a row, each its own", async () => {
    const at = await opened(<Tables outcome={null} />);
    const tick = at.field("lift-off, row 1");
    tick.checked = true;
    at.fire(tick, "click");
    expect(shown()).toEqual({ ...state, ...reading(0, { liftoff: true }) });
    readingsStore.put(state);
    at.press("Remove row 2", 0);
    expect(shown()).toEqual({ ...state, readings: state.readings.slice(0, 1) });
    readingsStore.put(state);
    at.press("Remove row 1", 1);
    expect(shown()).toEqual({ ...state, release: state.release.slice(1) });
  });

  const judged = (readings: object[], released: object[]): Outcome =>
    ({ kind: "judged", reduced: { readings, release: released } }) as unknown as Outcome;
  const verdicts = (at: Page) =>
    at.all("tbody tr").flatMap((tr) => {
      const text = [...tr.querySelectorAll("td")].at(-2)?.textContent?.replace(/\s+/g, " ").trim() ?? "";
      return [text];
    });
  it("have theory and residual in standard uncertainties beside the row they speak of", async () => {
    const said = (row: object, theory: number, residual: number, more: object = {}) => ({
      ...{ ...row, theory, residual, outlier: false, suspect: false },
      ...more,
    });
    const at = await opened(
      <Tables
        outcome={judged(
          [
            said({ load: 500, angle: 0.1 }, 8 * DEGREE, -1.26),
            said({ load: 900, angle: null }, 2 * DEGREE, 3.04, { outlier: true }),
          ],
          [said({ load: 2000, movement: 0 }, 0, 0), said({ load: 1000, movement: 0.2 }, 0.25, 0.04, { suspect: true })],
        )}
      />,
    );
    const [first, second, foot, start, released] = verdicts(at);
    expect(first).toMatch(/^8(?:\.00)?\s?° ?−1\.3$/);
    expect(second).toMatch(/^2(?:\.00)?\s?° ?\+3\.0 outlier$/);
    expect(foot).toBe("");
    expect(start).toMatch(/^start/);
    // Movement counts from the first row: 0.3 m and a quarter.
    expect(released).toMatch(/^(?:0\.55(?:0)? m|550 mm) ?0\.0 suspect$/);
  });
  it("say nothing of a row that was changed since, and why a row has no theory", async () => {
    const stale = await opened(
      <Tables
        outcome={judged(
          [
            { load: 501, angle: 0.1, theory: 0.1, residual: 1 },
            { load: 900, angle: 0.2, theory: 0.1, residual: 1 },
          ],
          [{ load: 2000, movement: 0.1, theory: 0, residual: 0 }],
        )}
      />,
    );
    expect(verdicts(stale).every((text) => text === "")).toBe(true);
    stale.close();
    const refused = (list: string, row: number, load: number, kind: string) =>
      ({ kind: "refused", row: { list, row, load, kind }, line: "" }) as unknown as Outcome;
    page = await openDrawn(<Tables outcome={refused("readings", 1, 900, "neverLiftsOff")} />);
    expect(verdicts(page)[1]).toMatch(/no lift-off$/);
    expect(verdicts(page)[0]).toBe("");
    page.close();
    page = await openDrawn(<Tables outcome={refused("release", 0, 2000, "noEquilibrium")} />);
    expect(verdicts(page)[3]).toMatch(/no equilibrium$/);
    expect(verdicts(page)[0]).toBe("");
  });
});
