/**
 * Random rigs heavier than their water, made to be nasty: lengths from a hair over the rise to a hundred times it, loads
 * from a millionth of the rode's weight to a million times, any slope, friction and stretch. The same seed gives the same
 * rigs, so a failing one can be called back by its number.
 */

import type { Part, Pull, Rig, Setting, StretchLaw } from "../../src/rode/index.ts";
import { riseOf } from "../../src/rode/index.ts";
import type { Rng } from "../../src/statistics/index.ts";

const logarithmic = (random: Rng, low: number, high: number): number => low * (high / low) ** random.uniform();
const either = <T>(random: Rng, ...choices: readonly T[]): T => choices[random.integer(choices.length)]!;

/** What a random rig may be. */
export interface Wildness {
  /** Share of parts lighter than the water. */
  readonly buoyant?: number;
  /** Highest speed of the water, m/s; 0: still. */
  readonly current?: number;
}

function randomStretch(random: Rng, weight: number): StretchLaw {
  switch (random.integer(3)) {
    case 0:
      return { kind: "rigid" };
    case 1:
      return { kind: "linear", stiffness: weight * logarithmic(random, 1, 1e6) };
    default: {
      const points: [number, number][] = [];
      let strain = 0;
      let load = 0;
      for (let i = 1 + random.integer(5); i > 0; i--) {
        strain += logarithmic(random, 1e-4, 0.2);
        load += weight * logarithmic(random, 0.01, 30);
        points.push([strain, load]);
      }
      return { kind: "curve", points };
    }
  }
}

function randomSetting(random: Rng, rise: number, wild: Wildness): Setting {
  const slope = random.uniform() < 0.4 ? 0 : (random.uniform() - 0.5) * either(random, 0.1, 0.5, 1.4);
  const bottom = { bottomSlope: slope, bottomFriction: random.uniform() < 0.3 ? 0 : 1.5 * random.uniform() };
  if (random.uniform() < 0.3 && !wild.buoyant && !wild.current) return { medium: "air", rise, ...bottom };
  const rollerHeight = random.uniform() < 0.1 ? 0 : rise * either(random, 0.01, 0.2, 0.9) * random.uniform();
  return {
    medium: "water",
    depth: rise - rollerHeight,
    rollerHeight,
    waterDensity: either(random, 1000, 1025),
    ...bottom,
    current: wild.current ? (2 * random.uniform() - 1) * wild.current : 0,
  };
}

export function randomRig(random: Rng, wild: Wildness = {}): Rig {
  const rise = logarithmic(random, 0.5, 1000);
  const count = 1 + random.integer(6);
  const kinds = Array.from({ length: count }, () => random.uniform() < 0.7);
  if (!kinds.includes(true)) kinds[random.integer(count)] = true;
  const raw = kinds.map((line) => (line ? logarithmic(random, 0.02, 1) : 0));
  const sum = raw.reduce((a, b) => a + b, 0);
  const total = rise * (1 + logarithmic(random, 1e-6, 100));
  const rode = kinds.map((line, i): Part => {
    const buoyant = random.uniform() < (wild.buoyant ?? 0);
    const density = buoyant ? 1000 * (0.05 + 0.9 * random.uniform()) : either(random, 1050, 1140, 1380, 7850, 11000);
    const massPerLength = logarithmic(random, 0.02, 20);
    if (!line) {
      const mass = massPerLength * rise * logarithmic(random, 1e-3, 3);
      return { kind: "point", name: "weight", mass, density };
    }
    const length = (total * raw[i]!) / sum;
    const stretch = randomStretch(random, massPerLength * 9.8 * total);
    return { kind: "line", name: "line", length, massPerLength, density, stretch };
  });
  return { name: "random", setting: randomSetting(random, rise, wild), rode, uncertainty: {} };
}

/** The load at which a line is stretched to four times its length: beyond any rope, and there random loads end. */
function mostOf(part: Part): number {
  if (part.kind !== "line" || part.stretch.kind === "rigid") return Number.POSITIVE_INFINITY;
  if (part.stretch.kind === "linear") return 3 * part.stretch.stiffness;
  const [[strain0, load0] = [0, 0], [strain, load]] = [part.stretch.points.at(-2), part.stretch.points.at(-1)!];
  return load + ((3 - strain) * (load - load0)) / (strain - strain0);
}

/** A load or span to settle the rig at. */
export function randomPull(random: Rng, rig: Rig): Pull {
  const at = either(random, "anchor", "bow", "horizontal", "span");
  const length = rig.rode.reduce((all, part) => all + (part.kind === "line" ? part.length : 0), 0);
  const rise = riseOf(rig.setting);
  if (at === "span") {
    const taut = Math.sqrt(length * length - rise * rise);
    const slack = length - rise;
    return { at, metres: slack + (taut - slack) * either(random, 1.2, 1, 0.999) * random.uniform() };
  }
  const mass = rig.rode.reduce(
    (all, part) => all + (part.kind === "line" ? part.length * part.massPerLength : part.mass),
    0,
  );
  const newtons = mass * 9.8 * logarithmic(random, either(random, 1e-6, 0.05), either(random, 20, 1e6));
  return { at, newtons: Math.min(newtons, ...rig.rode.map((part) => mostOf(part) * random.uniform())) };
}

/** A rode somebody might lie to: chain, rope of either sort, wire, kellet, float, in waters a boat anchors in. */
export function plausibleRig(random: Rng, wild: Wildness = {}): Rig {
  const depth = logarithmic(random, 2, 40);
  const rollerHeight = 0.4 + 2 * random.uniform();
  const scope = logarithmic(random, 1.5, 12);
  const rode: Part[] = [];
  const count = 1 + random.integer(3);
  const shares = Array.from({ length: count }, () => 0.1 + random.uniform());
  const sum = shares.reduce((a, b) => a + b, 0);
  for (const share of shares) {
    const length = (scope * (depth + rollerHeight) * share) / sum;
    const kind = random.uniform() < (wild.buoyant ?? 0) ? "floating" : either(random, "chain", "chain", "rope", "wire");
    const d = logarithmic(random, kind === "wire" ? 0.004 : 0.006, kind === "chain" ? 0.013 : 0.024);
    if (kind === "chain") {
      const stiffness = 6e11 * d * d;
      rode.push({
        kind: "line",
        name: kind,
        length,
        massPerLength: 22500 * d * d,
        density: 7850,
        stretch: { kind: "linear", stiffness },
        diameter: d,
        material: "chain",
      });
    } else if (kind === "wire") {
      const stiffness = 5e10 * d * d;
      rode.push({
        kind: "line",
        name: kind,
        length,
        massPerLength: 4200 * d * d,
        density: 7850,
        stretch: { kind: "linear", stiffness },
        diameter: d,
        material: "wire",
      });
    } else {
      const density = kind === "floating" ? 910 : either(random, 1140, 1380);
      const breaks = 2e8 * d * d;
      const points = [
        [0.05, 0.1 * breaks],
        [0.11, 0.3 * breaks],
        [0.2, breaks],
      ] as const;
      const stretch: StretchLaw =
        random.uniform() < 0.5 ? { kind: "linear", stiffness: 4 * breaks } : { kind: "curve", points };
      rode.push({
        kind: "line",
        name: kind,
        length,
        massPerLength: 0.55 * d * d * density,
        density,
        stretch,
        diameter: d,
        material: "rope",
      });
    }
    if (random.uniform() < 0.25)
      rode.push({
        kind: "point",
        name: "kellet",
        mass: logarithmic(random, 0.2, 30),
        density: either(random, 7850, 11000),
      });
    if (random.uniform() < (wild.buoyant ?? 0))
      rode.push({
        kind: "point",
        name: "float",
        mass: logarithmic(random, 0.1, 3),
        density: 100 + 300 * random.uniform(),
      });
  }
  const setting: Setting = {
    medium: "water",
    depth,
    rollerHeight,
    waterDensity: 1025,
    bottomSlope: random.uniform() < 0.5 ? 0 : 0.2 * (random.uniform() - 0.5),
    bottomFriction: either(random, 0, 0.5, 0.8),
    current: (wild.current ?? 0) * (2 * random.uniform() - 1),
  };
  return { name: "plausible", setting, rode, uncertainty: {} };
}

/** A pull somebody might see, or a span between slack and taut. */
export function plausiblePull(random: Rng, rig: Rig): Pull {
  const at = either(random, "anchor", "bow", "horizontal", "span");
  if (at !== "span") return { at, newtons: logarithmic(random, 100, 2e4) };
  const length = rig.rode.reduce((all, part) => all + (part.kind === "line" ? part.length : 0), 0);
  const rise = riseOf(rig.setting);
  const taut = Math.sqrt(length * length - rise * rise);
  return { at, metres: length - rise + (taut - length + rise) * (0.3 + 0.69 * random.uniform()) };
}
