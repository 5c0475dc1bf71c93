import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { rodebench, root } from "../support/command-line.ts";

const QUAY = "data/examples/rigs/quay-rig.yaml";
const AFLOAT = "data/examples/rigs/all-chain-afloat.yaml";
const SNUBBER = "data/examples/rigs/chain-rope-snubber.yaml";
const KELLET = "data/examples/rigs/kellet.json";
const FLOAT = "data/examples/rigs/float-over-rising-bottom.yaml";
const RIGS = [QUAY, AFLOAT, SNUBBER, KELLET, FLOAT, "data/examples/rigs/wire-and-chain.yaml"];

/** Values that two ways of asking share agree to this: settle's own accuracy is 1e-8 relative, and 1e-6 near zero. */
const SAME = { relative: 1e-8, absolute: 1e-6 };
const RAD = Math.PI / 180;

interface SettledJson {
  anchor: { tension_N: number; angle_deg: number; angleToBottom_deg: number };
  bow: { tension_N: number; angle_deg: number };
  horizontal_N: number;
  span_m: number;
  grounded_m: number;
  lifted_m: number;
  stretch_m: number;
  sag_m: number;
  scope: number;
  energy_J: { lift: number; stretch: number };
}

function near(got: number, wanted: number, what: string) {
  const off = Math.abs(got - wanted);
  expect(off, `${what}: ${got} for ${wanted}`).toBeLessThanOrEqual(
    Math.max(SAME.absolute, SAME.relative * Math.abs(wanted)),
  );
}

/** One JSON document on standard output and nothing else. */
async function json(argv: readonly string[], files: Record<string, string> = {}) {
  const { out, err, status } = await rodebench([...argv, "--json"], files);
  expect([status, err]).toEqual([0, ""]);
  expect(out.endsWith("}\n")).toBe(true);
  return JSON.parse(out);
}

const NUMBER = expect.any(Number);
/** The fields of an equilibrium, as CONTRACT has them. */
const SETTLED = {
  anchor: { tension_N: NUMBER, angle_deg: NUMBER, angleToBottom_deg: NUMBER },
  bow: { tension_N: NUMBER, angle_deg: NUMBER },
  horizontal_N: NUMBER,
  span_m: NUMBER,
  grounded_m: NUMBER,
  lifted_m: NUMBER,
  stretch_m: NUMBER,
  sag_m: NUMBER,
  scope: NUMBER,
  energy_J: { lift: NUMBER, stretch: NUMBER },
  strength: expect.arrayContaining([expect.objectContaining({ part: 1, load_N: NUMBER })]),
};

const RANGE = [NUMBER, NUMBER];
const UNCERTAINTY = {
  anchor: { tension_N: NUMBER, angle_deg: NUMBER, angleToBottom_deg: NUMBER },
  bow: { tension_N: NUMBER, angle_deg: NUMBER },
  horizontal_N: NUMBER,
  span_m: NUMBER,
  grounded_m: NUMBER,
  sag_m: NUMBER,
  draws: {
    count: NUMBER,
    without: NUMBER,
    lifted: NUMBER,
    interval95: {
      anchor: { tension_N: RANGE, angle_deg: RANGE, angleToBottom_deg: RANGE },
      bow: { tension_N: RANGE, angle_deg: RANGE },
      horizontal_N: RANGE,
      span_m: RANGE,
      grounded_m: RANGE,
      sag_m: RANGE,
    },
  },
};
/** Rigs whose file states what is not known of them. */
const UNSURE = new Set([QUAY, AFLOAT, SNUBBER]);

/** What any equilibrium keeps, whatever its rig. */
function holds(settled: SettledJson, length: number) {
  const { anchor, bow } = settled;
  near(bow.tension_N * Math.cos(bow.angle_deg * RAD), settled.horizontal_N, "horizontal force at the bow");
  near(settled.grounded_m + settled.lifted_m, length, "resting and lifted lengths");
  expect(anchor.tension_N).toBeGreaterThanOrEqual(0);
  expect(bow.tension_N).toBeGreaterThan(0);
  expect(anchor.angleToBottom_deg).toBeGreaterThanOrEqual(0);
  for (const length_m of [settled.grounded_m, settled.stretch_m, settled.sag_m])
    expect(length_m).toBeGreaterThanOrEqual(0);
  expect(settled.energy_J.stretch).toBeGreaterThanOrEqual(0);
  // The rode, stretched, is no shorter than the straight line between its ends.
  const rise = length / settled.scope;
  expect(length + settled.stretch_m).toBeGreaterThanOrEqual(Math.hypot(settled.span_m, rise) * (1 - 1e-9));
}

const LENGTHS: Record<string, number> = {
  [QUAY]: 32,
  [AFLOAT]: 45,
  [SNUBBER]: 220 * 0.3048,
  [KELLET]: 45,
  [FLOAT]: 60,
  "data/examples/rigs/wire-and-chain.yaml": 43,
};

describe("settle --json", () => {
  it.each(RIGS)("has the fields of rodebench/settled@1, and they agree with each other: %s", async (rig) => {
    for (const at of ["anchor", "bow", "horizontal"]) {
      const { uncertainty, ...settled } = await json(["settle", rig, "--pull", "2kN", "--at", at]);
      expect(settled).toEqual({ format: "rodebench/settled@1", ...SETTLED });
      holds(settled, LENGTHS[rig]!);
      const stated = { anchor: settled.anchor.tension_N, bow: settled.bow.tension_N, horizontal: settled.horizontal_N };
      near(stated[at as keyof typeof stated], 2000, `the load stated at the ${at}`);
      if (uncertainty !== undefined)
        for (const u of Object.values(uncertainty)) if (typeof u === "number") expect(u).toBeGreaterThanOrEqual(0);
    }
  });

  it.each([QUAY, AFLOAT, KELLET])("at the span of a load gives that load back: %s", async (rig) => {
    const first = await json(["settle", rig, "--pull", "3kN", "--at", "bow"]);
    const back = await json(["settle", rig, "--span", `${first.span_m} m`]);
    // A nearly taut rode's load is steep in its span: 1e-15 of 43 m at 20 kN/m is far below this.
    near(back.bow.tension_N / 1e2, 30, "the load at the bow, in hundreds");
    near(back.span_m, first.span_m, "the span");
    near(back.anchor.angle_deg, first.anchor.angle_deg, "the angle at the anchor");
  });

  it("in air carries weight times rise from the anchor to the bow", async () => {
    const line = (stretch: string) => `format: rodebench/rig@1
setting: { medium: air, rise: 9 m }
rode: [{ line: { length: 32 m, massPerLength: 2.2 kg/m, density: 7850 kg/m3${stretch} } }]`;
    // T₂ − T₁ = w (z₂ − z₁) for a line that does not stretch (any textbook of the catenary; computed by hand).
    const { anchor, bow, stretch_m } = await json(["settle", "-", "--pull", "2kN", "--at", "anchor"], {
      "-": line(""),
    });
    near(bow.tension_N - anchor.tension_N, 2.2 * 9.80665 * 9, "the difference of the loads at the ends");
    expect(stretch_m).toBe(0);
  });

  it("states the uncertainty of what is not stated, where the rig states its own", async () => {
    const { uncertainty } = await json(["settle", QUAY, "--pull", "2kN", "--at", "anchor"]);
    expect(uncertainty).toEqual(UNCERTAINTY);
    expect(uncertainty.anchor.tension_N).toBe(0);
    const { count, without, lifted, interval95 } = uncertainty.draws;
    expect([without, lifted]).toEqual([0, count]);
    // 95 of 100 of a normal distribution, ± 1.96 u, to the scatter of 4000 draws' ends.
    const [low, high] = interval95.bow.tension_N;
    expect(Math.abs((high - low) / (2 * 1.96 * uncertainty.bow.tension_N) - 1)).toBeLessThan(0.1);
    // By hand: T₂ − T₁ = w·rise = 198.5 N (quay rig), 2 % of w and 0.1 m of 9 m of rise: √(3.97² + 2.21²) = 4.54 N.
    expect(uncertainty.bow.tension_N).toBeCloseTo(4.54, 1);
  });
});

describe("ladder --json", () => {
  it.each([QUAY, AFLOAT, KELLET, FLOAT])("has a row a load, and movement adds up to the spans: %s", async (rig) => {
    const document = await json(["ladder", rig, "--pull", "1..3/0.5kN", "--at", "bow"]);
    expect(Object.keys(document)).toEqual(["format", "rows"]);
    const rows = document.rows as (SettledJson & { movement_m: number; work_J: number; stiffness_N_per_m: number })[];
    expect(rows).toHaveLength(5);
    const row = {
      ...SETTLED,
      movement_m: NUMBER,
      work_J: NUMBER,
      stiffness_N_per_m: NUMBER,
      ...(UNSURE.has(rig) ? { uncertainty: UNCERTAINTY } : {}),
    };
    for (const [i, each] of rows.entries()) {
      expect(each).toEqual(row);
      holds(each, LENGTHS[rig]!);
      near(each.bow.tension_N, 1000 + 500 * i, "the load");
      expect(each.stiffness_N_per_m).toBeGreaterThan(0);
      const before = rows[i - 1];
      if (before === undefined) {
        expect([each.movement_m, each.work_J]).toEqual([0, 0]);
        continue;
      }
      near(each.movement_m, each.span_m - before.span_m, "the movement");
      expect(each.movement_m).toBeGreaterThan(0);
      // Force grows along the way: the work lies between the two forces times the way.
      expect(each.work_J).toBeGreaterThanOrEqual(before.horizontal_N * each.movement_m * (1 - 1e-9));
      expect(each.work_J).toBeLessThanOrEqual(each.horizontal_N * each.movement_m * (1 + 1e-9));
    }
  });

  it("does the work that lifting and stretching store, where nothing rubs", async () => {
    const { rows } = await json(["ladder", QUAY, "--pull", "2..6/1kN", "--at", "anchor"]);
    for (let i = 1; i < rows.length; i++) {
      const stored = (row: SettledJson) => row.energy_J.lift + row.energy_J.stretch;
      near(rows[i].work_J, stored(rows[i]) - stored(rows[i - 1]), "work and energy");
    }
  });

  it("has the rows that settle gives one by one", async () => {
    const { rows } = await json(["ladder", KELLET, "--pull", "500N..1500N/500N", "--at", "anchor"]);
    for (const [i, newtons] of [500, 1000, 1500].entries()) {
      const { format, ...settled } = await json(["settle", KELLET, "--pull", `${newtons} N`, "--at", "anchor"]);
      expect(format).toBe("rodebench/settled@1");
      expect(rows[i]).toMatchObject(settled);
    }
  });
});

describe("find --json", () => {
  it.each([
    [AFLOAT, "length:2", ["--anchor-angle", "5deg"]],
    [AFLOAT, "depth", ["--anchor-angle", "5deg"]],
    [AFLOAT, "rise", ["--anchor-angle", "5deg"]],
    [KELLET, "mass:2", ["--anchor-angle", "5deg"]],
    [SNUBBER, "length:1", ["--anchor-angle", "5deg"]],
    [QUAY, "length:1", ["--anchor-angle", "5deg"]],
  ])("of %s gives the %s at which the anchor is pulled at the angle asked", async (rig, unknown, goal) => {
    const document = await json(["find", rig, "--unknown", unknown, ...goal, "--pull", "3kN", "--at", "bow"]);
    const { format, uncertainty, remarks: _, ...found } = document;
    expect(format).toBe("rodebench/found@1");
    expect(found).toEqual({ unknown, value: NUMBER, unit: expect.stringMatching(/^(m|kg|N)$/), settled: SETTLED });
    if (UNSURE.has(rig)) {
      expect(uncertainty.settled).toEqual(UNCERTAINTY);
      const [low, high] = uncertainty.draws.interval95;
      expect(low).toBeLessThan(found.value);
      expect(high).toBeGreaterThan(found.value);
      expect(uncertainty.value).toBeGreaterThan(0);
    } else expect(uncertainty?.draws ?? null).toBeNull();
    near(document.settled.anchor.angle_deg, 5, "the angle at the anchor");
    near(document.settled.bow.tension_N, 3000, "the load at the bow");
    expect(document.value).toBeGreaterThan(0);
  });

  it("finds the load that settle then answers with that angle", async () => {
    const { value } = await json(["find", AFLOAT, "--unknown", "pull", "--anchor-angle", "5deg", "--at", "anchor"]);
    const settled = await json(["settle", AFLOAT, "--pull", `${value} N`, "--at", "anchor"]);
    near(settled.anchor.angle_deg, 5, "the angle at the anchor");
  });

  it("finds a length that settle then answers with lift-off: the whole rode lifted, no angle yet", async () => {
    const { value, settled } = await json([
      ...["find", AFLOAT, "--unknown", "length:2", "--liftoff", "--pull", "3kN", "--at", "bow"],
    ]);
    near(settled.anchor.angle_deg, 0, "the angle at the anchor");
    near(settled.grounded_m, 0, "what rests");
    const text = readFileSync(join(root, AFLOAT), "utf8").replace("45 m", `${value} m`);
    const again = await json(["settle", "-", "--pull", "3kN", "--at", "bow"], { "-": text });
    near(again.anchor.angle_deg, 0, "the angle at the anchor");
    near(again.span_m, settled.span_m, "the span");
  });

  it("finds the load that puts the share asked on the weakest part", async () => {
    const { value } = await json(["find", QUAY, "--unknown", "pull", "--working-load", "60%", "--at", "bow"]);
    // The most loaded part hangs from the bow; its limit is the catalogue's, as `rodebench gear` gives it.
    const gear = await json(["gear", "--kind", "chain", "--grade", "30", "--size", "10 mm"]);
    const text = JSON.stringify(gear);
    expect(text).toContain("12500");
    near(value, 0.6 * 12_500, "the load at the bow");
  });
});

describe("match --json", () => {
  it.each([
    [QUAY, AFLOAT],
    [KELLET, AFLOAT],
    [AFLOAT, KELLET],
    [SNUBBER, KELLET],
  ])("of %s and %s has both pulled at one angle under one load", async (rig, other) => {
    const found = await json(["match", rig, other, "--pull", "4kN", "--at", "bow"]);
    const one = {
      anchorAngle_deg: NUMBER,
      angleToBottom_deg: NUMBER,
      length_m: NUMBER,
      scope: NUMBER,
      part: NUMBER,
      partLength_m: NUMBER,
      atLiftoff: false,
      rig: SETTLED,
      other: SETTLED,
    };
    const { format, reverse, remarks: _, ...both } = found;
    expect(format).toBe("rodebench/matched@1");
    const { uncertainty, ...there } = both;
    if (UNSURE.has(rig) || UNSURE.has(other)) expect(uncertainty.partLength_m.value).toBeGreaterThan(0);
    const { uncertainty: __, ...back } = reverse;
    expect(there).toEqual(one);
    expect(back).toEqual(one);
    for (const each of [there, reverse]) {
      near(each.rig.anchor.angle_deg, each.anchorAngle_deg, "the angle of the one");
      near(each.rig.anchor.angleToBottom_deg, each.angleToBottom_deg, "the angle to the bottom of the one");
      near(each.other.anchor.angleToBottom_deg, each.angleToBottom_deg, "the angle to the bottom of the other");
      near(each.rig.bow.tension_N, 4000, "the load on the one");
      near(each.other.bow.tension_N, 4000, "the load on the other");
      near(each.other.scope, each.scope, "the scope");
      near(each.other.grounded_m + each.other.lifted_m, each.length_m, "the length");
    }
    const {
      format: _f,
      uncertainty: _u,
      remarks: _r,
      ...settled
    } = await json(["settle", rig, "--pull", "4kN", "--at", "bow"]);
    expect(there.rig).toEqual(settled);
  });

  it("of a rig with itself is the length it has", async () => {
    const found = await json(["match", QUAY, QUAY, "--pull", "3kN"]);
    near(found.length_m, 32, "the length");
    near(found.reverse.length_m, 32, "the length, the other way");
  });

  it("of an anchor that is not lifted is told as the shortest rode that does not lift its own", async () => {
    const found = await json(["match", AFLOAT, KELLET, "--pull", "1kN"]);
    expect(found.atLiftoff).toBe(true);
    expect(found.rig.grounded_m).toBeGreaterThan(0);
    near(found.other.anchor.angleToBottom_deg, 0, "the angle at the other anchor");
    near(found.other.grounded_m, 0, "what rests of the other");
  });
});

describe("`-` and --units", () => {
  it.each(RIGS)("standard input answers as the file does, by every command: %s", async (rig) => {
    const text = readFileSync(join(root, rig), "utf8");
    for (const [command, ...options] of [
      ["settle", "--pull", "2kN", "--at", "bow"],
      ["ladder", "--pull", "1..2/0.5kN", "--at", "bow"],
      // A load is sought among hundreds: in a current that takes long.
      ...(rig === SNUBBER ? [] : [["find", "--unknown", "pull", "--liftoff"] as const]),
    ] as const) {
      const [file, input] = [
        await json([command, rig, ...options]),
        await json([command, "-", ...options], { "-": text }),
      ];
      expect(input).toEqual(file);
    }
  });

  it("match takes either rig from standard input", async () => {
    const text = readFileSync(join(root, AFLOAT), "utf8");
    const file = await json(["match", AFLOAT, KELLET, "--pull", "4kN"]);
    expect(await json(["match", "-", KELLET, "--pull", "4kN"], { "-": text })).toEqual(file);
    const back = await json(["match", KELLET, AFLOAT, "--pull", "4kN"]);
    expect(await json(["match", KELLET, "-", "--pull", "4kN"], { "-": text })).toEqual(back);
  });

  const ways: readonly (readonly string[])[] = [
    ["settle", AFLOAT, "--pull", "500lbf", "--at", "bow"],
    ["ladder", AFLOAT, "--pull", "500..700/100lbf", "--at", "bow"],
    ["find", AFLOAT, "--unknown", "length:2", "--liftoff", "--pull", "700lbf", "--at", "bow"],
    ["match", QUAY, AFLOAT, "--pull", "500lbf"],
  ];

  it.each(ways)("--units changes the words of %s, not one digit of the JSON", async (...argv) => {
    expect(await json([...argv, "--units", "us"])).toEqual(await json([...argv, "--units", "metric"]));
    const [metric, us] = [await rodebench(argv), await rodebench([...argv, "--units", "us"])];
    expect([metric.status, us.status]).toEqual([0, 0]);
    expect(us.out).toMatch(/ lbf\b/);
    expect(us.out).toMatch(/ ft\b/);
    expect(us.out).not.toMatch(/\d (N|m|kN|J)\b/);
    expect(metric.out).toMatch(/\d N\b/);
    expect(metric.out).not.toMatch(/\blbf\b|\bft\b/);
  });

  it("pounds and feet are the metres and newtons of the JSON, by the exact factors", async () => {
    const { out } = await rodebench([...ways[0]!, "--units", "us"]);
    const settled = await json(ways[0]!);
    // 1 lbf = 4.4482216152605 N, 1 ft = 0.3048 m, both exact; four digits are printed.
    const shown = (name: string) => Number(new RegExp(`^${name} +([\\d.]+)`, "m").exec(out)![1]);
    expect(shown("at the bow")).toBe(500);
    expect(Math.abs(shown("span") - settled.span_m / 0.3048)).toBeLessThan(0.01);
    expect(Math.abs(shown("horizontal force") - settled.horizontal_N / 4.4482216152605)).toBeLessThan(0.1);
  });

  it.each(ways)("the caution stands once in the words of %s, and not in its JSON", async (...argv) => {
    const { out } = await rodebench(argv);
    expect(out.match(/Loaded gear hurts people/g)).toHaveLength(1);
    expect((await rodebench([...argv, "--json"])).out).not.toContain("Loaded gear");
  });
});
