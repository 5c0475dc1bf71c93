import { GRAVITY, type LinePart, type Rig, riseOf, type StretchLaw } from "./model.ts";

/**
 * A rig as arrays of numbers: what the solver's loops read. Weights are N per unstretched metre (lines) or N (points),
 * `low` in the medium at the anchor, `high` above the water surface.
 */
export interface CompiledRode {
  readonly count: number;
  /** 1 for a line, 0 for a point. */
  readonly isLine: Uint8Array;
  readonly length: Float64Array;
  readonly low: Float64Array;
  readonly high: Float64Array;
  /** Bands of part i are firstBand[i] … firstBand[i + 1] − 1. */
  readonly firstBand: Int32Array;
  /** Load at which the band begins, N; strain intercept c; compliance κ = 1/k, 1/N: ε = c + κT inside the band. */
  readonly bandLoad: Float64Array;
  readonly bandStrain: Float64Array;
  readonly bandCompliance: Float64Array;
  /** Sums: unstretched length, m; weight in the lower medium, N. */
  readonly totalLength: number;
  readonly totalLow: number;
  /** Sum of what each part weighs or lifts, N: sums of forces along the rode round with this. */
  readonly heft: number;
  /** Upper end above the anchor, m; water surface above the anchor, m (infinite in air). */
  readonly rise: number;
  readonly surface: number;
  /** Distance from the anchor at which a rising bottom comes to the surface (in air: to the upper end), m; else infinite. */
  readonly ashore: number;
  /** A span from which the bow counts as ashore: less than `ashore` by the rounding of a march. */
  readonly afloatBelow: number;
  readonly sinSlope: number;
  readonly cosSlope: number;
  readonly tanSlope: number;
  /** Drag of resting rode per weight: sin slope + friction · cos slope. */
  readonly restDrag: number;
  /** True when some part is lighter than the water it displaces. */
  readonly hasBuoyant: boolean;
  /** True when some line stretches. */
  readonly stretches: boolean;
  /** Parts from here on are points at the bow roller itself: they weigh in air even where the roller is at the surface. */
  readonly tail: number;
  /** Pieces a march can record at most. */
  readonly mostPieces: number;
}

/** Turns a rig into numbers. Checks nothing: a rig was checked where it was read. */
export function compile(rig: Rig): CompiledRode {
  const { setting, rode } = rig;
  const count = rode.length;
  const water = setting.medium === "water" ? setting.waterDensity : 0;
  const isLine = new Uint8Array(count);
  const length = new Float64Array(count);
  const low = new Float64Array(count);
  const high = new Float64Array(count);
  const firstBand = new Int32Array(count + 1);
  const bands: Band[] = [];
  let totalLength = 0;
  let totalLow = 0;
  let heft = 0;
  let mostPieces = 4;
  rode.forEach((part, i) => {
    const mass = part.kind === "line" ? part.massPerLength : part.mass;
    high[i] = mass * GRAVITY;
    low[i] = mass * GRAVITY * (1 - water / part.density);
    firstBand[i] = bands.length;
    if (part.kind === "line") {
      isLine[i] = 1;
      length[i] = part.length;
      const own = bandsOf(part);
      bands.push(...own);
      totalLength += part.length;
      totalLow += low[i]! * part.length;
      heft += Math.abs(low[i]! * part.length);
      mostPieces += 2 * own.length + 4;
    } else {
      totalLow += low[i]!;
      heft += Math.abs(low[i]!);
      mostPieces += 1;
    }
  });
  firstBand[count] = bands.length;
  const slope = setting.bottomSlope;
  const sinSlope = Math.sin(slope);
  const cosSlope = Math.cos(slope);
  const rise = riseOf(setting);
  const surface = setting.medium === "water" ? setting.depth : Number.POSITIVE_INFINITY;
  const ashore = slope > 0 ? Math.min(surface, rise) / Math.tan(slope) : Number.POSITIVE_INFINITY;
  return {
    count,
    isLine,
    length,
    low,
    high,
    firstBand,
    bandLoad: Float64Array.from(bands, (b) => b.load),
    bandStrain: Float64Array.from(bands, (b) => b.intercept),
    bandCompliance: Float64Array.from(bands, (b) => b.compliance),
    totalLength,
    totalLow,
    heft,
    rise,
    surface,
    ashore,
    afloatBelow: ashore * (1 - 1e-12),
    sinSlope,
    cosSlope,
    tanSlope: Math.tan(slope),
    restDrag: sinSlope + setting.bottomFriction * cosSlope,
    hasBuoyant: low.some((w) => w < 0),
    stretches: bands.some((band) => band.compliance > 0),
    tail: isLine.lastIndexOf(1) + 1,
    mostPieces,
  };
}

interface Band {
  readonly load: number;
  readonly intercept: number;
  readonly compliance: number;
}

function bandsOf(part: LinePart): Band[] {
  return lawBands(part.stretch);
}

/** The straight pieces of a stretch law: load at which each begins, its strain intercept and its compliance. */
export function lawBands(law: StretchLaw): Band[] {
  if (law.kind === "rigid") return [{ load: 0, intercept: 0, compliance: 0 }];
  if (law.kind === "linear") return [{ load: 0, intercept: 0, compliance: 1 / law.stiffness }];
  const bands: Band[] = [];
  let strain = 0;
  let load = 0;
  for (const [nextStrain, nextLoad] of law.points) {
    const compliance = (nextStrain - strain) / (nextLoad - load);
    bands.push({ load, intercept: strain - compliance * load, compliance });
    strain = nextStrain;
    load = nextLoad;
  }
  return bands;
}
