import { describe, expect, it } from "vitest";
import { loadSweep, readRig } from "../../src/rode/index.ts";
import { rodebench, unfolded } from "../support/command-line.ts";
import { cautionOnce, read } from "./command.ts";

const rigText = `format: rodebench/rig@1
name: Chain afloat
setting: { medium: water, depth: 8 m, rollerHeight: 1.5 m, bottomFriction: 0.6 }
rode:
  - chain: { grade: "30", size: 10 mm, length: 45 m }
uncertainty: { massPerLength: 3 %, rise: 0.3 m }
`;
const files = {
  "rig.yaml": rigText,
  "boat.yaml": read("data/boats/marsh-tern.yaml"),
  "short.yaml": rigText.replace("length: 45 m", "length: 9 m"),
  "broken.yaml": "format: rodebench/rig@1\nrode: [",
};
const shock = (...options: string[]) => rodebench(["shock", ...options], files);
const steady = ["rig.yaml", "--pull", "1.5 kN", "--at", "bow"];
const surging = [...steady, "--speed", "1.5 kn", "--mass", "8 t"];
const everything = [
  ...[...surging, "--u", "150 N", "--speed-u", "0.2 kn", "--mass-u", "800 kg", "--asks", "0.2 m/kN"],
  ...["--snubber", "14 mm, 9 m", "--slack", "3 m", "--map", "8..20/4 mm, 2..20/3 m", "--period", "4 s"],
];

describe("rodebench shock", () => {
  it("answers in text: give by part, where catenary fades, snatch, snubber, map, what is assumed, the caution once", async () => {
    const { out, err, status } = await shock(...everything);
    expect([status, err]).toEqual([0, ""]);
    for (const part of [
      "Chain afloat, held by 1500 ± 150 N at the bow",
      "Give from there on",
      "Catenary, asked for 0.2 m/kN",
      "gives less past",
      "Snatch, surging at 0.77 ± 0.10 m/s, 8000 ± 800 kg moving",
      "± comes from",
      "Snubber of 9 m, 14 mm polyamide three-strand",
      "chain loop",
      "cut from new rope",
      "verdict",
      "Snubbers, diameter down",
      "Assumed:",
    ])
      expect(out).toContain(part);
    expect(out.split(cautionOnce)).toHaveLength(2);
    for (const line of out.split("\n")) expect(line).toBe(line.trimEnd());
  });

  it("answers in one JSON document, SI, whose shares add up to the ladder's movement and work", async () => {
    const { out, status } = await shock(...everything, "--json");
    expect(status).toBe(0);
    const document = JSON.parse(out);
    expect(document.format).toBe("rodebench/shock@1");
    const rig = readRig(rigText, "rig.yaml");
    const rungs = loadSweep(
      rig,
      [1500, 9000].map((newtons) => ({ at: "bow", newtons })),
    );
    const rung = rungs[1]!;
    if (rung.kind !== "rung") throw new Error(rung.cause);
    const { give } = document.rows.at(-1);
    const ways = ["lifting", "kellet", "stretchingRope", "stretchingChain", "frictionAndCurrent"];
    const sum = (field: string) => ways.reduce((all, way) => all + give[way][field], 0);
    expect(sum("movement_m")).toBeCloseTo(rung.movement, 8);
    expect(sum("energy_J") / rung.work).toBeCloseTo(1, 8);
    expect(document.catenaryEnd.kind).toBe("fades");
    expect(document.snatch.uncertainty.shares.length).toBe(6);
    expect(document.snubber.verdict.passed).toEqual([]);
    expect(document.map.reason).toHaveLength(4);
    expect(document.map.reason[0]).toHaveLength(7);
    expect(document.caution).toContain(cautionOnce);
  });

  it("says the same in metric and US units", async () => {
    const [metric, us] = [await shock(...everything), await shock(...everything, "--units", "us")];
    expect(us.out).toContain("lbf");
    expect(us.out).not.toMatch(/\d (N|J|m)\b/);
    expect(us.out.split("\n")).toHaveLength(metric.out.split("\n").length);
    const [a, b] = [
      await shock(...surging, "--json"),
      await shock(
        "rig.yaml",
        "--pull",
        "337.21341447 lbf",
        "--at",
        "bow",
        "--speed",
        "1.5 kn",
        "--mass",
        "17636.98097 lb",
        "--json",
      ),
    ];
    const [one, other] = [JSON.parse(a.out), JSON.parse(b.out)];
    // Nine digits of pounds.
    expect(other.snatch.peak.bow.tension_N / one.snatch.peak.bow.tension_N).toBeCloseTo(1, 7);
  });

  it("reads the rig from standard input, a boat's mass from its file, and a sea's surge", async () => {
    const onInput = await rodebench(["shock", "-", ...surging.slice(1), "--json"], { "-": rigText });
    expect(onInput.status).toBe(0);
    const boat = JSON.parse((await shock(...steady, "--speed", "1 kn", "--boat", "boat.yaml", "--json")).out);
    expect(boat.surge.mass_kg).toBeGreaterThan(7600);
    expect(boat.assumed[0]).toContain("added water");
    const sea = JSON.parse((await shock(...steady, "--waves", "0.6 m, 3 s", "--boat", "boat.yaml", "--json")).out);
    expect(sea.surge.distance_m).toBeGreaterThan(0.1);
    expect(sea.snatch.ridden.bow_N).toBeGreaterThan(1500);
    // The rode resists: the free boat's travel is about what she goes, and energy is no more than she has.
    expect(sea.snatch.ridden.moved_m).toBeLessThan(1.5 * sea.surge.distance_m);
  });

  it.each([
    ["1 ft per 100 lbf", 0.3048 / 444.82216152605],
    ["0.2 m/kN", 0.2e-3],
    ["1/2 in per 100 lbf", 0.0127 / 444.82216152605],
    ["200 mm / 1 kN", 0.2e-3],
  ])("takes catenary asked as %s", async (asks, give) => {
    const document = JSON.parse((await shock(...steady, "--asks", asks, "--json")).out);
    const same = JSON.parse((await shock(...steady, "--asks", `${give} m per 1 N`, "--json")).out);
    expect(document.catenaryEnd.bow.tension_N).toBeCloseTo(same.catenaryEnd.bow.tension_N, 3);
  });

  it("takes it as a share of a need, and says when it is never or always enough", async () => {
    const share = await shock(...steady, "--asks", "50 % of 1 m up to 8 kN");
    expect(share.out).toContain("Catenary, asked for 50 % of 1 m up to 8000 N");
    expect((await shock(...steady, "--asks", "100 m/kN")).out).toContain("gives less");
    expect((await shock(...steady, "--asks", "1e-9 m/kN")).out).toContain("gives that");
  });

  it("tells a bridle's legs apart at a heading, and what cannot be rigged", async () => {
    const turned = JSON.parse(
      (await shock(...surging, "--snubber", "14 mm, 8 m", "--bridle", "2.4 m, 20 deg", "--json")).out,
    );
    const [near, far] = turned.snubber.atPeak.legs_N;
    expect(far).toBeGreaterThan(near);
    expect(turned.snubber.atPeak.turning_N_m).toBeGreaterThan(0);
    const wide = await shock(...surging, "--snubber", "14 mm, 1 m", "--bridle", "2.4 m");
    expect(wide.out).toContain("the legs do not meet between the cleats");
    const long = await shock(...surging, "--snubber", "14 mm, 60 m", "--within");
    expect(long.out).toContain("more of the rode than there is");
  });

  it("says what limit a snubber passes", async () => {
    const { out } = await shock(
      ...surging,
      "--snubber",
      "10 mm, 4 m",
      "--cleat-limit",
      "2 kN",
      "--angle-limit",
      "1 deg",
      "--peak-limit",
      "3 kN",
      "--hook-limit",
      "2 kN",
    );
    for (const part of [
      "rope beyond its share of strength",
      "cleat beyond",
      "hook beyond",
      "anchor pulled steeper than its limit",
      "peak load above its limit",
    ])
      expect(unfolded(out)).toContain(part);
  });

  it("has no equilibrium to answer from: status 3 and one line", async () => {
    const { status, out, err } = await shock("short.yaml", "--pull", "1.5 kN", "--at", "bow");
    expect(status).toBe(3);
    expect(out).toBe("");
    expect(err).toMatch(/^Chain afloat: no equilibrium: .+\n$/);
  });

  const wrong: [string, string[], RegExp][] = [
    ["no load", ["rig.yaml"], /--pull/],
    ["no end", ["rig.yaml", "--pull", "1 kN"], /--at/],
    ["an unknown end", ["rig.yaml", "--pull", "1 kN", "--at", "stern"], /--at: "stern"/],
    ["a load that is a length", ["rig.yaml", "--pull", "1 m", "--at", "bow"], /--pull: "1 m"/],
    ["a load of nothing", ["rig.yaml", "--pull", "0 N", "--at", "bow"], /--pull: "0 N"/],
    ["no such file", ["gone.yaml", "--pull", "1 kN", "--at", "bow"], /gone\.yaml: no such file/],
    ["a broken rig", ["broken.yaml", "--pull", "1 kN", "--at", "bow"], /broken\.yaml/],
    ["an uncertainty below zero", [...steady, "--u", "-5 N"], /--u: "-5 N"/],
    ["loads that fall", [...steady, "--loads", "5..1/1kN"], /--loads/],
    ["loads by the thousand", [...steady, "--loads", "1..9000/1N"], /--loads.*at most 200/],
    ["a give of no load", [...steady, "--asks", "1 ft"], /--asks: "1 ft"/],
    ["a give per length", [...steady, "--asks", "1 ft per 3 m"], /--asks: "3 m"/],
    ["a give per nothing", [...steady, "--asks", "1 ft per 0 lbf"], /--asks: "0 lbf"/],
    ["more than the whole of a need", [...steady, "--asks", "150 % of 1 m up to 5 kN"], /--asks: "150 %"/],
    ["a need that is a load", [...steady, "--asks", "50 % of 1 kN up to 5 kN"], /--asks: "1 kN"/],
    ["a speed without a mass", [...steady, "--speed", "1 kn"], /--mass: nothing given/],
    ["a mass without a speed", [...steady, "--mass", "8 t"], /--mass: "8 t"/],
    ["a mass beside a boat", [...steady, "--speed", "1 kn", "--mass", "8 t", "--boat", "boat.yaml"], /--mass: "8 t"/],
    ["a mass of nothing", [...steady, "--speed", "1 kn", "--mass", "0 kg"], /--mass: "0 kg"/],
    ["a wild surge", [...steady, "--speed", "40 kn", "--mass", "8 t"], /--speed: "40 kn"/],
    ["speed and distance", [...surging, "--distance", "1 m"], /one of --speed, --distance, --waves/],
    ["waves without a boat", [...steady, "--waves", "0.6 m, 3 s"], /--waves.*--boat/],
    ["breaking waves", [...steady, "--waves", "5 m, 3 s", "--boat", "boat.yaml"], /--waves.*break/],
    ["a boat without a surge", [...steady, "--boat", "boat.yaml"], /--boat/],
    ["a boat that is a rig", [...steady, "--speed", "1 kn", "--boat", "rig.yaml"], /rig\.yaml: /],
    ["stretch to more than it is", [...surging, "--stretch-u", "80 %"], /--stretch-u: "80 %"/],
    ["a snubber without a surge", [...steady, "--snubber", "14 mm, 9 m"], /--speed: nothing given/],
    ["a snubber of one figure", [...surging, "--snubber", "14 mm"], /--snubber: "14 mm"/],
    ["a snubber with a load for a length", [...surging, "--snubber", "14 mm, 9 kN"], /--snubber, length: "9 kN"/],
    ["a snubber as thick as a mast", [...surging, "--snubber", "300 mm, 9 m"], /rope\.diameter/],
    ["a rope of one word", [...surging, "--snubber", "14 mm, 9 m", "--rope", "polyamide"], /--rope: "polyamide"/],
    ["an unknown fibre", [...surging, "--snubber", "14 mm, 9 m", "--rope", "hemp three-strand"], /fibre: "hemp"/],
    ["an unknown lay", [...surging, "--snubber", "14 mm, 9 m", "--rope", "polyamide woven"], /lay: "woven"/],
    ["a rope without a snubber", [...surging, "--rope", "polyamide three-strand"], /--rope.*--snubber or a --map/],
    ["a slack below zero", [...surging, "--snubber", "14 mm, 9 m", "--slack", "-1 m"], /--slack: "-1 m"/],
    ["slack without a snubber", [...surging, "--slack", "1 m"], /--slack/],
    [
      "a bridle turned round",
      [...surging, "--snubber", "14 mm, 9 m", "--bridle", "2 m, 120 deg"],
      /--bridle, heading: "120 deg"/,
    ],
    [
      "a bridle of four figures",
      [...surging, "--snubber", "14 mm, 9 m", "--bridle", "2 m, 1 deg, 8 m, 9 m"],
      /--bridle/,
    ],
    ["a map of lengths alone", [...surging, "--map", "2..20/2 m"], /--map: /],
    ["a map that falls", [...surging, "--map", "20..8/2 mm, 2..20/2 m"], /--map, diameters/],
    ["a map of a thousand steps", [...surging, "--map", "8..20/2 mm, 1..9000/1 m"], /--map, lengths.*at most 100/],
    ["an unknown way of ending a rope", [...surging, "--snubber", "14 mm, 9 m", "--ends", "glued"], /glued/],
    ["a share of nothing", [...surging, "--snubber", "14 mm, 9 m", "--rope-share", "0 %"], /--rope-share: "0 %"/],
    ["a share past all", [...surging, "--snubber", "14 mm, 9 m", "--rope-share", "120 %"], /--rope-share: "120 %"/],
    ["a limit that is an angle", [...surging, "--snubber", "14 mm, 9 m", "--cleat-limit", "5 deg"], /--cleat-limit/],
    ["an angle past upright", [...surging, "--snubber", "14 mm, 9 m", "--angle-limit", "95 deg"], /--angle-limit/],
    ["a cycle of no time", [...surging, "--snubber", "14 mm, 9 m", "--period", "0 s"], /--period: "0 s"/],
    ["standard input twice", ["-", ...surging.slice(1, -2), "--boat", "-"], /--boat: -/],
    ["an unknown option", [...steady, "--catenary"], /--catenary/],
    ["a decimal comma", ["rig.yaml", "--pull", "1,5 kN", "--at", "bow"], /--pull: "1,5 kN"/],
  ];

  it.each(wrong)("refuses %s in one line, status 2, nothing on standard output", async (_, options, told) => {
    const { out, err, status } = await shock(...options);
    expect(err).toMatch(told);
    expect(err).toMatch(/^[^\n]+\n$/);
    expect([status, out]).toEqual([2, ""]);
  });

  it("has a table of wrong inputs of at least 25", () => expect(wrong.length).toBeGreaterThanOrEqual(25));
});
