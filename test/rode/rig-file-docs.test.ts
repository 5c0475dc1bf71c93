import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { LONGEST_FILE } from "../../src/quantity/index.ts";
import { readRig, settle } from "../../src/rode/index.ts";

const page = readFileSync(join(import.meta.dirname, "../../docs/rig-file.md"), "utf8");
const blocks = [...page.matchAll(/```yaml\n([\s\S]*?)```/g)].map((match) => match[1]!);

describe("the page on rig files", () => {
  it("has examples", () => expect(blocks).toHaveLength(2));

  it.each(blocks)("shows a rig that is read and that settles: %s", (text) => {
    const rig = readRig(text, "docs");
    expect(settle(rig, { at: "bow", newtons: 3000 }).kind).toBe("settled");
  });

  const wrong = [...page.matchAll(/^\| `(len[^`]*)` \| `([^`]*)` \|$/gm)].map(
    (match) => [match[1]!, match[2]!] as const,
  );
  it("has wrong fields", () => expect(wrong).toHaveLength(3));

  it.each(wrong)("says how %s is refused", (field, line) => {
    const text = blocks[0]!.replace("length: 32 m", field);
    expect(() => readRig(text, "quay.yaml")).toThrow(expect.objectContaining({ name: "InputError", message: line }));
  });

  it("states the longest file", () => expect(page).toContain(`more than ${LONGEST_FILE} characters`));
});
