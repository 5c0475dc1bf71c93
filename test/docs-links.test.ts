/** Every link of the docs leads somewhere, and every file shown in them is one that is read. */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { dirname, join, relative } from "node:path";
import { describe, expect, it } from "vitest";
import { readCatalogue } from "../src/gear/index.ts";
import { readSweep, sweepPaths } from "../src/motion/index.ts";
import { readCorrections, readRun } from "../src/pull/index.ts";
import { readDocument } from "../src/quantity/index.ts";
import { readRig } from "../src/rode/index.ts";
import { readBoat } from "../src/sea/index.ts";
import { planPaths, readPlan } from "../src/sizing/index.ts";
import { root } from "./support/command-line.ts";

const pages = [
  ...["README.md", "CONTRIBUTING.md", "CHANGELOG.md"].filter((page) => existsSync(join(root, page))),
  ...readdirSync(join(root, "docs"), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith(".md"))
    .map((entry) => relative(root, join(entry.parentPath, entry.name))),
].sort();
const textOf = (page: string) => readFileSync(join(root, page), "utf8");

/** The text without its blocks and without what stands between marks of code: there, brackets are no links. */
const prose = (text: string) => text.replace(/^```[\s\S]*?^```/gm, "").replace(/`[^`\n]*`/g, "");

/** The anchor of a heading as GitHub and VitePress make it, as far as these docs need it. */
const anchorOf = (heading: string) =>
  heading
    .replace(/`|\*|\[|\]\([^)]*\)/g, "")
    .trim()
    .toLowerCase()
    .replace(/[^\p{L}\p{N}\s_-]/gu, "")
    .replace(/\s/g, "-");

/** Why a link of a page leads nowhere; undefined when it leads somewhere. Only links within the repository are followed. */
function dead(page: string, target: string): string | undefined {
  if (/^[a-z]+:/.test(target)) return undefined;
  const [path = "", anchor] = target.split("#");
  const to = path === "" ? page : relative(root, join(root, dirname(page), decodeURI(path)));
  if (!existsSync(join(root, to))) return `${page}: ${target}: no such file`;
  if (anchor === undefined || !to.endsWith(".md")) return undefined;
  const anchors = [...textOf(to).matchAll(/^#+ (.*)$/gm)].map((match) => anchorOf(match[1]!));
  return anchors.includes(anchor) ? undefined : `${page}: ${target}: no such heading`;
}

describe("the links of the docs", () => {
  const links = pages.flatMap((page) =>
    [...prose(textOf(page)).matchAll(/\]\(([^)\s]+)\)/g)].map((match) => [page, match[1]!] as const),
  );
  it("are there, and lead somewhere", () => {
    expect(links.length).toBeGreaterThan(40);
    expect(links.flatMap(([page, target]) => dead(page, target) ?? [])).toEqual([]);
  });
  it("are told when they lead nowhere", () => {
    expect(dead("docs/README.md", "nowhere.md")).toBe("docs/README.md: nowhere.md: no such file");
    expect(dead("docs/README.md", "#no-such-part")).toBe("docs/README.md: #no-such-part: no such heading");
    expect(dead("docs/README.md", "#exit-status")).toBeUndefined();
    expect(dead("docs/README.md", "../README.md")).toBeUndefined();
  });
});

/** Files that a file names, by their paths as seen from a folder. */
const beside = (folder: string, paths: readonly string[]) =>
  Object.fromEntries(
    paths.map((path) => [path, { text: readFileSync(join(root, folder, path), "utf8"), place: path }] as const),
  );

/** Readers of the files that are shown in the docs, by their format. */
const readers: Readonly<Record<string, (text: string, place: string) => unknown>> = {
  "rodebench/rig@1": (text, place) => readRig(text, place),
  "rodebench/run@1": (text, place) => readRun(text, place),
  "rodebench/boat@1": (text, place) => readBoat(text, place),
  "rodebench/gear@1": (text, place) => readCatalogue(text, place),
  // The paths in them are seen from where the example lies.
  "rodebench/plan@1": (text, place) => readPlan(text, place, beside("data/plans", planPaths(text, place))),
  "rodebench/sweep@1": (text, place) => readSweep(text, place, beside("data/examples/sweeps", sweepPaths(text, place))),
  "rodebench/corrections@1": (text, place) => readCorrections(text, place),
};

describe("the files shown in the docs", () => {
  const blocks = pages.flatMap((page) =>
    [...textOf(page).matchAll(/^```(json|yaml)\n([\s\S]*?)^```/gm)].map((match) => {
      const line = textOf(page).slice(0, match.index).split("\n").length;
      return [`${page}:${line}`, match[1]!, match[2]!] as const;
    }),
  );
  it("are there", () => expect(blocks.length).toBeGreaterThanOrEqual(5));

  it.each(blocks)("%s is %s that is read", (where, kind, text) => {
    const data = kind === "json" ? (JSON.parse(text) as unknown) : readDocument(text, where);
    const { format } = data as { format?: string };
    if (format === undefined) return;
    expect(Object.keys(readers), `${where}: a format without a reader`).toContain(format);
    readers[format]!(text, where);
  });
});
