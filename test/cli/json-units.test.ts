/** Every number of a JSON answer has its unit in its name, or has none; every answer begins with its format. */
import { expect, it } from "vitest";
import { rodebench } from "../support/command-line.ts";

const RIG = "data/demo/gantry-rig-afloat.yaml";
const BOAT = "data/boats/marsh-tern.yaml";

/** A unit at the end of a name, of the number itself or of the group it stands in. */
const UNIT = /_(N|m|deg|kg|s|J|W|K|Hz|m2|m3|\w*_per_\w+|per_\w+)$/;

/** Names of what has no unit: counts, shares, statistics, places in a list. */
const BARE =
  /^(scope|part|parts|strengthPart|count|without|lifted|draws|shareAtBow|residual|standardised|weight|influence|scatter|ratio|effectiveUnknowns|untold|force|factor|intensity|exponent|dof|residuals|weakest|\w*Share|share|relativeUncertainty|readings|dropped|independent|peakCount|upcrossings|total|cycles|rejected|unreadable|empty|headersAgain|repeatedRows|standIns|others|otherUnits|comments|line|missing|overload|pulls|gaveWay|heldOn|between|neverHeld|atRisk|chance|se|low|high|of|chi2|df|p|pPermuted|terms|logScale|logLikelihood)$/;

/** Groups that name their unit beside the number. */
const BESIDE = ["find.value", "find.uncertainty.value", "find.uncertainty.draws.interval95", "gear.rows.figures"];

function unnamed(value: unknown, path: string, named: boolean): string[] {
  if (typeof value === "number") return named ? [] : [path];
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([name, inner]) =>
    Array.isArray(value)
      ? unnamed(inner, path, named)
      : unnamed(inner, `${path}.${name}`, named || UNIT.test(name) || BARE.test(name)),
  );
}

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
])("%j", async (argv) => {
  const document = JSON.parse((await rodebench([...argv, "--json"])).out) as Record<string, unknown>;
  expect(Object.keys(document)[0]).toBe("format");
  expect(document.format).toMatch(/^rodebench\/[a-z-]+@\d+$/);
  const left = unnamed(document, argv[0]!, false).filter((path) => !BESIDE.some((beside) => path.startsWith(beside)));
  expect([...new Set(left)]).toEqual([]);
});
