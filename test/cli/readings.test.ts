import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { InputError } from "../../src/quantity/index.ts";
import { readRig, riseOf } from "../../src/rode/index.ts";
import { rodebench as commandLine } from "../support/command-line.ts";

const data = join(import.meta.dirname, "../../data");

/** Runs a command line in data/, and keeps what it writes. */
async function rodebench(argv: readonly string[], files: Record<string, string> = {}) {
  const written: Record<string, string> = {};
  const write = async (path: string, content: string | Uint8Array) => {
    if (path.startsWith("locked/"))
      throw new InputError(path, "cannot be written", "a path in a writable folder is expected");
    written[path] = String(content);
  };
  return { ...(await commandLine(argv, files, { cwd: data, write })), written };
}

const RUN = "demo/gantry-run.yaml";

describe("rodebench reduce", () => {
  it("answers on the demo in words, with its outliers and what was fitted", async () => {
    const { out, err, status } = await rodebench(["reduce", RUN]);
    expect([status, err]).toEqual([0, ""]);
    expect(out.startsWith("Gantry pull, Hallow Yard\n")).toBe(true);
    expect(out.match(/outlier\n/g)!.length).toBe(2);
    expect(out).toMatch(/mass per length {3}1\.4\d\d ± 0\.0\d\d kg\/m\n/);
    expect(out).toMatch(/give of the rig {3}.* mm per kN\n/);
  });

  it("finds what the demo's script put in, each within 2.5 of its own ±", async () => {
    const { out } = await rodebench(["reduce", RUN, "--json"]);
    const { fitted, release } = JSON.parse(out);
    const off = (value: { value: number; u: number }, truth: number) => Math.abs(value.value - truth) / value.u;
    // The seed is one draw: 2.5 is where reduce itself would call it an outlier.
    expect(off(fitted.massPerLength_kg_per_m, 1.4 * 1.025)).toBeLessThan(2.5);
    expect(off(fitted.rise_m, 7.46)).toBeLessThan(2.5);
    expect(off(fitted.gaugeZero_deg, 0.3)).toBeLessThan(2.5);
    expect(off(fitted.rigGive_m_per_N, 3.2e-6)).toBeLessThan(2.5);
    // The sticking chain is where the file says it is.
    const outliers = release
      .filter((row: { outlier: boolean }) => row.outlier)
      .map((row: { load_N: number }) => row.load_N);
    expect(outliers).toEqual([500, 400]);
  });

  it("gives one JSON document and nothing else, also while it writes a report", async () => {
    const { out, err, status, written } = await rodebench(["reduce", RUN, "--json", "--report", "out.html"]);
    expect([status, err]).toEqual([0, ""]);
    expect(Object.keys(JSON.parse(out))).toContain("verdicts");
    expect(Object.keys(written)).toEqual(["out.html"]);
  });

  it("writes the report beside its answer and names it", async () => {
    const { out, written } = await rodebench(["reduce", RUN, "--report", "out.html", "--units", "us"]);
    expect(out.endsWith("\nThe report is written to out.html\n")).toBe(true);
    const html = written["out.html"]!;
    expect(html.startsWith("<!doctype html>")).toBe(true);
    expect(html).toContain("gantry-run.yaml and gantry-rig.yaml");
    expect(html).toContain("lbf");
    expect(html.split("Loaded gear hurts people").length).toBe(2);
    const version = JSON.parse(readFileSync(join(data, "../package.json"), "utf8")).version;
    expect(html).toContain(`rodebench ${version}`);
  });

  it("writes the fitted rig, with the fitted ± as its own, for the next command to read", async () => {
    const { out, written } = await rodebench(["reduce", RUN, "--rig-to", "fitted.yaml"]);
    expect(out.endsWith("\nThe fitted rig is written to fitted.yaml\n")).toBe(true);
    const { fitted } = JSON.parse((await rodebench(["reduce", RUN, "--json"])).out);
    const rig = readRig(written["fitted.yaml"]!, "fitted.yaml");
    const { massPerLength_kg_per_m: mass, rise_m: rise } = fitted;
    expect(rig.rode.find((part) => part.kind === "line")).toMatchObject({ massPerLength: mass.value });
    expect(riseOf(rig.setting)).toBe(rise.value);
    expect(rig.uncertainty.massPerLength! / (mass.u / mass.value)).toBeCloseTo(1, 9);
    expect(rig.uncertainty.rise).toBe(rise.u);
    const settled = await rodebench(
      ["settle", "fitted.yaml", "--pull", "1500N", "--at", "bow"],
      written as Record<string, string>,
    );
    expect(settled.status).toBe(0);
  });

  it("takes the run from standard input, its rig beside where it is called", async () => {
    const text = readFileSync(join(data, RUN), "utf8").replace("rig: gantry-rig.yaml", "rig: demo/gantry-rig.yaml");
    const piped = await rodebench(["reduce", "-", "--json"], { "-": text });
    const named = await rodebench(["reduce", RUN, "--json"]);
    expect(piped.out).toBe(named.out);
  });

  it("says in one line why a report cannot be written, and answers nothing", async () => {
    for (const path of ["-", "", "locked/out.html"]) {
      const { out, err, status } = await rodebench(["reduce", RUN, "--report", path]);
      expect([status, out], path).toEqual([2, ""]);
      expect(err.trim().split("\n").length).toBe(1);
      expect(err).toContain("is expected");
    }
  });
});

describe("a load read that the rig cannot be in equilibrium under", () => {
  it("is told in one line, with the nearest that would do, status 3", async () => {
    const text = readFileSync(join(data, RUN), "utf8")
      .replace("rig: gantry-rig.yaml", "rig: demo/gantry-rig.yaml")
      .replace("load: 400", "load: 40");
    const { out, err, status } = await rodebench(["reduce", "-"], { "-": text });
    expect([status, out]).toEqual([3, ""]);
    expect(err).toMatch(/^standard input: release #12\.load: no equilibrium: .*; .*\n$/);
  });
});

describe("rodebench carry", () => {
  const argv = ["carry", "examples/runs/three-loads.yaml", "--to", "examples/rigs/all-chain-afloat.yaml"];

  it("gives each load as those of the other rig, with its budget and one caution", async () => {
    const { out, err, status } = await rodebench(argv);
    expect([status, err]).toEqual([0, ""]);
    expect(out).toContain("Three loads on the quay: Quay rig, read at the bow, stands for All chain afloat");
    for (const load of ["1500 N", "2000 N", "3000 N"]) expect(out).toContain(`\n${load}`);
    expect(out).toContain("Where the uncertainty at the bow comes from");
    expect(out.match(/Loaded gear hurts people/g)!.length).toBe(1);
  });

  it("answers in the fields of the contract, at the angle of the stand-in", async () => {
    const { rows, verdicts } = JSON.parse((await rodebench([...argv, "--json"])).out);
    expect(rows.map((row: { read_N: number }) => row.read_N)).toEqual([1500, 2000, 3000]);
    expect(verdicts.length).toBeGreaterThan(3);
    for (const row of rows) {
      const settled = JSON.parse(
        (
          await rodebench([
            "settle",
            "examples/rigs/all-chain-afloat.yaml",
            "--pull",
            `${row.bow_N} N`,
            "--at",
            "bow",
            "--json",
          ])
        ).out,
      );
      // Printed to full digits: the two solves agree to their own 1e-12.
      expect(Math.abs(settled.anchor.angle_deg - row.anchorAngle_deg)).toBeLessThan(1e-9);
      expect(Math.abs(settled.anchor.tension_N / row.anchor_N - 1)).toBeLessThan(1e-9);
      expect(row.uncertainty.bow_N).toBeGreaterThan(0);
    }
  });

  it("shows US units when asked to", async () => {
    const { out } = await rodebench([...argv, "--units", "us"]);
    expect(out).toContain("lbf");
    expect(out).not.toMatch(/\d N\b/);
  });

  it.each([
    [["carry", RUN], /^--to: /],
    [["carry", RUN, "--to", "none.yaml"], /^none\.yaml: no such file; /],
    [["carry", "none.yaml", "--to", "demo/marsh-tern-rode.yaml"], /^none\.yaml: no such file; /],
    [["carry", "-", "--to", "-"], /^--to: -; /],
    [["carry", RUN, "--to", RUN], /^demo\/gantry-run\.yaml: /],
    [["carry"], /^rodebench: missing required argument/],
    [["reduce", RUN, "--units", "old"], /^rodebench: option '--units/],
    [["reduce", RUN, "--nonsense"], /^rodebench: unknown option/],
  ] as const)("%j is told in one line", async (argv, line) => {
    const { out, err, status } = await rodebench(argv, { "-": "format: rodebench/run@1" });
    expect([status, out]).toEqual([2, ""]);
    expect(err).toMatch(line);
    expect(err.trim().split("\n").length).toBe(1);
  });
});
