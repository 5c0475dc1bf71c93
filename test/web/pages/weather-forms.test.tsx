/** The forms of Weather, drawn by themselves: what is typed is that field, in its unit, within its bounds, and nothing else. */
import { afterEach, describe, expect, it } from "vitest";
import type { Boat, MeasuredPoint } from "../../../src/sea/index.ts";
import { useStore } from "../../../src/web/state/use-store.ts";
import { marshTern } from "../../../src/web/weather/boat/boat.ts";
import { BoatPanel } from "../../../src/web/weather/boat/boat-panel.tsx";
import { SnubberFields } from "../../../src/web/weather/snubber/snubber-fields.tsx";
import { usualWeather, type WeatherState } from "../../../src/web/weather/state.ts";
import { weatherStore } from "../../../src/web/weather/store.ts";
import { AroundForm } from "../../../src/web/weather/wind/surroundings-form.tsx";
import { openDrawn, type Page } from "./page.tsx";

const [KNOT, DEGREE] = [1852 / 3600, Math.PI / 180];

function Around() {
  const { around, windU, most } = useStore(weatherStore);
  return <AroundForm around={around} windU={windU} most={most} depth={8} surge={null} />;
}
function Boats() {
  return <BoatPanel boat={useStore(weatherStore).boat} />;
}
function Snubber() {
  const { snubber, boat } = useStore(weatherStore);
  return (
    <SnubberFields
      snubber={snubber}
      boat={boat}
      range={{ lengths: [0.5, 25], diameters: [0.008, 0.03] }}
      diameterUnit="mm"
    />
  );
}

let page: Page | undefined;
afterEach(() => page?.close());
async function opened(part: React.ReactNode, state: WeatherState, fold?: string): Promise<Page> {
  weatherStore.put(state);
  page = await openDrawn(part);
  if (fold !== undefined && page.button(fold).getAttribute("aria-expanded") !== "true") page.press(fold);
  return page;
}
/** Numbers compared to a hundred millionth: a unit is multiplied with. */
const near = (value: unknown): unknown =>
  typeof value === "number"
    ? expect.closeTo(value, 8)
    : Array.isArray(value)
      ? value.map(near)
      : typeof value === "object" && value !== null
        ? Object.fromEntries(Object.entries(value).map(([name, one]) => [name, near(one)]))
        : value;

describe("around the boat", () => {
  const around = { ...usualWeather.around, current: 0.5, currentU: 0.1, currentAngle: 0.2, waves: 0.8, wavePeriod: 4 };
  const state: WeatherState = { ...usualWeather, around };
  it.each<
    [
      label: string,
      text: string,
      change: Partial<Omit<WeatherState, "around">> & { around?: Partial<WeatherState["around"]> },
    ]
  >([
    ["± of the wind", "2 kn", { windU: 2 * KNOT }],
    ["± of the wind", "0 m/s", { windU: 0 }],
    ["± of the wind", "51 m/s", {}],
    ["Axis up to", "30 m/s", { most: 30 }],
    ["Axis up to", "1.9 m/s", {}],
    ["Axis up to", "101 m/s", {}],
    ["Wind off the bow", "-30 deg", { around: { yaw: -30 * DEGREE } }],
    ["Wind off the bow", "180 deg", { around: { yaw: Math.PI } }],
    ["Wind off the bow", "-181 deg", {}],
    ["Gust by", "kaimal-b", { around: { gust: "kaimal-b" } }],
    ["Length of a gust", "10 s", { around: { gustTime: 10 } }],
    ["Length of a gust", "0.9 s", {}],
    ["Length of a gust", "601 s", {}],
    ["Mean taken over", "1 h", { around: { averaging: 3600 } }],
    ["Mean taken over", "2 s", {}],
    ["Mean taken over", "3601 s", {}],
    ["Current", "1 kn", { around: { current: KNOT } }],
    ["Current", "10.1 m/s", {}],
    ["Current", "-1 kn", {}],
    ["± of the current", "0.2 m/s", { around: { currentU: 0.2 } }],
    ["± of the current", "10.1 m/s", {}],
    ["Current off the bow", "-90 deg", { around: { currentAngle: -90 * DEGREE } }],
    ["Waves from ahead, height", "1.2 m", { around: { waves: 1.2 } }],
    ["Waves from ahead, height", "31 m", {}],
    ["their peak period", "6 s", { around: { wavePeriod: 6 } }],
    ["their peak period", "0.4 s", {}],
    ["their peak period", "31 s", {}],
  ])("%s of %s", async (label, text, { around: other, ...change }) => {
    const at = await opened(<Around />, state, undefined);
    at.fill(label, text);
    expect(weatherStore.get()).toEqual(near({ ...state, ...change, around: { ...around, ...other } }));
  });

  it("asks of a gust, a current and waves only where there are any, and says where a sea would break", async () => {
    const calm = { ...around, gust: "none" as const, current: 0, waves: 0 };
    let at = await opened(<Around />, { ...state, around: calm });
    for (const label of [
      "Length of a gust",
      "Mean taken over",
      "± of the current",
      "Current off the bow",
      "their peak period",
    ])
      expect(() => at.field(label), label).toThrow("no field");
    expect(at.all("[role=alert]")).toEqual([]);
    at.close();
    at = await opened(<Around />, { ...state, around: { ...around, waves: 8 } });
    expect(at.all("[role=alert]")).toHaveLength(1);
  });
});

describe("the boat", () => {
  const state: WeatherState = { ...usualWeather, boat: { ...marshTern } };
  const shapes = (marshTern.windage as Extract<Boat["windage"], { kind: "shapes" }>).shapes;
  const withShape = (i: number, change: object): Partial<Boat> => ({
    windage: { kind: "shapes", shapes: shapes.map((one, j) => (j === i ? { ...one, ...change } : one)) },
  });
  const withPoint = (i: number, change: object): Partial<Boat> => ({
    measured: marshTern.measured.map((one, j) => (j === i ? ({ ...one, ...change } as MeasuredPoint) : one)),
  });
  const unsure = (i: number, change: object) => ({ uncertainty: { ...marshTern.measured[i]!.uncertainty, ...change } });
  it.each<[label: string, nth: number, text: string, change: Partial<Boat>]>([
    ["Name", 0, "Own", { name: "Own" }],
    ["Length over all", 0, "12 m", { length: 12 }],
    ["Length over all", 0, "501 m", {}],
    ["Length over all", 0, "0 m", {}],
    ["Beam", 0, "3.5 m", { beam: 3.5 }],
    ["Draught", 0, "1.9 m", { draught: 1.9 }],
    ["Displacement", 0, "8 t", { displacement: 8000 }],
    ["Displacement", 0, "0 kg", {}],
    ["Roller above the water", 0, "1.1 m", { bowRollerHeight: 1.1 }],
    ["Roller above the water", 0, "0 m", { bowRollerHeight: 0 }],
    ["Roller above the water", 0, "101 m", {}],
    ["Waterline", 0, "9.5 m", { waterline: 9.5 }],
    ["Draught of the body", 0, "0.7 m", { bodyDraught: 0.7 }],
    ["Engine's full thrust", 0, "3 kN", { engineThrust: 3000 }],
    ["Swings either side", 0, "20 deg", { veering: { amplitude: 20 * DEGREE, period: 45 } }],
    ["Swings either side", 0, "91 deg", {}],
    ["in a time of", 0, "60 s", { veering: { ...marshTern.veering!, period: 60 } }],
    ["freeboard", 0, "1.4 m", withShape(0, { freeboard: 1.4 })],
    ["drag", 0, "0.9", withShape(0, { drag: 0.9 })],
    ["drag", 0, "0", {}],
    ["drag", 0, "5.1", {}],
    ["length", 0, "4 m", withShape(1, { length: 4 })],
    ["width", 0, "2.2 m", withShape(1, { width: 2.2 })],
    ["height", 0, "0.5 m", withShape(1, { height: 0.5 })],
    ["thickness", 0, "150 mm", withShape(2, { thickness: 0.15 })],
    ["fore and aft", 0, "220 mm", withShape(2, { chord: 0.22 })],
    ["foot", 0, "1.8 m", withShape(2, { foot: 1.8 })],
    ["top", 0, "16.5 m", withShape(2, { top: 16.5 })],
    ["whole length", 1, "25 m", withShape(4, { length: 25 })],
    ["diameter", 0, "9 mm", withShape(3, { diameter: 0.009 })],
    ["foot", 1, "1.4 m", withShape(3, { foot: 1.4 })],
    ["What the part is", 1, "sail", withShape(6, { name: "sail" })],
    ["front", 0, "0.6 m2", withShape(5, { front: 0.6 })],
    ["side", 2, "1.7 m2", withShape(7, { side: 1.7 })],
    ["Wind, point 2", 0, "15 kn", withPoint(1, { wind: 15 * KNOT })],
    ["Wind, point 2", 0, "101 m/s", {}],
    ["± of the wind, point 1", 0, "1 kn", withPoint(0, unsure(0, { wind: KNOT }))],
    ["Mean load, point 3", 0, "600 N", withPoint(2, { load: 600 })],
    ["Mean load, point 3", 0, "0 N", {}],
    ["± of the mean load, point 3", 0, "50 N", withPoint(2, unsure(2, { load: 50 }))],
    ["Peaks, point 4", 0, "1300 N", withPoint(3, { peak: 1300 })],
    ["Peaks, point 1", 0, "300 N", withPoint(0, { peak: 300 })],
    ["± of the peaks, point 4", 0, "100 N", withPoint(3, unsure(3, { peak: 100 }))],
    ["Read at, point 5", 0, "anchor", withPoint(4, { at: "anchor" })],
  ])("%s (%i) of %s", async (label, nth, text, change) => {
    const at = await opened(<Boats />, state, "Boat");
    at.fill(label, text, nth);
    expect(weatherStore.get()).toEqual(near({ ...state, boat: { ...state.boat, ...change } }));
  });

  it("leaves out what is emptied, where it may be missing", async () => {
    const emptied = async (label: string, nth = 0): Promise<Boat> => {
      page?.close();
      const at = await opened(<Boats />, state, "Boat");
      at.fill(label, "", nth);
      return weatherStore.get().boat;
    };
    for (const [label, name] of [
      ["Waterline", "waterline"],
      ["Draught of the body", "bodyDraught"],
      ["Engine's full thrust", "engineThrust"],
      ["Swings either side", "veering"],
    ] as const) {
      const { [name]: _, ...rest } = marshTern;
      expect(await emptied(label), label).toEqual(rest);
    }
    expect(await emptied("Beam")).toEqual(marshTern);
    const { chord: _, ...mast } = shapes[2] as { chord?: number };
    expect(await emptied("fore and aft")).toEqual({
      ...marshTern,
      windage: { kind: "shapes", shapes: shapes.with(2, mast as never) },
    });
    const { peak: __, ...point } = marshTern.measured[3]!;
    expect((await emptied("Peaks, point 4")).measured).toEqual(marshTern.measured.with(3, point));
    expect((await emptied("± of the wind, point 2")).measured[1]!.uncertainty).toEqual({ load: 25 });
    expect(await emptied("Mean load, point 2")).toEqual(marshTern);
  });

  it("takes shapes and points away and adds them; a point is one once it has a wind and a load", async () => {
    const at = await opened(<Boats />, state, "Boat");
    const has = (name: string) => () => at.all("button").some((one) => one.getAttribute("aria-label") === name);
    const shapesNow = () => (weatherStore.get().boat.windage as Extract<Boat["windage"], { kind: "shapes" }>).shapes;
    expect(() => at.button("+ hull")).toThrow("no button");
    at.press("Remove rigging 2");
    expect(shapesNow()).toEqual(shapes.filter((_, i) => i !== 4));
    await at.until(has("Remove rigging"));
    at.press("Remove deckhouse");
    expect(shapesNow().map(({ kind }) => kind)).toEqual(["hull", "mast", "rigging", "part", "part", "part"]);
    await at.until(() => !has("Remove deckhouse")());
    at.press("+ deckhouse");
    expect(
      shapesNow()
        .map(({ kind }) => kind)
        .at(-1),
    ).toBe("deckhouse");
    at.press("Remove point 1");
    expect(weatherStore.get().boat.measured).toEqual(marshTern.measured.slice(1));
    await at.until(() => !has("Remove point 5")());
    at.press("+ point");
    await at.until(has("Remove point 5"));
    at.fill("Mean load, point 5", "700 N");
    expect(weatherStore.get().boat.measured).toHaveLength(4);
    await at.until(() => at.field("Mean load, point 5").value === "700");
    at.fill("Wind, point 5", "20 kn");
    expect(weatherStore.get().boat.measured.at(-1)).toEqual(
      near({ at: "bow", uncertainty: {}, load: 700, wind: 20 * KNOT }),
    );
    at.press("Clear the example's points");
    expect(weatherStore.get().boat.measured).toEqual([]);
  });

  describe("by areas", () => {
    const areas = {
      kind: "areas",
      front: { area: 9, drag: 1.1, height: 3 },
      side: { area: 24, drag: 1.2, height: 2.5 },
    } as const;
    const own: WeatherState = { ...state, boat: { ...marshTern, windage: areas } };
    it.each([
      ["From ahead: area", "8 m2", "front", { area: 8 }],
      ["From ahead: drag", "0.9", "front", { drag: 0.9 }],
      ["From ahead: middle", "2 m", "front", { height: 2 }],
      ["From abeam: area", "20 m2", "side", { area: 20 }],
      ["From abeam: drag", "1", "side", { drag: 1 }],
      ["From abeam: middle", "2 m", "side", { height: 2 }],
      ["From abeam: drag", "0", "side", {}],
    ] as const)("%s of %s", async (label, text, side, change) => {
      const at = await opened(<Boats />, own, "Boat");
      at.fill(label, text);
      expect(weatherStore.get().boat.windage).toEqual(near({ ...areas, [side]: { ...areas[side], ...change } }));
    });
    it("she has none where none is wanted, and usual ones where nothing is known of her", async () => {
      const at = await opened(<Boats />, own, "Boat");
      at.choose("none");
      expect(weatherStore.get().boat).not.toHaveProperty("windage");
      await at.until(() => at.all("label").every((one) => !one.textContent!.includes("From ahead")));
      // 0.9 m² for each metre from ahead, 2.4 from abeam, met a quarter of her length up; in two figures.
      at.choose("areas");
      expect(weatherStore.get().boat.windage).toEqual({
        kind: "areas",
        front: { area: 10, drag: 1, height: 2.9 },
        side: { area: 28, drag: 1, height: 2.9 },
      });
      await at.until(() => at.all("label").some((one) => one.textContent!.includes("From ahead")));
      at.choose("shapes");
      expect(weatherStore.get().boat.windage).toMatchObject({
        kind: "shapes",
        shapes: [{ kind: "hull" }, { kind: "mast" }],
      });
    });
  });

  it("that cannot be is told and not saved", async () => {
    const at = await opened(<Boats />, { ...state, boat: { ...marshTern, beam: 12 } }, "Boat");
    expect(at.text).toContain("beam: larger than the length");
    expect(at.button("Save as a file").getAttribute("disabled")).not.toBeNull();
  });
});

describe("the snubber", () => {
  const bridle = { beam: 2, heading: 0.1 };
  const state: WeatherState = { ...usualWeather, snubber: { ...usualWeather.snubber, slack: 1, bridle } };
  it.each<[label: string, text: string, change: Partial<WeatherState["snubber"]>]>([
    ["Length of each leg", "6 m", { length: 6 }],
    ["Length of each leg", "61 m", {}],
    ["Length of each leg", "0.4 m", {}],
    ["Diameter", "16 mm", { diameter: 0.016 }],
    ["Diameter", "3 mm", {}],
    ["Diameter", "121 mm", {}],
    ["Slack of the chain's loop", "2 m", { slack: 2 }],
    ["Slack of the chain's loop", "", { slack: 0 }],
    ["Slack of the chain's loop", "101 m", {}],
    ["Between the cleats", "1.5 m", { bridle: { ...bridle, beam: 1.5 } }],
    ["Between the cleats", "0 m", {}],
    ["Boat off the pull", "-20 deg", { bridle: { ...bridle, heading: -20 * DEGREE } }],
    ["Boat off the pull", "81 deg", {}],
    ["Rope", "polyester double-braid", { fibre: "polyester", lay: "double-braid" }],
  ])("%s of %s", async (label, text, change) => {
    const at = await opened(<Snubber />, state);
    at.fill(label, text);
    expect(weatherStore.get()).toEqual(near({ ...state, snubber: { ...state.snubber, ...change } }));
  });
  it("has one leg or two, ends of two sorts", async () => {
    const at = await opened(<Snubber />, state);
    at.choose("one rope");
    expect(weatherStore.get().snubber).toEqual({ ...state.snubber, bridle: null });
    await at.until(() =>
      at.all("label").some((one) => one.textContent!.startsWith("Length") && !one.textContent!.includes("leg")),
    );
    at.choose("bridle");
    // Half the beam between the cleats in two figures, the boat straight.
    expect(weatherStore.get().snubber.bridle).toEqual({ beam: 1.9, heading: 0 });
    at.choose("knotted");
    expect(weatherStore.get().snubber.ends).toBe("knotted");
  });
});
