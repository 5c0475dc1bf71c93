import { readFileSync } from "node:fs";
import { join } from "node:path";
import { parseHTML } from "linkedom";
import { describe, expect, it } from "vitest";
import { type ReductionReport, reductionReport } from "../../src/publish/index.ts";
import { judge, type Run, readRun, reduce } from "../../src/pull/index.ts";
import { type Rig, readRig } from "../../src/rode/index.ts";
import { judgementWords } from "../../src/words/index.ts";

const demo = (name: string) => readFileSync(join(import.meta.dirname, "../../data/demo", name), "utf8");
const rig = readRig(demo("gantry-rig.yaml"), "gantry-rig.yaml");
const { run } = readRun(demo("gantry-run.yaml"), "gantry-run.yaml");
const CAUTION = "Loaded gear hurts people: an estimate, not a promise.";

function reportOf(given: Partial<ReductionReport> & { run?: Run; rig?: Rig } = {}): ReductionReport {
  const [r, g] = [given.run ?? run, given.rig ?? rig];
  const reduced = reduce(r, g);
  return {
    run: r,
    rig: g,
    reduced,
    verdicts: judge(r, g, reduced),
    units: "metric",
    files: ["gantry-run.yaml", "gantry-rig.yaml"],
    version: "1.2.3",
    caution: CAUTION,
    ...given,
  };
}

const whole = reportOf();
const html = reductionReport(whole);
const { document } = parseHTML(html);
const all = (selector: string) => [...document.querySelectorAll(selector)];
const words = (selector: string) => all(selector).map((element) => (element.textContent ?? "").trim());

describe("the report of a reduction", () => {
  it("asks nothing of the network and runs nothing", () => {
    expect(html).not.toMatch(/<script|<link|<iframe|<img|@import|url\(|\bsrc=|\bhref=|\son\w+=/i);
    // The one address is the name of the SVG language, which is not fetched.
    expect(
      [...html.matchAll(/https?:[^"\s]*/g)]
        .map(([address]) => address)
        .every((a) => a === "http://www.w3.org/2000/svg"),
    ).toBe(true);
    expect(html).toContain("default-src 'none'");
  });

  it("is a page of HTML with a language, a title, one main heading and sections under it", () => {
    expect(html.startsWith('<!doctype html>\n<html lang="en">')).toBe(true);
    expect(words("title")).toContain("Gantry pull, Hallow Yard: readings against theory");
    expect(words("h1")).toEqual(["Gantry pull, Hallow Yard"]);
    expect(words("h2")).toEqual([
      "The rig as it lies",
      "Angle over load",
      "Movement over load",
      "Fitted unknowns",
      "Verdicts",
      "How this was computed",
    ]);
    expect(all("h3").length).toBe(0);
    expect(all("main").length).toBe(1);
  });

  it("has three figures, each named for those who do not see it and explained below", () => {
    expect(all("figure").length).toBe(3);
    for (const figure of all("figure")) {
      const svg = figure.querySelector("svg")!;
      expect(svg.getAttribute("role")).toBe("img");
      expect(svg.querySelector("title")!.textContent!.length).toBeGreaterThan(10);
      expect(svg.querySelector("desc")!.textContent!.length).toBeGreaterThan(40);
      expect(figure.querySelector("figcaption")!.textContent!.length).toBeGreaterThan(40);
    }
    expect(html).toContain("drawn to scale");
  });

  it("lists every reading with residual, weight and what was not believed", () => {
    const [angles, movements, unknowns] = all("table");
    const rows = (table: Element) => [...table.querySelectorAll("tbody tr")];
    expect(rows(angles!).length).toBe(run.readings.length);
    expect(rows(movements!).length).toBe(run.release.length);
    expect(rows(unknowns!).length).toBe(5);
    const outliers = whole.reduced.release.filter((row) => row.outlier);
    expect(outliers.length).toBeGreaterThan(0);
    const marked = rows(movements!).filter((row) => row.getAttribute("class") === "marked");
    expect(marked.length).toBe(outliers.length);
    for (const [i, row] of whole.reduced.release.entries()) {
      const cells = [...rows(movements!)[i]!.children].map((cell) => cell.textContent ?? "");
      expect(cells[1]).toBe(`${Math.round(row.movement * 1000)} mm`);
      expect(cells[5]!.includes("outlier")).toBe(row.outlier);
      if (i > 0) expect(Number(cells[3]!.replace("−", "-"))).toBeCloseTo(row.residual, 0);
    }
  });

  it("gives tables a caption and heads to rows and columns", () => {
    for (const table of all("table")) {
      expect(table.querySelector("caption")!.textContent!.length).toBeGreaterThan(10);
      const heads = [...table.querySelectorAll("thead th")];
      expect(heads.every((head) => head.getAttribute("scope") === "col")).toBe(true);
      for (const row of table.querySelectorAll("tbody tr")) {
        expect(row.children.length).toBe(heads.length);
        expect(row.children[0]!.getAttribute("scope")).toBe("row");
      }
    }
  });

  it("shows each unknown with its ± and what was known beforehand", () => {
    const table = words("table")[2]!;
    expect(table).toContain("7.40 ± 0.10 m");
    expect(table).toContain("1.400 ± 0.042 kg/m");
    expect(table).toContain("0.00° ± 0.50°");
    expect(table).toContain("nothing stated");
    expect(words(".found div").length).toBe(3);
  });

  it("says every verdict and the caution once", () => {
    for (const verdict of whole.verdicts.filter((one) => one.about !== "fit"))
      expect(words("li").join(" ")).toContain(judgementWords(verdict).slice(1));
    expect(html.split(CAUTION).length).toBe(2);
  });

  it("names its files and version, and a time only when it is given one", () => {
    expect(words("footer")[0]).toBe("Made from gantry-run.yaml and gantry-rig.yaml by rodebench 1.2.3.");
    expect(html).not.toMatch(/20\d\d-\d\d-\d\d|\b\d{1,2}:\d\d\b/);
    const made = reductionReport({ ...whole, made: "Printed on a Tuesday" });
    expect(made).toContain("<p>Printed on a Tuesday</p>");
  });

  it("is the same each time", () => expect(reductionReport(reportOf())).toBe(html));

  it("speaks US units throughout when asked to", () => {
    const us = parseHTML(reductionReport(reportOf({ units: "us" })))
      .document.querySelector("main")!
      .textContent!.replaceAll("chain 8 mm grade 30", "chain");
    for (const unit of ["lbf", "lb/ft", " ft", " in", "per 100 lbf"]) expect(us).toContain(unit);
    expect(us).not.toMatch(/\d (N|kg\/m|mm|m)\b(?!\/s²)/);
  });

  it("keeps what a user wrote as text, whatever it is", () => {
    const hostile = `</title></style><script>alert("1")</script><img src=x onerror='alert(2)'>&amp;]]>-->\u0000\u202e`;
    const bad = reductionReport(
      reportOf({
        run: { ...run, name: hostile },
        rig: { ...rig, name: hostile, rode: rig.rode.map((part) => ({ ...part, name: hostile })) },
        files: [hostile, hostile],
        version: hostile,
        made: hostile,
      }),
    );
    const page = parseHTML(bad).document;
    expect(bad).not.toMatch(/<script|<img/);
    expect(bad).not.toContain("\u0000");
    expect(page.querySelectorAll("script, img, [onerror]").length).toBe(0);
    expect(page.querySelector("h1")!.textContent).toContain(`<script>alert("1")</script>`);
    expect(page.querySelectorAll("figure").length).toBe(3);
  });

  it("stands without a release, and without angles", () => {
    const noRelease = parseHTML(reductionReport(reportOf({ run: { ...run, release: [] } }))).document;
    expect(noRelease.querySelectorAll("figure").length).toBe(2);
    const noAngles = parseHTML(reductionReport(reportOf({ run: { ...run, readings: [] } }))).document;
    expect(noAngles.querySelectorAll("figure").length).toBe(2);
    expect(noAngles.querySelector("main")!.textContent).toContain("Movement over load");
  });

  it("stands where readings settle nothing", () => {
    const one: Run = { ...run, readings: [{ load: 700, angle: 0.02, liftoff: false }], release: [] };
    const page = reductionReport(reportOf({ run: one, rig: { ...rig, uncertainty: {} } }));
    expect(page).not.toMatch(/NaN|undefined|Infinity/);
  });

  it("goes on with a rode that rests under every load, and says so in the drawing", () => {
    const low: Run = { ...run, readings: [{ load: 400, angle: 0, liftoff: false }], release: [] };
    expect(reductionReport(reportOf({ run: low }))).toContain(" at rest");
  });
});
