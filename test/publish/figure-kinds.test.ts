/** The bench and the command know the same figures: every frame of a place has a kind, and every kind is drawn and told. */
import { readdirSync, readFileSync } from "node:fs";
import { join, relative } from "node:path";
import { describe, expect, it } from "vitest";
import { systemPorts } from "../../src/book/index.ts";
import type { Io } from "../../src/cli/io.ts";
import { figureKinds } from "../../src/cli/publish-figure.ts";
import { FIGURE_KINDS } from "../../src/publish/index.ts";
import { root } from "../support/command-line.ts";

const web = join(root, "src/web");
const components = readdirSync(web, { recursive: true, withFileTypes: true })
  .filter((entry) => entry.isFile() && entry.name.endsWith(".tsx"))
  .map((entry) => relative(web, join(entry.parentPath, entry.name)))
  .sort();
const source = (path: string): string => readFileSync(join(web, path), "utf8");

/** What makes a frame, and passes on the kind it was given. */
const FRAMES = ["figure/figure-frame.tsx", "figure/drawn-figure.tsx", "controls/curve.tsx"];
const FRAME = /<(FigureFrame|DrawnFigure|Curve)\s+([\w-]+)(?:=(?:"([^"]*)"|\{([^}]*)\}))?/g;

/** Each frame that a component of a place stands, with the kind it states first. */
const frames = components
  .filter((path) => !FRAMES.includes(path))
  .flatMap((path) =>
    [...source(path).matchAll(FRAME)].map(([, , attribute, kind]) => ({
      path,
      kind: attribute === "kind" ? (kind ?? null) : null,
    })),
  );

/** Rows of a table of docs/publish.md by its head. */
function rowsOf(head: string): string[][] {
  const lines = readFileSync(join(root, "docs/publish.md"), "utf8").split("\n");
  const at = lines.indexOf(head);
  expect(at, head).toBeGreaterThan(0);
  const rest = lines.slice(at + 2);
  return rest.slice(0, rest.indexOf("")).map((line) =>
    line
      .split("|")
      .slice(1, -1)
      .map((cell) => cell.trim()),
  );
}

/** Components that draw and need no frame of their own, and why. */
const NO_FIGURE: Readonly<Record<string, string>> = {
  "controls/asked.tsx": "the parts of a ±",
  "days/devices/address-code.tsx": "a code to be read by a camera",
  "days/heading.tsx": "a sign",
  "days/log/marks-layer.tsx": "stands within the trace",
  "days/log/minimap.tsx": "a control of the trace",
  "days/log/trace-read-out.tsx": "stands within the trace",
  "days/small-trace.tsx": "an outline in a list; the log it is of has its figure",
  "figure/read-out.tsx": "under the hand, over a figure",
  "rig/parts-list.tsx": "signs",
  "shell/places-bar.tsx": "signs",
  "shell/undo-buttons.tsx": "signs",
  "weather/gale/gale-view.tsx": "framed by gale-ride.tsx",
  "weather/wind/load-key.tsx": "signs of a key",
  "weather/wind/tables-note.tsx": "signs of a key",
};

describe("kinds of figures", () => {
  it("are those that the command draws, by the same names", () => {
    const commands = figureKinds({} as Io, systemPorts).map(({ command }) => command.name());
    expect([...commands].sort()).toEqual([...FIGURE_KINDS].sort());
    expect(new Set(commands).size).toBe(commands.length);
  });

  it("are stated by every frame of the bench, and every kind is shown in some place", () => {
    expect(frames.length).toBeGreaterThan(20);
    expect(frames.filter(({ kind }) => kind === null || !FIGURE_KINDS.some((one) => one === kind))).toEqual([]);
    expect([...new Set(frames.map(({ kind }) => kind))].sort()).toEqual([...FIGURE_KINDS].sort());
  });

  it("leave no drawing of a place without a frame, but those that are no figures", () => {
    const drawing = components.filter((path) => /<svg\b|<canvas\b|dangerouslySetInnerHTML/.test(source(path)));
    const unframed = drawing.filter((path) => !FRAMES.includes(path) && !frames.some((frame) => frame.path === path));
    // What leaves as a report, a page or a film is looked at as others will see it.
    const outgoing = unframed.filter((path) => path.startsWith("publish/") || path.startsWith("viewer/"));
    expect(unframed.filter((path) => !outgoing.includes(path))).toEqual(Object.keys(NO_FIGURE).sort());
  });

  it("stand in the docs: how each is asked for, and in which place it is shown", () => {
    const asked = rowsOf("| kind | what it draws |").flatMap(([kinds]) =>
      [...kinds!.matchAll(/`([a-z-]+) /g)].map(([, kind]) => kind!),
    );
    expect([...asked].sort()).toEqual([...FIGURE_KINDS].sort());
    const told = rowsOf("| place | drawing or plot | kind |").map(
      ([place, , kind]) => `${place!.toLowerCase()} ${kind!.replaceAll("`", "")}`,
    );
    const shown = frames.map(({ path, kind }) => `${path.split("/")[0]} ${kind}`);
    expect([...new Set(told)].sort()).toEqual([...new Set(shown)].sort());
  });
});
