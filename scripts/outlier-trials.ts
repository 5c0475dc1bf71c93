/**
 * How often the fit behind `reduce` covers the truth with its ±, on a second generator: another rig, its angles and
 * movements taken as straight in what is fitted, so that a run costs little, and errors of other shapes.
 * `node --import tsx scripts/outlier-trials.ts [runs] [seed] [normal|rectangular|triangular]`
 */
import { endForcesOf, perturbed, type Rig } from "../src/rode/index.ts";
import { outlierFit, type Rng, rng } from "../src/statistics/index.ts";

const runs = Number(process.argv[2] ?? 2000);
const seed = Number(process.argv[3] ?? 1);
const shape = process.argv[4] ?? "normal";

/** 55 m of 0.8 kg/m over a rise of 12 m on ground that rises, read at 300 to 1400 N. */
const rig: Rig = {
  name: "second rig",
  setting: { medium: "air", rise: 12, bottomSlope: 0.03, bottomFriction: 0.5 },
  rode: [{ kind: "line", name: "line", length: 55, massPerLength: 0.8, density: 7850, stretch: { kind: "rigid" } }],
  uncertainty: {},
};
const LOADS = { least: 300, most: 1400 } as const;
/** Standard uncertainties: of mass (a share), rise (m), the gauge's zero (rad); of one angle (rad), movement (m), load (N). */
const PRIORS = [0.05, 0.08, 0.012];
const READ = { angle: 0.008, movement: 0.006, load: 5 } as const;

interface Design {
  /** A row an observation: how it moves with mass, rise, gauge zero, give (1e-6 m/N) and the tape's zero. */
  readonly rows: readonly (readonly number[])[];
  readonly u: readonly number[];
}

function designOf(angles: number, release: number): Design {
  const at = (mass: number, rise: number, load: number) =>
    endForcesOf(perturbed(rig, 1 + mass, rise))({ at: "bow", newtons: load })!;
  const load = (i: number, n: number) => LOADS.least * (LOADS.most / LOADS.least) ** (i / (n - 1));
  const slopes = (read: (mass: number, rise: number) => number): [number, number] => {
    const h = 1e-3;
    return [(read(h, 0) - read(-h, 0)) / (2 * h), (read(0, h) - read(0, -h)) / (2 * h)];
  };
  const rows: number[][] = [];
  const u: number[] = [];
  for (let i = 0; i < angles; i++) {
    const F = load(i, angles);
    rows.push([...slopes((mass, rise) => at(mass, rise, F).anchorAngle), 1, 0, 0]);
    u.push(Math.hypot(READ.angle, 0.5 * (at(0, 0, F + 1).anchorAngle - at(0, 0, F - 1).anchorAngle) * READ.load));
  }
  for (let i = 0; i < release; i++) {
    const F = load(release - 1 - i, release);
    const moved = (mass: number, rise: number) => at(mass, rise, LOADS.most).span - at(mass, rise, F).span;
    rows.push([...slopes(moved), 0, (LOADS.most - F) * 1e-6, 1]);
    u.push(Math.hypot(READ.movement, 0.5 * (at(0, 0, F + 1).span - at(0, 0, F - 1).span) * READ.load));
  }
  const unknowns = release > 0 ? 5 : 3;
  return { rows: rows.map((row) => row.slice(0, unknowns)), u };
}

/** An error of mean 0 and standard deviation 1. */
function error(stream: Rng): number {
  if (shape === "rectangular") return (stream.uniform() - 0.5) * Math.sqrt(12);
  if (shape === "triangular") return (stream.uniform() + stream.uniform() - 1) * Math.sqrt(6);
  return stream.normal();
}

const percent = (part: number, of: number): string => ((100 * part) / of).toFixed(1);
const names = ["mass per length", "rise", "gauge zero", "give of the rig"];
process.stdout.write(
  `| ${runs} runs each, ${shape} errors | found | false | scatter wrongly told | ${names.map((name) => `${name} 68 / 95`).join(" | ")} |\n| --- | --- | --- | --- | --- | --- | --- | --- |\n`,
);
for (const [angles, release, planted] of [
  [6, 0, false],
  [6, 0, true],
  [12, 0, false],
  [12, 0, true],
  [5, 7, false],
  [5, 7, true],
] as const) {
  const { rows, u } = designOf(angles, release);
  const unknowns = rows[0]!.length;
  const told = unknowns === 5 ? 4 : 3;
  const stream = rng(seed);
  const inside = Array.from({ length: told }, () => [0, 0] as [number, number]);
  let [found, wrong, good, scatter] = [0, 0, 0, 0];
  for (let k = 0; k < runs; k++) {
    const truth = [...PRIORS.map((prior) => prior * stream.normal()), 3, READ.movement * stream.normal()];
    const place = planted ? stream.integer(rows.length) : -1;
    const gross = (8 + 7 * stream.uniform()) * (stream.uniform() < 0.5 ? -1 : 1);
    const observed = rows.map(
      (row, i) =>
        row.reduce((sum, slope, j) => sum + slope * truth[j]!, 0) + u[i]! * (error(stream) + (i === place ? gross : 0)),
    );
    const fit = outlierFit(
      {
        observed,
        uncertainty: u,
        predict: (x, out) => {
          for (const [i, row] of rows.entries()) out[i] = row.reduce((sum, slope, j) => sum + slope * x[j]!, 0);
        },
        jacobian: (_, out) => {
          for (const [i, row] of rows.entries()) out.set(row, i * unknowns);
        },
        priors: PRIORS.map((prior, parameter) => ({ parameter, value: 0, u: prior })),
      },
      new Array<number>(unknowns).fill(0),
      { limit: 2.59, typical: [0.01, 0.1, 0.01, 1, 0.01].slice(0, unknowns) },
    );
    inside.forEach((count, j) => {
      const off = Math.abs(fit.parameters[j]! - truth[j]!) / fit.standardDeviations[j]!;
      if (off <= 1) count[0]++;
      if (off <= 1.959964) count[1]++;
    });
    if (fit.outliers.includes(place)) found++;
    wrong += fit.outliers.filter((i) => i !== place).length;
    good += rows.length - (planted ? 1 : 0);
    if (fit.scatter.kind === "more" || fit.scatter.kind === "less") scatter++;
  }
  const cells = inside.map(([one, two]) => `${percent(one, runs)} / ${percent(two, runs)}`);
  if (told === 3) cells.push("");
  process.stdout.write(
    `| ${angles} angles${release > 0 ? `, ${release} movements` : ""}${planted ? ", one 8 to 15 u off" : ""} | ${planted ? percent(found, runs) : ""} | ${percent(wrong, good)} | ${percent(scatter, runs)} | ${cells.join(" | ")} |\n`,
  );
}
