/**
 * The one model conclusions come from. For pull i of anchor a, angle θ at the anchor in degrees, mass M, seabed g, site s,
 * day d, tester t:
 *
 *   ln H_i = m + α_a + β_θ (θ_i − 5) + β_M ln(M_i / M₀) + γ_g + υ_s + δ_d + κ_t + σ ε_i
 *
 * ε normal (lognormal loads) or least-extreme-value (Weibull). A term without data drops out. Each α, υ, δ, κ is a spread
 * times a standard normal where its levels hold few pulls (non-centred), itself where they hold many. Spreads and σ are
 * sampled as logarithms. Value and gradient allocate nothing.
 */
import { normalQuantile, type Rng } from "../statistics/index.ts";
import { groupingOf } from "./design.ts";
import { BELOW, BETWEEN, EXACT, type Law } from "./law.ts";
import { type Likelihood, type LikelihoodSum, PullByPull } from "./likelihood.ts";
import { normalLikelihood } from "./normal-likelihood.ts";
import { type Observations, observations } from "./observations.ts";
import type { Priors } from "./priors.ts";
import { anglesFollowLoads, type Pull } from "./pull.ts";
import { type PullColumns, pullColumns } from "./pull-columns.ts";
import { namesOf, type RandomTerm, type Term } from "./terms.ts";

/** Standard gravity, m/s². */
const G0 = 9.80665;

/** Angle the intercept is meant at, degrees. */
export const REFERENCE_ANGLE = 5;

/** Levels of one grouped term and where its parameters lie. */
interface Levels {
  readonly names: readonly string[];
  /** Level of each pull. */
  readonly of: Int32Array;
  /** Place of the first level's parameter. */
  readonly at: number;
  /** Place of ln of its spread; −1 where the spread is fixed at `scale`. */
  readonly spreadAt: number;
  /** Deviation of the spread's half-normal, or the fixed spread. */
  readonly scale: number;
  readonly centred: boolean;
}

/** Pulls and priors as the model takes them. */
export interface ModelInput {
  readonly pulls: readonly Pull[];
  readonly law: Law;
  /** Terms used beside the anchor: each stated by every pull. */
  readonly terms: readonly Term[];
  readonly random: readonly RandomTerm[];
  readonly priors: Priors;
}

/** Mean informative pulls a level from which its effect is sampled itself rather than as so many spreads. */
const MANY = 12;

/** The hierarchical model as a density with its gradient, for sampling. */
export class Model {
  readonly law: Law;
  readonly parameters: number;
  readonly names: readonly string[];
  readonly priors: Priors;
  readonly anchors: Levels | undefined;
  readonly anchorNames: readonly string[];
  readonly seabeds: Levels | undefined;
  readonly sites: Levels | undefined;
  readonly days: Levels | undefined;
  readonly testers: Levels | undefined;
  readonly angleAt: number;
  readonly massAt: number;
  readonly scatterAt: number;
  /** How many loads were read with an error. */
  readonly loadsWithError: number;
  /** Whether the angle is a term, and then whether as stated or as the one the load made. */
  readonly angleIs: "noTerm" | "asStated" | "ofTheLoad";
  /** ln of M₀, the geometric mean mass; of 1 kg where no mass is known. */
  readonly lnMassMiddle: number;
  readonly length: number;
  readonly #mass: Float64Array;
  readonly #middle: number;
  readonly #columns: PullColumns;
  /** Pulls alike in every level and in mass share a cell: what they have in common is added up once. */
  readonly #cellMass: Float64Array;
  /** Of each grouped term, the level of each cell. */
  readonly #cellLevels: readonly Int32Array[];
  readonly #cellCentre: Float64Array;
  readonly #cellPush: Float64Array;
  readonly #levels: readonly Levels[];
  readonly #effects: readonly Float64Array[];
  readonly #pushes: readonly Float64Array[];
  readonly #mMean: number;
  readonly #byPull: PullByPull;
  readonly #likelihood: Likelihood;
  readonly #sum: LikelihoodSum = { value: 0, byLogScatter: 0, byAngle: 0 };

  constructor({ pulls, law, terms, random, priors }: ModelInput) {
    this.law = law;
    this.priors = priors;
    const n = pulls.length;
    this.length = n;
    this.loadsWithError = pulls.filter(({ loadError }) => loadError !== undefined && loadError > 0).length;
    this.angleIs = !terms.includes("angle") ? "noTerm" : anglesFollowLoads(pulls) ? "ofTheLoad" : "asStated";
    const names = ["m"];
    const angled = terms.includes("angle");
    const seen = observations(pulls.map(({ hold }) => hold));
    const massed = terms.includes("mass");
    this.angleAt = angled ? names.push("angle") - 1 : -1;
    this.massAt = massed ? names.push("mass") - 1 : -1;
    this.scatterAt = names.push("lnScatter") - 1;
    const lnMass = pulls.map(({ mass }) => (mass === undefined ? undefined : Math.log(mass)));
    const known = lnMass.filter((value) => value !== undefined);
    // Without any mass m has nothing to lean on but the loads themselves: its prior is centred on them, as wide as ever.
    this.lnMassMiddle = known.length === 0 ? 0 : known.reduce((sum, value) => sum + value, 0) / known.length;
    this.#middle = middleLoad(seen);
    this.#mMean = known.length === 0 ? this.#middle : Math.log(priors.timesWeight * G0) + this.lnMassMiddle;
    this.#mass = Float64Array.from(lnMass, (value) => (massed ? value! - this.lnMassMiddle : 0));
    const informative = seen.kind.reduce((sum, kind) => sum + (kind === EXACT || kind === BETWEEN ? 1 : 0), 0);
    const levels: Levels[] = [];
    const add = (
      label: string,
      group: { names: readonly string[]; of: Int32Array },
      scale: number,
      spread: boolean,
    ) => {
      const centred = spread && informative / group.names.length >= MANY;
      const spreadAt = spread ? names.push(`ln spread of ${label}`) - 1 : -1;
      const at = names.length;
      for (const name of group.names) names.push(`${label}:${name}`);
      const made = { ...group, at, spreadAt, scale, centred };
      levels.push(made);
      return made;
    };
    const anchorNames = namesOf(pulls.map(({ anchor }) => anchor));
    this.anchorNames = anchorNames;
    const place = new Map(anchorNames.map((name, k) => [name, k]));
    this.anchors =
      anchorNames.length > 1
        ? add(
            "anchor",
            { names: anchorNames, of: Int32Array.from(pulls, ({ anchor }) => place.get(anchor)!) },
            priors.anchors,
            true,
          )
        : undefined;
    this.seabeds = terms.includes("seabed") ? add("seabed", seabedsOf(pulls), priors.seabed, false) : undefined;
    const spreading = (term: RandomTerm, scale: number) => {
      const group = groupingOf(pulls, term);
      return random.includes(term) && group.groups > 1 ? add(term, group, scale, true) : undefined;
    };
    this.sites = spreading("site", priors.sites);
    this.days = spreading("day", priors.days);
    this.testers = spreading("tester", priors.testers);
    this.names = names;
    this.parameters = names.length;
    this.#levels = levels;
    const { of, first } = cellsOf(levels, this.#mass);
    this.#cellMass = Float64Array.from(first, (i) => this.#mass[i]!);
    this.#cellLevels = levels.map((group) => Int32Array.from(first, (i) => group.of[i]!));
    this.#cellCentre = new Float64Array(first.length);
    this.#cellPush = new Float64Array(first.length);
    this.#columns = pullColumns(pulls, angled ? REFERENCE_ANGLE : undefined, of);
    this.#byPull = new PullByPull(this.#columns, law);
    this.#likelihood = law === "lognormal" ? normalLikelihood(this.#columns) : this.#byPull.sum;
    this.#effects = levels.map((group) => new Float64Array(group.names.length));
    this.#pushes = levels.map((group) => new Float64Array(group.names.length));
  }

  /** A place to begin a chain: about the middle of the loads, apart from chain to chain. */
  start(rng: Rng): Float64Array {
    const start = Float64Array.from({ length: this.parameters }, () => 0.6 * (2 * rng.uniform() - 1));
    start[0] = start[0]! + this.#middle;
    if (this.angleAt >= 0)
      start[this.angleAt] = this.priors.angle.mean + 0.1 * this.priors.angle.sd * start[this.angleAt]!;
    if (this.massAt >= 0) start[this.massAt] = this.priors.mass.mean + 0.5 * this.priors.mass.sd * start[this.massAt]!;
    start[this.scatterAt] = Math.log(0.5) + start[this.scatterAt]!;
    for (const { spreadAt, scale } of this.#levels)
      if (spreadAt >= 0) start[spreadAt] = Math.log(scale / 2) + start[spreadAt]!;
    return start;
  }

  /** A draw of all parameters from the priors: for calibration by simulation. */
  drawPrior(rng: Rng): Float64Array {
    const at = new Float64Array(this.parameters);
    const p = this.priors;
    at[0] = this.#mMean + p.m * rng.normal();
    if (this.angleAt >= 0) at[this.angleAt] = p.angle.mean + p.angle.sd * rng.normal();
    if (this.massAt >= 0) at[this.massAt] = p.mass.mean + p.mass.sd * rng.normal();
    at[this.scatterAt] = Math.log(p.scatter * Math.abs(rng.normal()));
    for (const { at: from, names, spreadAt, scale, centred } of this.#levels) {
      const spread = spreadAt >= 0 ? scale * Math.abs(rng.normal()) : scale;
      if (spreadAt >= 0) at[spreadAt] = Math.log(spread);
      for (let k = 0; k < names.length; k++) at[from + k] = (centred ? spread : 1) * rng.normal();
    }
    return at;
  }

  /** ln of posterior density (up to a constant) and its gradient. */
  readonly logDensity = (at: Float64Array, gradient: Float64Array): number => {
    gradient.fill(0);
    let value = this.#logPrior(at, gradient);
    const levels = this.#levels;
    const pushes = this.#pushes;
    const cellMass = this.#cellMass;
    const cellCentre = this.#cellCentre;
    const cellPush = this.#cellPush;
    const cells = cellCentre.length;
    const m = at[0]!;
    const mass = this.massAt >= 0 ? at[this.massAt]! : 0;
    for (let c = 0; c < cells; c++) cellCentre[c] = m + mass * cellMass[c]!;
    for (let l = 0; l < levels.length; l++) {
      const of = this.#cellLevels[l]!;
      const effect = this.#effects[l]!;
      for (let c = 0; c < cells; c++) cellCentre[c] = cellCentre[c]! + effect[of[c]!]!;
    }
    cellPush.fill(0);
    const angle = this.angleAt >= 0 ? at[this.angleAt]! : 0;
    const sum = this.#sum;
    this.#likelihood(cellCentre, cellPush, Math.exp(at[this.scatterAt]!), angle, sum);
    value += sum.value;
    let ofM = 0;
    let ofMass = 0;
    for (let c = 0; c < cells; c++) {
      ofM += cellPush[c]!;
      ofMass += cellPush[c]! * cellMass[c]!;
    }
    for (let l = 0; l < levels.length; l++) {
      const of = this.#cellLevels[l]!;
      const sums = pushes[l]!;
      for (let c = 0; c < cells; c++) sums[of[c]!] = sums[of[c]!]! + cellPush[c]!;
    }
    gradient[0] = gradient[0]! + ofM;
    if (this.angleAt >= 0) gradient[this.angleAt] = gradient[this.angleAt]! + sum.byAngle;
    if (this.massAt >= 0) gradient[this.massAt] = gradient[this.massAt]! + ofMass;
    gradient[this.scatterAt] = gradient[this.scatterAt]! + sum.byLogScatter;
    for (let l = 0; l < levels.length; l++) {
      const group = levels[l]!;
      const sums = pushes[l]!;
      const spread = group.spreadAt >= 0 ? Math.exp(at[group.spreadAt]!) : group.scale;
      for (let k = 0; k < sums.length; k++) {
        const place = group.at + k;
        if (group.centred) gradient[place] = gradient[place]! + sums[k]!;
        else {
          gradient[place] = gradient[place]! + spread * sums[k]!;
          if (group.spreadAt >= 0)
            gradient[group.spreadAt] = gradient[group.spreadAt]! + spread * at[place]! * sums[k]!;
        }
      }
    }
    return Number.isFinite(value) ? value : Number.NEGATIVE_INFINITY;
  };

  /** Adds the priors' gradient, and lays out each level's effect on ln H. */
  #logPrior(at: Float64Array, gradient: Float64Array): number {
    const p = this.priors;
    let value = normalPrior(at, gradient, 0, this.#mMean, p.m);
    if (this.angleAt >= 0) value += normalPrior(at, gradient, this.angleAt, p.angle.mean, p.angle.sd);
    if (this.massAt >= 0) value += normalPrior(at, gradient, this.massAt, p.mass.mean, p.mass.sd);
    value += halfNormalPrior(at, gradient, this.scatterAt, p.scatter);
    for (let l = 0; l < this.#levels.length; l++) {
      const { at: from, spreadAt, scale, centred } = this.#levels[l]!;
      const effects = this.#effects[l]!;
      this.#pushes[l]!.fill(0);
      let spread = scale;
      if (spreadAt >= 0) {
        value += halfNormalPrior(at, gradient, spreadAt, scale);
        spread = Math.exp(at[spreadAt]!);
      }
      for (let k = 0; k < effects.length; k++) {
        const x = at[from + k]!;
        const z = centred ? x / spread : x;
        effects[k] = centred ? x : spread * x;
        value -= 0.5 * z * z;
        if (centred) {
          value -= at[spreadAt]!;
          gradient[spreadAt] = gradient[spreadAt]! + z * z - 1;
          gradient[from + k] = gradient[from + k]! - z / spread;
        } else gradient[from + k] = gradient[from + k]! - z;
      }
    }
    return value;
  }

  /** ln of each pull's likelihood (of its load) at a draw, into `out` from `from`. */
  logLikelihoods(at: Float64Array, out: Float64Array, from: number): void {
    const scatter = this.scatter(at);
    const angle = this.angleAt >= 0 ? at[this.angleAt]! : 0;
    const { kind, low, rowOf } = this.#columns;
    for (let i = 0; i < this.length; i++) {
      const row = rowOf[i]!;
      const value = this.#byPull.one(row, this.#atReference(at, i), scatter, angle);
      out[from + i] = kind[row] === EXACT ? value - low[row]! : value;
    }
  }

  /** Centre of ln H of pull i at a draw. */
  centre(at: Float64Array, i: number): number {
    const above = this.#columns.angle[this.#columns.rowOf[i]!]!;
    return this.#atReference(at, i) + (this.angleAt >= 0 ? at[this.angleAt]! * above : 0);
  }

  #atReference(at: Float64Array, i: number): number {
    let eta = at[0]!;
    if (this.massAt >= 0) eta += at[this.massAt]! * this.#mass[i]!;
    for (const group of this.#levels) eta += this.effect(at, group, group.of[i]!);
    return eta;
  }

  /** Effect of one level on ln H at a draw. */
  effect(at: Float64Array, group: Levels | undefined, level: number): number {
    if (group === undefined) return 0;
    const x = at[group.at + level]!;
    return group.centred ? x : this.spread(at, group) * x;
  }

  /** Spread of a grouped term at a draw; zero for one that is not there. */
  spread(at: Float64Array, group: Levels | undefined): number {
    if (group === undefined) return 0;
    return group.spreadAt >= 0 ? Math.exp(at[group.spreadAt]!) : group.scale;
  }

  /** Of ln load between sites, days and testers not pulled with yet, all together, at a draw. */
  newSpread(at: Float64Array): number {
    return Math.hypot(this.spread(at, this.sites), this.spread(at, this.days), this.spread(at, this.testers));
  }

  scatter(at: Float64Array): number {
    return Math.exp(at[this.scatterAt]!);
  }

  /** A load in newtons of pull i at a draw, for simulation. */
  simulate(at: Float64Array, i: number, rng: Rng): number {
    const u = 1 - rng.uniform();
    const w = this.law === "lognormal" ? normalQuantile(u === 1 ? 0.5 : u) : Math.log(-Math.log(u === 1 ? 0.5 : u));
    return Math.exp(this.centre(at, i) + this.scatter(at) * w);
  }
}

/** Cell of each pull, and the first pull of each cell. */
function cellsOf(levels: readonly Levels[], mass: Float64Array): { of: Int32Array; first: Int32Array } {
  const place = new Map<string, number>();
  const first: number[] = [];
  const of = Int32Array.from(mass, (own, i) => {
    const key = `${own} ${levels.map((group) => group.of[i]).join(" ")}`;
    const known = place.get(key);
    if (known !== undefined) return known;
    place.set(key, first.length);
    return first.push(i) - 1;
  });
  return { of, first: Int32Array.from(first) };
}

function seabedsOf(pulls: readonly Pull[]): { names: readonly string[]; of: Int32Array } {
  const names = namesOf(pulls.map(({ seabed }) => seabed));
  const place = new Map(names.map((name, k) => [name, k]));
  return { names, of: Int32Array.from(pulls, ({ seabed }) => place.get(seabed!)!) };
}

function middleLoad({ kind, low, high, length }: Observations): number {
  let sum = 0;
  for (let i = 0; i < length; i++) sum += kind[i] === BELOW ? high[i]! : low[i]!;
  return sum / length;
}

function normalPrior(at: Float64Array, gradient: Float64Array, k: number, mean: number, sd: number): number {
  const z = (at[k]! - mean) / sd;
  gradient[k] = gradient[k]! - z / sd;
  return -0.5 * z * z;
}

/** Half-normal on e^x, as a density of x. */
function halfNormalPrior(at: Float64Array, gradient: Float64Array, k: number, scale: number): number {
  const z = Math.exp(at[k]!) / scale;
  gradient[k] = gradient[k]! + 1 - z * z;
  return at[k]! - 0.5 * z * z;
}
