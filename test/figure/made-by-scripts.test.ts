import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { demoFiles } from "../../scripts/make-demo.ts";
import { docsFigures } from "../../scripts/make-figures.ts";

const root = join(import.meta.dirname, "../..");

describe("what scripts make is what lies in the tree", () => {
  const demo = demoFiles();
  it.each(Object.keys(demo))("data/demo/%s", (name) => {
    expect(readFileSync(join(root, "data/demo", name), "utf8")).toBe(demo[name]);
  });

  const figures = docsFigures();
  it.each(Object.keys(figures))("docs/figures/%s", (name) => {
    expect(readFileSync(join(root, "docs/figures", name), "utf8")).toBe(`${figures[name]}\n`);
  });

  it("every figure a page of the docs on readings shows is made", () => {
    const shown = ["reduce.md", "carry.md"].flatMap((page) =>
      [...readFileSync(join(root, "docs", page), "utf8").matchAll(/\]\(figures\/([^)]+)\)/g)].map((match) => match[1]),
    );
    expect(shown.length).toBeGreaterThan(3);
    for (const name of shown) expect(Object.keys(figures)).toContain(name);
    expect(readdirSync(join(root, "docs/figures"))).toEqual(expect.arrayContaining(shown));
  });

  it("the demo says in its first lines that it was never pulled", () => {
    expect(demo["gantry-run.yaml"]!.startsWith("# INVENTED READINGS. No such yard, boat or tester exists")).toBe(true);
    expect(demo["gantry-run.yaml"]).toContain("One honest difficulty: below 600 N chain lies on the ground and sticks");
  });
});
