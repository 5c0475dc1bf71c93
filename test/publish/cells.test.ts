/** Every cell of a report against the reduction it was made from, formatted here on its own. */
import { parseHTML } from "linkedom";
import { describe, expect, it } from "vitest";
import { type ReductionReport, reductionReport } from "../../src/publish/index.ts";
import { judge, type Run, readRun, reduce } from "../../src/pull/index.ts";
import { formatQuantity } from "../../src/quantity/index.ts";
import type { Rig } from "../../src/rode/index.ts";
import { judgementWords } from "../../src/words/index.ts";

const LBF = 4.4482216152605;

function read(
  more = "",
  uncertainty = "{ load: 20 N, angle: 0.4 deg, movement: 3 mm }",
  friction = "",
): ReductionReport {
  const { run, rig } = readRun(
    `format: rodebench/run@1
name: Cells
rig:
  format: rodebench/rig@1
  name: Rig
  setting: { medium: air, rise: 7.4 m${friction} }
  rode: [{ line: { length: 26 m, massPerLength: 1.4 kg/m, density: 7850 kg/m3 } }]
  uncertainty: { massPerLength: 3 %, rise: 0.1 m }
loadCellAt: bow
angleAt: anchor
uncertainty: ${uncertainty}
readings:
  - { load: 670 N, event: liftoff }
  - { load: 700 N, angle: 0.9 deg }
  - { load: 900 N, angle: 4.5 deg }
  - { load: 1200 N, angle: 12.8 deg }
  - { load: 1600 N, angle: 10.4 deg }
  - { load: 2400 N, angle: 12.2 deg }
release: [{ load: 2400 N, movement: 0 }, { load: 1800 N, movement: 27 mm }, { load: 1200 N, movement: 97 mm }, { load: 800 N, movement: 246 mm }, { load: 500 N, movement: 627 mm }]
${more}`,
    "run.yaml",
  );
  if (rig.kind !== "within") throw new Error("the rig lies within");
  return of(run, rig.rig);
}
function of(run: Run, rig: Rig): ReductionReport {
  const reduced = reduce(run, rig);
  return {
    run,
    rig,
    reduced,
    verdicts: judge(run, rig, reduced),
    units: "metric",
    files: ["run.yaml"],
    version: "1",
    caution: "Care.",
  };
}
const report = read();
const { reduced } = report;
const pageOf = (of: ReductionReport) => parseHTML(reductionReport(of)).document;
type Page = ReturnType<typeof pageOf>;
const rowsOf = (page: Page, table: number): string[][] =>
  [...[...page.querySelectorAll("table")][table]!.querySelectorAll("tbody tr")].map((row) =>
    [...row.children].map((cell) => (cell.textContent ?? "").trim()),
  );
const textOf = (page: Page): string => page.querySelector("main")!.textContent!.replace(/\s+/g, " ");
const signed = (text: string): string => text.replace(/^-/, "−");
const one = (residual: number): string => signed(residual.toFixed(1)).replace("−0.0", "0.0");
const remark = (row: { outlier: boolean; resting: boolean }): string =>
  [row.outlier && "outlier", row.resting && "rode rests on the ground"].filter(Boolean).join(", ");

describe.each(["metric", "us"] as const)("a report in %s units", (units) => {
  const page = pageOf({ ...report, units });
  const force = (newtons: number): string => formatQuantity(newtons, "force", { system: units });

  it("has of every angle: load, angle, theory, residual, weight, remark, in this order", () => {
    const rows = rowsOf(page, 0);
    expect(reduced.readings.some((row) => row.outlier)).toBe(true);
    reduced.readings.forEach((row, i) => {
      const angle = (radians: number): string => formatQuantity(radians, "angle", { digits: 3 });
      expect(rows[i]).toEqual([
        force(row.load),
        row.angle === null ? "lift-off" : angle(row.angle),
        row.angle === null ? `at ${force(reduced.liftoff!)}` : angle(row.theory),
        one(row.residual),
        row.weight.toFixed(2),
        remark(row),
      ]);
    });
    const heads = [...page.querySelectorAll("table")].map((table) =>
      [...table.querySelectorAll("thead th")].map((head) => head.textContent),
    );
    expect(heads).toEqual([
      ["load", "angle read", "theory", "residual", "weight", "remark"],
      ["load", "movement read", "theory", "residual", "weight", "remark"],
      ["unknown", "fitted", "beforehand", "moved"],
    ]);
  });

  it("has of every movement the same, counted from the first row", () => {
    const unit = units === "us" ? "in" : "mm";
    const length = (metres: number): string => signed(formatQuantity(metres, "length", { unit, digits: 3 }));
    expect(rowsOf(page, 1)).toEqual(
      reduced.release.map((row, i) => [
        force(row.load),
        length(row.movement),
        length(row.theory),
        one(row.residual),
        row.weight.toFixed(2),
        [i === 0 && "counted from here", remark(row)].filter(Boolean).join(", "),
      ]),
    );
  });

  it("has of every unknown: what was fitted, what was known beforehand, by how many of its u it moved", () => {
    const { fitted, beforehand } = reduced;
    const told = (value: { value: number; u: number }, dimension: "massPerLength" | "length" | "angle"): string =>
      signed(formatQuantity(value.value, dimension, { system: units, u: value.u }));
    const moved = (now: { value: number }, then: { value: number; u: number }): string =>
      one((now.value - then.value) / then.u);
    const per = units === "us" ? ([100 * LBF, "in", "100 lbf"] as const) : ([1e3, "mm", "kN"] as const);
    const give = fitted.rigGive!;
    const giveText = `${formatQuantity(give.value * per[0], "length", { unit: per[1], u: give.u * per[0] })} per ${per[2]}`;
    expect(rowsOf(page, 2)).toEqual([
      [
        "mass per length",
        told(fitted.massPerLength!, "massPerLength"),
        told(beforehand.massPerLength!, "massPerLength"),
        moved(fitted.massPerLength!, beforehand.massPerLength!),
      ],
      ["rise", told(fitted.rise!, "length"), told(beforehand.rise!, "length"), moved(fitted.rise!, beforehand.rise!)],
      [
        "zero of the angle gauge",
        told(fitted.gaugeZero!, "angle"),
        told(beforehand.gaugeZero!, "angle"),
        moved(fitted.gaugeZero!, beforehand.gaugeZero!),
      ],
      ["give of the rig itself", giveText, "nothing stated", ""],
      [
        "zero of the tape",
        formatQuantity(fitted.tapeZero!.value, "length", { unit: units === "us" ? "in" : "mm", u: fitted.tapeZero!.u }),
        "nothing stated",
        "",
      ],
    ]);
    // The numbers a reader looks for first are the same.
    const found = [...page.querySelectorAll(".found div")].map((div) => div.textContent!.replace(/\s+/g, " ").trim());
    expect(found[0]).toBe(
      `mass per length${told(fitted.massPerLength!, "massPerLength")}beforehand ${told(beforehand.massPerLength!, "massPerLength")}`,
    );
    expect(found[1]).toBe(`rise${told(fitted.rise!, "length")}beforehand ${told(beforehand.rise!, "length")}`);
    expect(found[2]).toBe(`give of the rig itself${giveText}`);
  });
});

describe("what a report says in words", () => {
  const page = pageOf(report);
  const said = textOf(page);

  it("counts what stands out, and names the load of lift-off", () => {
    const off = [...reduced.readings, ...reduced.release].filter((row) => row.outlier).length;
    expect(said).toContain(
      off === 1
        ? "One reading stands out and is given little weight"
        : `${off} readings stand out and are given little weight`,
    );
    expect(said).toContain(`By theory the anchor end lifts at ${formatQuantity(reduced.liftoff!, "force", {})}.`);
    const calm = { ...reduced, readings: reduced.readings.map((row) => ({ ...row, outlier: false })), liftoff: null };
    const quiet = textOf(
      pageOf({ ...report, reduced: { ...calm, release: calm.release.map((row) => ({ ...row, outlier: false })) } }),
    );
    expect(quiet).toContain("No reading stands out.");
    expect(quiet).not.toContain("the anchor end lifts");
  });

  it("says which end the load was read at, and what the rig hangs in", () => {
    expect(said).toContain("hanging in air, load read at the upper end");
    const swapped = textOf(pageOf({ ...report, run: { ...report.run, loadCellAt: "anchor", angleAt: "bow" } }));
    expect(swapped).toContain("load read at the anchor end");
    expect(swapped).toContain("Angle read at the upper end");
    expect(said).toContain("Angle read at the anchor end");
  });

  it("draws the rig at the highest load read and, where it lies far below, at the lowest", () => {
    expect(said).toContain("At 2400 N at the upper end, the highest load read");
    expect(said).toContain("Dotted: at 500 N, the lowest load read.");
    const near = { ...report.run, readings: report.run.readings.filter((row) => row.load > 2000), release: [] };
    expect(textOf(pageOf(of(near, report.rig)))).not.toContain("Dotted");
  });

  it("groups its verdicts: readings by their load, then the rig, then short cuts", () => {
    const items = [...page.querySelectorAll("li")].map((item) => item.textContent!);
    const upper = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
    const about = (...kinds: string[]) => report.verdicts.filter((verdict) => kinds.includes(verdict.about));
    expect(items).toEqual([
      // The first of the fit stands at the head of the page.
      ...about("fit")
        .slice(1)
        .map((one) => `${upper(judgementWords(one))}.`),
      ...about("reading", "release").map(
        (one) => `At ${formatQuantity(one.load!, "force", {})} ${judgementWords(one)}.`,
      ),
      ...about("unknown").map((one) => `${upper(judgementWords(one))}.`),
      ...about("simplification").map((one) => `${upper(judgementWords(one))}.`),
    ]);
    expect(said).toContain("Readings to doubt:");
    expect(said).toContain("What the readings say of the rig:");
    expect(said).toContain("Short cuts, and whether they may be taken at these loads:");
    const none = textOf(pageOf({ ...report, verdicts: [] }));
    expect(none).toContain("No reading is called an outlier.");
    expect(none).not.toMatch(/Readings to doubt|Short cuts|say of the rig/);
  });

  it("states the uncertainties the run states, each by its name, or that it states none", () => {
    expect(said).toContain("as stated: load 20 N, angle 0.4°, movement 3 mm.");
    expect(textOf(pageOf(read("", "{}")))).toContain("The run states no uncertainty of a reading");
    const onlyAngle = textOf(pageOf(read("", "{ angle: 0.4 deg }")));
    expect(onlyAngle).toMatch(/as stated: angle [\d.]+°\./);
  });

  it("says whether what lies on the ground rubs", () => {
    expect(said).toContain("no friction of what lies on the ground");
    expect(textOf(pageOf(read("", undefined, ", bottomFriction: 0.6")))).toContain("pulls back by friction");
  });

  it("says that the readings scatter more than stated only where they do", () => {
    const wide = { ...report, reduced: { ...reduced, scatter: 1.7, outlierBeyond: 2.5 * 1.7 } };
    expect(textOf(pageOf(wide))).toContain(
      "Beyond 2.5 standard uncertainties of what the fit leaves of it, widened 1.7 times",
    );
    expect(textOf(pageOf(wide))).toContain("spread more widely than stated, 1.7 times in all");
    const even = { ...report, reduced: { ...reduced, scatter: 1, outlierBeyond: 2.5 } };
    expect(textOf(pageOf(even))).not.toMatch(/widened|more widely/);
  });
});
