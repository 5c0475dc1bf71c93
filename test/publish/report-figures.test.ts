/** Each number of the report is the reduction's own, at its end and in its column. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { parseHTML } from "linkedom";
import { describe, expect, it } from "vitest";
import { type ReductionReport, reductionReport } from "../../src/publish/index.ts";
import { judge, type Run, readRun, reduce } from "../../src/pull/index.ts";
import { formatQuantity } from "../../src/quantity/index.ts";
import { type Rig, readRig, settle } from "../../src/rode/index.ts";

const demo = (name: string) => readFileSync(join(import.meta.dirname, "../../data/demo", name), "utf8");
const rig = readRig(demo("gantry-rig.yaml"), "gantry-rig.yaml");
const { run } = readRun(demo("gantry-run.yaml"), "gantry-run.yaml");

function report(r: Run = run, g: Rig = rig, units: "metric" | "us" = "metric") {
  const reduced = reduce(r, g);
  const given: ReductionReport = {
    run: r,
    rig: g,
    reduced,
    verdicts: judge(r, g, reduced),
    units,
    files: ["run.yaml"],
    version: "1.2.3",
    caution: "Care.",
  };
  const { document } = parseHTML(reductionReport(given));
  const all = (selector: string) => [...document.querySelectorAll(selector)];
  return {
    reduced,
    all,
    text: document.querySelector("main")!.textContent!,
    rows: (table: number) =>
      [...all("table")[table]!.querySelectorAll("tbody tr")].map((row) =>
        [...row.children].map((cell) => cell.textContent!.trim()),
      ),
  };
}
const minus = (text: string) => text.replace(/^-/, "−");
const metric = (value: number, dimension: "force" | "angle" | "length" | "massPerLength", u?: number) =>
  minus(formatQuantity(value, dimension, u === undefined ? {} : { u }));

describe("the report's numbers", () => {
  const { reduced, rows, all, text } = report();
  it("of each reading: load, angle read, theory, residual and weight", () => {
    for (const [i, row] of reduced.readings.entries()) {
      const [load, read, theory, residual, weight] = rows(0)[i]!;
      expect(load).toBe(metric(row.load, "force"));
      if (row.angle !== null) {
        expect(read).toBe(formatQuantity(row.angle, "angle", { digits: 3 }));
        expect(theory).toBe(formatQuantity(row.theory, "angle", { digits: 3 }));
      } else {
        expect(read).toBe("lift-off");
        expect(theory).toBe(`at ${metric(reduced.liftoff!, "force")}`);
      }
      expect(Math.abs(Number(residual!.replace("−", "-")) - row.residual)).toBeLessThanOrEqual(0.05 + 1e-9);
      expect(weight).toBe(row.weight.toFixed(2));
    }
  });
  it("of each movement, in millimetres, and where it is counted from", () => {
    for (const [i, row] of reduced.release.entries()) {
      const [load, read, theory, residual, weight, remark] = rows(1)[i]!;
      expect(load).toBe(metric(row.load, "force"));
      expect(read).toBe(minus(formatQuantity(row.movement, "length", { unit: "mm", digits: 3 })));
      expect(theory).toBe(minus(formatQuantity(row.theory, "length", { unit: "mm", digits: 3 })));
      expect(Math.abs(Number(residual!.replace("−", "-")) - row.residual)).toBeLessThanOrEqual(0.05 + 1e-9);
      expect(weight).toBe(row.weight.toFixed(2));
      expect(remark!.includes("counted from here")).toBe(i === 0);
    }
  });
  it("of each unknown: fitted, stated beforehand, and moved by how many of its ±", () => {
    const { fitted, beforehand } = reduced;
    const told = new Map(rows(2).map(([name, ...rest]) => [name, rest]));
    const moved = (key: "massPerLength" | "rise" | "gaugeZero") => {
      const by = (fitted[key]!.value - beforehand[key]!.value) / beforehand[key]!.u;
      return `${by < 0 && Math.abs(by) >= 0.05 ? "−" : ""}${Math.abs(by).toFixed(1)}`;
    };
    for (const [name, key, dimension] of [
      ["mass per length", "massPerLength", "massPerLength"],
      ["rise", "rise", "length"],
      ["zero of the angle gauge", "gaugeZero", "angle"],
    ] as const) {
      expect(told.get(name)).toEqual([
        metric(fitted[key]!.value, dimension, fitted[key]!.u),
        metric(beforehand[key]!.value, dimension, beforehand[key]!.u),
        moved(key),
      ]);
    }
    // Millimetres a kilonewton.
    expect(told.get("give of the rig itself")![0]).toBe(
      `${formatQuantity(fitted.rigGive!.value * 1000, "length", { unit: "mm", u: fitted.rigGive!.u * 1000 })} per kN`,
    );
    expect(told.get("zero of the tape")![0]).toBe(
      formatQuantity(fitted.tapeZero!.value, "length", { unit: "mm", u: fitted.tapeZero!.u }),
    );
  });
  it("at its head: mass, rise and give, each with what was known before", () => {
    const found = all(".found div").map((one) => one.textContent!.replace(/\s+/g, " "));
    const { fitted, beforehand } = reduced;
    expect(found[0]).toBe(
      `mass per length${metric(fitted.massPerLength!.value, "massPerLength", fitted.massPerLength!.u)}beforehand ${metric(beforehand.massPerLength!.value, "massPerLength", beforehand.massPerLength!.u)}`,
    );
    expect(found[1]).toBe(
      `rise${metric(fitted.rise!.value, "length", fitted.rise!.u)}beforehand ${metric(beforehand.rise!.value, "length", beforehand.rise!.u)}`,
    );
    expect(found[2]).toMatch(/^give of the rig itself.* per kN$/);
    expect(text).toContain(`By theory the anchor end lifts at ${metric(reduced.liftoff!, "force")}.`);
    const off = [...reduced.readings, ...reduced.release].filter((row) => row.outlier || row.suspect).length;
    expect(text).toContain(`${off} readings stand out and are given little weight`);
  });
  it("columns of numbers are set as numbers, names and remarks as words", () => {
    for (const table of all("table").slice(0, 2))
      for (const row of table.querySelectorAll("tbody tr")) {
        const kinds = [...row.children].map((cell) => cell.getAttribute("class") ?? "");
        expect(new Set(kinds.slice(0, -1)).size).toBe(1);
        expect(kinds[0]).not.toBe("");
        expect(kinds.at(-1)).not.toBe(kinds[0]);
      }
  });
  it("in US units: pounds-force, inches, and give by the hundred pounds", () => {
    const us = report(run, rig, "us");
    const give = us.reduced.fitted.rigGive!;
    const per = 100 * 4.4482216152605;
    expect(us.text).toContain(
      `${formatQuantity(give.value * per, "length", { unit: "in", u: give.u * per })} per 100 lbf`,
    );
    expect(us.rows(1)[1]![1]).toBe(
      minus(formatQuantity(us.reduced.release[1]!.movement, "length", { unit: "in", digits: 3 })),
    );
  });
});

describe("the drawing of the report", () => {
  it("is of the highest load read, at the end it was read, with the lowest dotted behind where that is well below", () => {
    const { text, reduced } = report();
    const loads = [...run.readings, ...run.release].map((row) => row.load);
    const [low, high] = [Math.min(...loads), Math.max(...loads)];
    expect(text).toContain(`At ${metric(high, "force")} at the`);
    expect(text).toContain(`Dotted: at ${metric(low, "force")}, the lowest load read.`);
    const settled = settle(reduced.rig, { at: run.loadCellAt, newtons: high });
    if (settled.kind !== "settled") throw new Error(settled.cause);
    const other = run.loadCellAt === "bow" ? settled.anchor.tension : settled.bow.tension;
    // The other end's load stands in the drawing, to the digits its ± allows.
    expect(text).toContain(String(Math.round(other / 100)).slice(0, 2));
    const ends = (r: Run) => {
      const drawn = report(r).text;
      return /It pulls with ([\d.]+ N) at/.exec(drawn)?.[1];
    };
    const bow: Run = { ...run, loadCellAt: "bow", angleAt: "anchor" };
    const anchor: Run = { ...run, loadCellAt: "anchor", angleAt: "bow" };
    expect(ends(bow)).not.toBe(ends(anchor));
  });
  it("has nothing behind it where all loads are much alike", () => {
    const alike: Run = {
      ...run,
      readings: run.readings.map((row, i) => ({ ...row, load: 2000 + 10 * i })),
      release: [],
    };
    expect(report(alike).text).not.toContain("Dotted: at");
  });
  it("is left out where the rig does not carry the load, and the rest stands", () => {
    const reduced = reduce(run, rig);
    const tall: Rig = { ...reduced.rig, setting: { ...reduced.rig.setting, rise: 900 } as Rig["setting"] };
    const html = reductionReport({
      run,
      rig,
      reduced: { ...reduced, rig: tall },
      verdicts: [],
      units: "metric",
      files: [],
      version: "1",
      caution: "",
    });
    expect(html).not.toContain("The rig as it lies");
    expect(html).toContain("Fitted unknowns");
  });
});
