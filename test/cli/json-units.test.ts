/** Every number of a JSON answer has its unit in its name, or has none; every answer begins with its format. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { writeWhole } from "../../src/cli/write-whole.ts";
import { rodebench, root } from "../support/command-line.ts";

const RIG = "data/demo/gantry-rig-afloat.yaml";
const BOAT = "data/boats/marsh-tern.yaml";

/** A unit at the end of a name, of the number itself or of the group it stands in. */
const UNIT = /^bytes$|_(N|m|bytes|h|deg|kg|s|J|W|K|Hz|m2|m3|\w*_per_\w+|per_\w+)$/;

/** Names of what has no unit: counts, shares, statistics, places in a list. */
const BARE =
  /^(scope|part|parts|strengthPart|count|without|lifted|draws|shareAtBow|residual|standardised|weight|influence|scatter|ratio|effectiveUnknowns|untold|force|factor|intensity|exponent|dof|residuals|weakest|\w*Share|share|relativeUncertainty|readings|dropped|independent|peakCount|upcrossings|total|cycles|rejected|unreadable|empty|headersAgain|repeatedRows|standIns|others|otherUnits|comments|line|missing|overload|pulls|gaveWay|heldOn|between|neverHeld|atRisk|chance|se|low|high|of|chi2|df|p|pPermuted|terms|logScale|logLikelihood|seed|snatches|windage_u|largestOverStill|peaksAbove|shape|rides|whole|asked|done|found|withoutAnswer|brokeOff|\w+OverStill|\w+OfWorkingLoad|held|withoutHour|repeats|wrong|ended|gain|confidence|\w+Line|number|rows|known|counts|version|transactions|changes|files|fields|overtaken)$/;

/** Groups that name their unit beside the number: a value beside its field, and how a log was read, unit by column. */
const BESIDE = [
  "history.transactions.changes.value",
  "list.records.mapping.plan",
  "find.value",
  "find.uncertainty.value",
  "find.uncertainty.draws.interval95",
  "gear.rows.figures",
];

function unnamed(value: unknown, path: string, named: boolean): string[] {
  if (typeof value === "number") return named ? [] : [path];
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([name, inner]) =>
    Array.isArray(value)
      ? unnamed(inner, path, named)
      : unnamed(inner, `${path}.${name}`, named || UNIT.test(name) || BARE.test(name)),
  );
}

const cwd = mkdtempSync(join(tmpdir(), "json-units-"));
const LOG = join(root, "data/examples/pulls/three-steps.csv");

beforeAll(async () => {
  await rodebench(["book", "demo", "demo.book"], {}, { cwd });
});
afterAll(() => rmSync(cwd, { recursive: true, force: true }));

const inUnits = async (argv: readonly string[], where: string) => {
  const { out, err } = await rodebench(
    [...argv, "--json"],
    {},
    where === "" ? {} : { cwd, write: (path, content) => writeWhole(resolve(cwd, path), content) },
  );
  expect(err).not.toMatch(/expected/);
  const document = JSON.parse(out) as Record<string, unknown>;
  expect(Object.keys(document)[0]).toBe("format");
  expect(document.format).toMatch(/^rodebench\/[a-z-]+@\d+$/);
  const left = unnamed(document, argv[argv[0] === "book" ? 1 : 0]!, false).filter(
    (path) => !BESIDE.some((beside) => path.startsWith(beside)),
  );
  expect([...new Set(left)]).toEqual([]);
};

it.each([
  [["settle", RIG, "--pull", "3 kN", "--at", "bow"]],
  [["ladder", RIG, "--pull", "1..3/1kN", "--at", "bow"]],
  [["find", RIG, "--unknown", "pull", "--anchor-angle", "4 deg"]],
  [["match", RIG, "data/demo/marsh-tern-rode.yaml", "--pull", "2 kN"]],
  [["carry", "data/demo/gantry-run.yaml", "--to", RIG]],
  [["reduce", "data/demo/gantry-run.yaml"]],
  [["weather", BOAT, "--wind", "20 kn", "--gust", "froya"]],
  [["weather", BOAT, "--load", "800 N"]],
  [["shock", RIG, "--pull", "1.5 kN", "--at", "bow"]],
  [["choose", "data/plans/marsh-tern.yaml"]],
  [["gear", "--kind", "chain"]],
  [["trace", "data/examples/pulls/three-steps.csv"]],
  [["compare", "data/examples/holding/three-anchors.csv", "--no-sampling"]],
  [["ride", RIG, "--boat", BOAT, "--wind", "20 kn", "--sea", "0.4 m, 3 s", "--hours", "0.3"]],
  [["series", "data/series/creek-trial.yaml"]],
  [["log", LOG, "--preview"]],
  [["schema"]],
])("%j", (argv) => inUnits(argv, ""));

// In this order: each works on the book that the one before left.
it.each([
  [["sweep", join(root, "data/examples/sweeps/chain-or-nylon.yaml"), "--shard", "1/8", "--into", "rides"]],
  [["join", "rides/part-1-of-8.parquet", "--into", "whole.parquet"]],
  [["log", LOG, "--into", "demo.book"]],
  [["book", "new", "new.book", "--title", "New"]],
  [["book", "list", "demo.book"]],
  [["book", "list", "demo.book", "anchor"]],
  [["book", "list", "demo.book", "boat"]],
  [["book", "list", "demo.book", "day"]],
  [["book", "list", "demo.book", "pull"]],
  [["book", "list", "demo.book", "log"]],
  [["book", "history", "demo.book"]],
  [["book", "undo", "demo.book"]],
  [["book", "redo", "demo.book"]],
  [["book", "backup", "demo.book"]],
  [["book", "check", "demo.book"]],
  [["book", "export", "demo.book", "files"]],
])("%j, in a folder of its own", (argv) => inUnits(argv, cwd));
