/** What leaves the page as a drawing, a line by its own figures, and the bar of the wind: each number where it belongs. */
import { afterEach, describe, expect, it, vi } from "vitest";
import { fromText, lettered, standAlone } from "../../../src/web/figure/stand-alone.ts";
import { OwnLine } from "../../../src/web/rig/own-line.tsx";
import { usualWeather } from "../../../src/web/weather/state.ts";
import { weatherStore } from "../../../src/web/weather/store.ts";
import { WindBar } from "../../../src/web/weather/wind/wind-bar.tsx";
import { openDrawn, type Page } from "./page.tsx";

let page: Page | undefined;
let made: Element;
afterEach(() => {
  page?.close();
  vi.unstubAllGlobals();
});

describe("a drawing as a file of its own", () => {
  const drawn = (viewBox: object | null) => {
    const svg = document.createElementNS("http://www.w3.org/2000/svg", "svg");
    svg.innerHTML =
      '<title>old</title><g class="a"><path class="b" tabindex="0"></path><text style="x">t</text></g><g role="slider"></g><g data-for-hand=""></g><rect class="none"></rect>';
    Object.defineProperty(svg, "viewBox", { value: { baseVal: viewBox } });
    document.body.append(svg);
    const styles: Record<string, object> = {
      g: { fill: "red", opacity: "1" },
      path: { fill: "red", stroke: "blue", opacity: "0.5" },
      text: { fill: "black", opacity: "1", textDecorationLine: "line-through" },
      rect: { display: "none", opacity: "1" },
    };
    const theme: (string | undefined)[] = [];
    vi.stubGlobal("getComputedStyle", (element: Element) => {
      theme.push(document.documentElement.dataset.theme);
      const style = (styles[element.tagName.toLowerCase()] ?? { opacity: "1" }) as Record<string, string>;
      return { ...style, getPropertyValue: (name: string) => (name === "--ink" ? " #111 " : (style[name] ?? "")) };
    });
    vi.stubGlobal(
      "XMLSerializer",
      class {
        serializeToString(node: Element) {
          made ??= node;
          return node.outerHTML;
        }
      },
    );
    return { svg: svg as unknown as SVGSVGElement, theme };
  };
  it("has its own colours written out, in the light theme, on its paper with a rim, without what is for the hand", () => {
    const { svg, theme } = drawn({ x: 5, y: 7, width: 100, height: 50 });
    document.documentElement.dataset.theme = "dark";
    const alone = standAlone(svg, "A title");
    expect(alone).toMatchObject({ width: 124, height: 74, ink: "#111", paper: "#ffffff" });
    expect(new Set(theme)).toEqual(new Set(["light"]));
    expect(document.documentElement.dataset.theme).toBe("dark");
    delete document.documentElement.dataset.theme;
    standAlone(svg, "A title");
    expect(document.documentElement.dataset.theme).toBeUndefined();
    expect(alone.svg).toBe(made.outerHTML);
    const told = (selector: string, ...names: string[]) => {
      const element = selector === "" ? made : made.querySelector(selector)!;
      return names.map((name) => element.getAttribute(name));
    };
    expect(told("", "viewBox", "width", "height")).toEqual(["-7 -5 124 74", "124", "74"]);
    expect([...made.children].map((one) => one.tagName.toLowerCase())).toEqual(["title", "rect", "g", "rect"]);
    expect(made.firstElementChild!.textContent).toBe("A title");
    expect(told("rect", "x", "y", "width", "height", "fill")).toEqual(["-7", "-5", "124", "74", "#ffffff"]);
    expect(alone.svg).not.toMatch(/class=|tabindex|slider|data-for-hand|>old</);
    // What the element around it says already is not said again.
    expect(told("g", "fill", "opacity")).toEqual(["red", null]);
    expect(told("path", "fill", "stroke", "opacity")).toEqual([null, "blue", "0.5"]);
    expect(told("text", "fill", "text-decoration")).toEqual(["black", "line-through"]);
    expect(made.lastElementChild!.getAttribute("display")).toBe("none");
    svg.remove();
  });
  it("without a view box is as large as it stands on the page", () => {
    const { svg } = drawn(null);
    expect(standAlone(svg, "x")).toMatchObject({ width: 824, height: 524 });
    svg.remove();
  });
  it("that came as text has the size it states, and letters above and below in their lines", () => {
    const text = fromText('<svg width="300" height="120.5" x="1"><path/></svg>');
    expect([text.width, text.height]).toEqual([300, 120.5]);
    expect(fromText("<svg><path/></svg>").width).toBe(680);
    const whole = lettered(
      { svg: '<svg width="300" height="100"></svg>', width: 300, height: 100, ink: "#111", paper: "#fff" },
      "Angle & load",
      "Made here.",
    );
    // Half a rim and a line of 19 px above, one of 15 px and half a rim below.
    expect([whole.width, whole.height]).toEqual([300, 146]);
    expect(whole.svg).toContain('viewBox="0 0 300 146" width="300" height="146"');
    expect(whole.svg).toContain("<title>Angle &amp; load</title>");
    expect(whole.svg).toContain('<rect width="300" height="146" fill="#fff"/>');
    expect(whole.svg).toContain(
      '<text x="12" y="19" font-size="15" fill="#111" font-weight="600">Angle &amp; load</text>',
    );
    expect(whole.svg).toContain('<svg x="0" y="25" width="300"');
    expect(whole.svg).toContain('<text x="12" y="136" font-size="11" fill="#111">Made here.</text>');
  });
});

describe("a line by its own figures", () => {
  it("has what was typed, each in its own place, and what was left out left out", async () => {
    const picked: object[] = [];
    page = await openDrawn(<OwnLine onPick={(part) => picked.push(part)} />);
    const at = page;
    at.press("Add the line");
    const usual = {
      kind: "line",
      name: "own line",
      length: 10,
      massPerLength: 0.15,
      density: 1140,
      stretch: { kind: "rigid" },
      material: "line",
    };
    expect(picked).toEqual([usual]);
    expect(at.field("Name").getAttribute("maxlength") ?? at.field("Name").getAttribute("maxLength")).toBe("100");
    const fill = async (label: string, text: string) => {
      at.fill(label, text);
      await new Promise((done) => setTimeout(done));
    };
    await fill("Name", " warp ");
    await fill("Length", "25 m");
    await fill("Mass per length", "0.3 kg/m");
    await fill("Density", "1380 kg/m3");
    await fill("Stiffness EA; empty: no stretch", "90 kN");
    await fill("Working load limit, if stated", "5 kN");
    at.press("Add the line");
    const full = {
      ...{ ...usual, name: "warp", length: 25, massPerLength: 0.3, density: 1380 },
      ...{ stretch: { kind: "linear", stiffness: 90_000 }, workingLoad: 5000 },
    };
    expect(picked[1]).toEqual(full);
    for (const [label, text] of [
      ["Length", "0 m"],
      ["Mass per length", "0 kg/m"],
      ["Density", "99 kg/m3"],
      ["Density", "23001 kg/m3"],
      ["Working load limit, if stated", "0 N"],
    ])
      await fill(label!, text!);
    await fill("Name", "  ");
    at.press("Add the line");
    expect(picked[2]).toEqual({ ...full, name: "own line" });
    await fill("Stiffness EA; empty: no stretch", "");
    await fill("Working load limit, if stated", "");
    at.press("Add the line");
    expect(picked[3]).toMatchObject({ stretch: { kind: "rigid" } });
    expect(picked[3]).not.toHaveProperty("workingLoad");
  });
});

describe("the bar of the wind", () => {
  const KNOT = 1852 / 3600;
  const now = {
    ...{ weather: { wind: { value: 20 * KNOT, u: 0 } }, mean: { value: 4100, u: 90, name: "" } },
    peak: { value: 5000, u: 0, name: "" },
  } as never;
  const bar = async (kept: number) => {
    weatherStore.put(usualWeather);
    page = await openDrawn(<WindBar now={now} kept={kept} most={40 * KNOT} />);
    return page.all("input[type=range]")[0] as HTMLInputElement;
  };
  it("slides by quarters of a knot, never quite calm, and stands at the nearest", async () => {
    const slider = await bar(10.2 * KNOT);
    expect([slider.getAttribute("max"), slider.getAttribute("value")]).toEqual(["160", "41"]);
    expect(slider.getAttribute("aria-valuetext")).toBe("10.2 kn");
    expect(page!.all("p")[0]!.textContent).toBe("20 kn4100 ± 90 N mean load5000 N peak");
    page!.fill("Mean wind, slider", "20");
    expect(weatherStore.get().wind).toBeCloseTo(5 * KNOT, 3);
    page!.fill("Mean wind, slider", "0");
    expect(weatherStore.get().wind).toBeCloseTo(KNOT / 4, 4);
    weatherStore.put(usualWeather);
  });
});
