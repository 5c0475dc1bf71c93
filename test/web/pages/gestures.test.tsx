/** Hands on a trace and on the map: a drag, two fingers, a wheel and keys move what is seen so that what is held stays in hand. */
import { useRef } from "react";
import { afterEach, describe, expect, it } from "vitest";
import type { MapSight } from "../../../src/figure/index.ts";
import { MarkGrip } from "../../../src/web/days/log/mark-grip.tsx";
import { useAddressed } from "../../../src/web/days/log/use-addressed.ts";
import { useGestures } from "../../../src/web/days/log/use-gestures.ts";
import type { Window } from "../../../src/web/days/log/window.ts";
import { useSight } from "../../../src/web/days/site-map/use-sight.ts";
import { daysStore, type LogPlace, usualDays, wholeLog } from "../../../src/web/days/state.ts";
import { createStore, type Store } from "../../../src/web/state/store.ts";
import { openDrawn, type Page } from "./page.tsx";
import { Sheet } from "./sheet.tsx";

let page: Page | undefined;
afterEach(() => page?.close());
// The element is 800 px wide; 58 px and 10 px beside the plot leave 732.
const longLog = { from: 0, to: 7320 };
function Trace({ view, used }: { readonly view: Store<Window>; readonly used: () => void }) {
  const box = useRef<HTMLDivElement>(null);
  const gestures = useGestures(box, view, longLog, used);
  return (
    <div ref={box} data-box {...gestures}>
      <span role="slider" tabIndex={0} aria-valuenow={0} />
    </div>
  );
}

const shortLog = { from: 0, to: 100 };
function Followed({ view, at }: { readonly view: Store<Window>; readonly at: LogPlace }) {
  useAddressed(view, shortLog, at);
  return null;
}

const all: MapSight = { metre: 10, east: 1000, north: 2000 };
let seen: MapSight;
let moved = false;
function SiteMap() {
  const ref = useRef<SVGSVGElement>(null);
  const { sight, gestures, nearer, showAll, moved: own } = useSight(ref, 800, 500, all);
  seen = sight;
  moved = own;
  return (
    <>
      <svg ref={ref} role="img" aria-label="Map" {...gestures}>
        <g data-site="s" />
      </svg>
      <button type="button" onClick={() => nearer(2)}>
        Nearer
      </button>
      <button type="button" onClick={showAll}>
        All
      </button>
    </>
  );
}

const frame = () => new Promise((done) => setTimeout(done, 5));

describe("a hand on the trace", () => {
  const trace = async () => {
    let used = 0;
    const view = createStore<Window>({ from: 1000, to: 1732 });
    page = await openDrawn(<Trace view={view} used={() => used++} />);
    await frame();
    const box = page.all("[data-box]")[0]!;
    const did = async (type: string, more: object) => {
      page!.fire(box, type, more);
      await frame();
      const { from, to } = view.get();
      return [Number(from.toFixed(4)), Number(to.toFixed(4))];
    };
    return { did, view, slider: page.all("[role=slider]")[0]!, used: () => used };
  };
  it("by one finger draws the log along, a second a pixel here", async () => {
    const { did, used } = await trace();
    expect(await did("pointermove", { clientX: 500 })).toEqual([1000, 1732]);
    await did("pointerdown", { clientX: 400, button: 2 });
    expect(await did("pointermove", { clientX: 500 })).toEqual([1000, 1732]);
    await did("pointerdown", { clientX: 400, button: 0 });
    expect(await did("pointermove", { clientX: 408 })).toEqual([992, 1724]);
    expect(used()).toBe(0);
    expect(await did("pointermove", { clientX: 300 })).toEqual([1100, 1832]);
    expect(used()).toBe(1);
    await did("pointerup", { clientX: 300 });
    expect(await did("pointermove", { clientX: 700 })).toEqual([1100, 1832]);
  });
  it("by two fingers comes nearer about their middle, and is drawn along with it", async () => {
    const { did, used } = await trace();
    // The middle at 424 px is half of the plot.
    await did("pointerdown", { clientX: 374, button: 0, pointerId: 1 });
    await did("pointerdown", { clientX: 474, button: 0, pointerId: 2 });
    expect(await did("pointermove", { clientX: 574, pointerId: 2 })).toEqual([1158, 1524]);
    expect(await did("pointermove", { clientX: 274, pointerId: 1 })).toEqual([1244, 1488]);
    expect(used()).toBe(2);
    await did("pointerup", { pointerId: 2 });
    // One finger left holds what it holds.
    expect(await did("pointermove", { clientX: 274 + 732, pointerId: 1 })).toEqual([1000, 1244]);
  });
  it("by a wheel comes nearer where it points, and with shift or sideways goes along", async () => {
    const { did, view, used } = await trace();
    const near = async (more: object) => {
      view.put({ from: 1000, to: 1732 });
      return did("wheel", { deltaX: 0, deltaY: 0, deltaMode: 0, shiftKey: false, clientX: 424, ...more });
    };
    const width = ([from, to]: number[]) => to! - from!;
    const closer = await near({ deltaY: -400 });
    expect(width(closer)).toBeCloseTo(732 / Math.E, 3);
    expect((closer[0]! + closer[1]!) / 2).toBeCloseTo(1366, 3);
    expect(width(await near({ deltaY: 100 }))).toBeCloseTo(732 * Math.exp(0.25), 3);
    expect(width(await near({ deltaY: -25, deltaMode: 1 }))).toBeCloseTo(732 / Math.E, 3);
    expect(width(await near({ deltaY: -1, deltaMode: 2 }))).toBeCloseTo(732 / Math.E, 3);
    expect((await near({ deltaY: -400, clientX: 58 }))[0]).toBe(1000);
    expect((await near({ deltaY: -400, clientX: 0 }))[0]).toBe(1000);
    expect((await near({ deltaY: -400, clientX: 790 }))[1]).toBe(1732);
    expect(await near({ deltaY: 73.2, shiftKey: true })).toEqual([1073.2, 1805.2]);
    expect(await near({ deltaX: -100, deltaY: 20 })).toEqual([900, 1632]);
    expect(used()).toBe(9);
  });
  it("by keys goes along, but not those of a grip in it, nor a shortcut of the browser", async () => {
    const { did, used, slider } = await trace();
    expect(await did("keydown", { key: "ArrowRight" })).toEqual([1073.2, 1805.2]);
    expect(await did("keydown", { key: "ArrowLeft", shiftKey: true })).toEqual([707.2, 1439.2]);
    for (const more of [{ ctrlKey: true }, { metaKey: true }, { altKey: true }, { key: "q" }])
      expect(await did("keydown", { key: "ArrowRight", ...more })).toEqual([707.2, 1439.2]);
    expect(used()).toBe(2);
    page!.fire(slider, "keydown", { key: "ArrowRight" });
    page!.fire(slider, "pointerdown", { clientX: 100, button: 0 });
    expect(await did("pointermove", { clientX: 400 })).toEqual([707.2, 1439.2]);
  });
});

describe("the window in the address", () => {
  const log = (from: number | null, to: number | null): LogPlace => ({ ...wholeLog("l"), from, to });
  const settle = () => new Promise((done) => setTimeout(done, 260));
  it("follows the window once that stands still, to the millisecond, and is none for the whole log", async () => {
    const view = createStore<Window>({ from: 0, to: 100 });
    daysStore.put({ ...usualDays, at: log(null, null) });
    page = await openDrawn(<Followed view={view} at={log(null, null)} />);
    await frame();
    view.put({ from: 10.12345, to: 20 });
    view.put({ from: 11.12345, to: 21 });
    expect(daysStore.get().at).toMatchObject({ from: null, to: null });
    await settle();
    expect(daysStore.get().at).toMatchObject({ id: "l", from: 11.123, to: 21 });
    view.put(shortLog);
    await settle();
    expect(daysStore.get().at).toMatchObject({ from: null, to: null });
    daysStore.put(usualDays);
  });
  it("is what the window begins with, brought within the log", async () => {
    const view = createStore<Window>({ from: 0, to: 100 });
    page = await openDrawn(<Followed view={view} at={log(30, 40)} />);
    await frame();
    expect(view.get()).toEqual({ from: 30, to: 40 });
    page.close();
    page = await openDrawn(<Followed view={view} at={log(30.001, 40.001)} />);
    await frame();
    expect(view.get()).toEqual({ from: 30, to: 40 });
    page.close();
    page = await openDrawn(<Followed view={view} at={log(null, 40)} />);
    await frame();
    expect(view.get()).toEqual(shortLog);
    await settle();
    daysStore.put(usualDays);
  });
});

describe("an end of a mark in hand", () => {
  it("moves by as much as the hand, a pixel a key, and is written once keys rest", async () => {
    const put: number[] = [];
    let dropped = 0;
    page = await openDrawn(
      <Sheet>
        <MarkGrip
          {...{ x: 0, y: 0, label: "From", now: 50, least: 0, most: 100, text: "", hint: null, perPixel: 0.5 }}
          onPut={(t) => put.push(t)}
          onDrop={() => dropped++}
        />
      </Sheet>,
    );
    const grip = page.all("[role=slider]")[0]!;
    page.fire(grip, "pointerdown", { clientX: 10, button: 0 });
    page.fire(grip, "pointermove", { clientX: 30 });
    await frame();
    expect(put).toEqual([60]);
    page.fire(grip, "pointerup", { clientX: 30 });
    expect(dropped).toBe(1);
    page.fire(grip, "keydown", { key: "ArrowRight" });
    page.fire(grip, "keydown", { key: "PageDown" });
    expect(put.slice(-2)).toEqual([50.5, 45]);
    expect(dropped).toBe(1);
    await new Promise((done) => setTimeout(done, 750));
    expect(dropped).toBe(2);
  });
});

describe("a hand on the map", () => {
  const map = async () => {
    page = await openDrawn(<SiteMap />);
    await frame();
    const svg = page.all("svg")[0]!;
    return async (type: string, more: object) => {
      page!.fire(svg, type, more);
      await frame();
      return seen;
    };
  };
  /** What lies under a pixel, m. */
  const under = ({ metre, east, north }: MapSight, x: number, y: number) => [
    east + (x - 400) * metre,
    north - (y - 250) * metre,
  ];
  it("comes nearer about its middle by a button, and shows all again", async () => {
    await map();
    page!.press("Nearer");
    await frame();
    expect([seen, moved]).toEqual([{ metre: 5, east: 1000, north: 2000 }, true]);
    page!.press("All");
    await frame();
    expect([seen, moved]).toEqual([all, false]);
  });
  it("by ctrl and a wheel comes nearer where it points, and not without", async () => {
    const did = await map();
    expect(await did("wheel", { deltaY: -200, clientX: 600, clientY: 100 })).toEqual(all);
    const now = await did("wheel", { deltaY: -200, ctrlKey: true, clientX: 600, clientY: 100 });
    expect(now.metre).toBeCloseTo(10 / Math.E, 9);
    under(now, 600, 100).forEach((value, i) => {
      expect(value).toBeCloseTo(under(all, 600, 100)[i]!, 6);
    });
    expect(now.east).toBeGreaterThan(1000);
    expect(now.north).toBeGreaterThan(2000);
  });
  it("by one finger is drawn along, by two comes nearer, what lies between them staying there", async () => {
    const did = await map();
    await did("pointerdown", { clientX: 300, clientY: 200, button: 0 });
    expect(await did("pointermove", { clientX: 320, clientY: 190 })).toEqual({ metre: 10, east: 800, north: 1900 });
    await did("pointerdown", { clientX: 420, clientY: 190, button: 0, pointerId: 2 });
    const now = await did("pointermove", { clientX: 520, clientY: 190, pointerId: 2 });
    expect(now.metre).toBeCloseTo(5, 9);
    under(now, 420, 190).forEach((value, i) => {
      expect(value).toBeCloseTo(under({ metre: 10, east: 800, north: 1900 }, 370, 190)[i]!, 6);
    });
    await did("pointerup", { pointerId: 2 });
    const before = { ...seen };
    const along = await did("pointermove", { clientX: 330, clientY: 190 });
    expect(along.metre).toBeCloseTo(before.metre, 9);
    expect(along.east).toBeCloseTo(before.east - 50, 6);
    await did("pointerup", {});
    expect(await did("pointermove", { clientX: 700, clientY: 190 })).toEqual(along);
  });
  it("is not taken hold of at a site, nor by another button", async () => {
    const did = await map();
    page!.fire(page!.all("[data-site]")[0]!, "pointerdown", { clientX: 300, clientY: 200, button: 0 });
    expect(await did("pointermove", { clientX: 400, clientY: 200 })).toEqual(all);
    await did("pointerdown", { clientX: 300, clientY: 200, button: 1 });
    expect(await did("pointermove", { clientX: 400, clientY: 200 })).toEqual(all);
  });
});
