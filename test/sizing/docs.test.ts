import { describe, expect, it } from "vitest";
import { choose, readPlan } from "../../src/sizing/index.ts";
import { read } from "./command.ts";

describe("docs/choose.md", () => {
  const [, yaml] = /```yaml\n([\s\S]*?)```/.exec(read("docs/choose.md"))!;
  const files = { "../boats/marsh-tern.yaml": { text: read("data/boats/marsh-tern.yaml"), place: "marsh-tern.yaml" } };

  it("shows a plan that reads, each of its candidates with an answer", () => {
    const plan = readPlan(yaml!, "docs/choose.md", files);
    expect(plan.candidates).toHaveLength(5);
    for (const one of choose(plan).candidates) expect(one.kind).toBe("weighed");
  });
});
