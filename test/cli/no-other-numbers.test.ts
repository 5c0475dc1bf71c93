/** No command tells a quantity in words that is not a number of its JSON, to the last digit shown. */
import { describe, expect, it } from "vitest";
import { rodebench } from "../support/command-line.ts";

/** Factors to what stands in the JSON: SI, degrees for angles, shares as they are. */
const UNITS: Readonly<Record<string, number>> = {
  N: 1,
  kN: 1000,
  m: 1,
  mm: 0.001,
  "m/s": 1,
  kn: 1852 / 3600,
  "°": 1,
  "%": 0.01,
  kg: 1,
  t: 1000,
  J: 1,
  kJ: 1000,
  W: 1,
};
const QUANTITY =
  /(?<![\w.:−-])([−-]?\d+(?:\.\d+)?)(?: ± (\d+(?:\.\d+)?))? ?(kN|N|mm|m\/s|kn|kg|kJ|J|W|m|t|°|%)(?![\w/²³])/g;

function numbersIn(json: unknown, found: number[] = []): number[] {
  if (typeof json === "number") found.push(json);
  else if (typeof json === "object" && json !== null) for (const one of Object.values(json)) numbersIn(one, found);
  return found;
}

/** Quantities of a text that are near no number. */
function strangers(text: string, numbers: readonly number[]): string[] {
  return [...text.matchAll(QUANTITY)].flatMap(([all, value, u, unit]) => {
    const factor = UNITS[unit!]!;
    const near = (digits: string) => {
      const decimals = digits.split(".")[1]?.length ?? 0;
      // Whole numbers may be rounded to tens or hundreds: to their last digit that is none of those.
      const zeros = decimals > 0 ? 0 : /0*$/.exec(digits.replace(/^[−-]?0$/, ""))![0].length;
      const half = 0.5 * 10 ** (zeros - decimals) * factor * (1 + 1e-9) + 1e-12;
      const is = Number(digits.replace("−", "-")) * factor;
      return numbers.some((one) => Math.abs(one - is) <= half || Math.abs(Math.abs(one) - is) <= half);
    };
    return near(value!) && (u === undefined || near(u)) ? [] : [all];
  });
}

const RODE = "data/demo/marsh-tern-rode.yaml";
const AFLOAT = "data/demo/gantry-rig-afloat.yaml";
const RUN = "data/demo/gantry-run.yaml";
const BOAT = "data/boats/marsh-tern.yaml";
const KNOT = 1852 / 3600;
/** With each what was asked and is told again, or is derived in words alone. */
const commands: [argv: readonly string[], asked?: readonly number[]][] = [
  [["settle", RODE, "--pull", "1700 N", "--at", "bow", "--pull-u", "60 N"]],
  // A chain's name has its size.
  [["settle", AFLOAT, "--span", "25 m"], [0.008]],
  [["ladder", RODE, "--at", "bow", "--pull", "500..4000/700 N"]],
  [["find", RODE, "--unknown", "length:1", "--anchor-angle", "6 deg", "--pull", "2 kN", "--at", "bow"]],
  [["find", RODE, "--unknown", "pull", "--working-load", "40 %"]],
  [["find", AFLOAT, "--unknown", "depth", "--liftoff", "--pull", "900 N", "--at", "anchor"]],
  [["match", AFLOAT, RODE, "--pull", "1300 N", "--at", "bow"]],
  [["carry", RUN, "--to", AFLOAT]],
  // 95 % intervals, the swing that the boat's file states, and the air's density, known to 2 %.
  [
    ["weather", BOAT, "--wind", "23 kn", "--u", "1 kn", "--yaw", "10 deg", "--gust", "froya"],
    [0.95, 25, 0.02],
  ],
  [
    ["weather", BOAT, "--load", "1900 N", "--u", "80 N"],
    [0.95, 0.02],
  ],
  [["shock", RODE, "--pull", "1900 N", "--at", "bow", "--u", "70 N", "--boat", BOAT, "--speed", "0.7 m/s"]],
  [["series", "data/series/creek-trial.yaml", "--no-power"]],
  [["ride", RODE, "--boat", BOAT, "--wind", "21 kn", "--hours", "0.03"], [21 * KNOT]],
];

describe("the words of an answer", () => {
  it.each(commands.map(([argv, asked = []]) => ({ argv, asked })))(
    "$argv tell no number that the JSON does not",
    async ({ argv, asked }) => {
      const [words, json] = [await rodebench(argv), await rodebench([...argv, "--json"])];
      expect([words.err, json.err]).toEqual(["", ""]);
      const numbers = [...numbersIn(JSON.parse(json.out)), ...asked];
      // What weight gives of a whole give is told in words alone, as a share.
      const text = argv[0] === "shock" ? words.out.replace(/\d+ %/g, "") : words.out;
      const told = [...text.matchAll(QUANTITY)].length;
      expect(told).toBeGreaterThan(3);
      expect(strangers(text, numbers)).toEqual([]);
    },
  );
});
