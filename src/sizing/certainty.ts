/**
 * Uncertainty of what sizing answers, first order, each input moved by its own standard uncertainty either way:
 * u² = Σ [(f(x + u) − f(x − u))/2]².
 * @source JCGM 100:2008, 5.1.3 note 2
 */
import { type LinePart, type Rig, riseOf, type StretchLaw, settle } from "../rode/index.ts";
import { catenaryFade, type FadeQuestion, readAt } from "./fade.ts";
import { type SteadyLoad, type Surge, snatchForce } from "./snatch.ts";

/** Standard uncertainties of the inputs beside the rig's own; a field left out is taken as exact. */
export interface InputsU {
  /** Of the steady load, N. */
  readonly load?: number;
  /** m/s, kg, m */
  readonly speed?: number;
  readonly mass?: number;
  readonly distance?: number;
  /** Relative, of the stretch of every rope under a load. */
  readonly stretch?: number;
}

export interface Certain {
  readonly value: number;
  readonly u: number;
  /** Share of u² of each input; they add up to 1. */
  readonly shares: readonly { readonly name: string; readonly share: number }[];
}

/** The rig with every line's mass scaled, its rise moved and its ropes made more or less stretchy. */
export function varied(rig: Rig, mass: number, rise: number, stretch: number): Rig {
  const { setting } = rig;
  return {
    ...rig,
    setting:
      setting.medium === "air"
        ? { ...setting, rise: setting.rise + rise }
        : { ...setting, depth: setting.depth + rise },
    rode: rig.rode.map((part) =>
      part.kind === "line"
        ? {
            ...part,
            massPerLength: part.massPerLength * mass,
            stretch: isRope(part) ? stretchedBy(part.stretch, stretch) : part.stretch,
          }
        : part,
    ),
  };
}

function isRope(part: LinePart): boolean {
  return part.material !== "chain" && part.material !== "wire";
}

function stretchedBy(law: StretchLaw, factor: number): StretchLaw {
  if (law.kind === "rigid" || factor === 1) return law;
  if (law.kind === "linear") return { kind: "linear", stiffness: law.stiffness / factor };
  return { kind: "curve", points: law.points.map(([strain, load]) => [strain * factor, load] as const) };
}

interface Input {
  readonly name: string;
  readonly u: number;
}

/** @returns null when no input carries an uncertainty, or a neighbouring case has no answer */
function firstOrder(
  value: number,
  inputs: readonly Input[],
  model: (moved: readonly number[]) => number,
): Certain | null {
  const uncertain = inputs.filter((input) => input.u > 0);
  if (uncertain.length === 0) return null;
  const own = inputs.map(({ u }, i) => {
    if (!(u > 0)) return 0;
    const by = (sign: number): number => model(inputs.map((_, j) => (i === j ? sign * u : 0)));
    return 0.5 * (by(1) - by(-1));
  });
  const variance = own.reduce((sum, one) => sum + one * one, 0);
  if (!Number.isFinite(variance)) return null;
  return {
    value,
    u: Math.sqrt(variance),
    shares: inputs.flatMap(({ name, u }, i) =>
      u > 0 ? [{ name, share: variance > 0 ? own[i]! ** 2 / variance : 0 }] : [],
    ),
  };
}

/** What the rig itself is unsure of. */
function rigInputs(rig: Rig, stretch = 0): Input[] {
  const { massPerLength = 0, rise = 0 } = rig.uncertainty;
  return [
    { name: "mass per length", u: massPerLength },
    { name: "rise", u: Math.min(rise, 0.4 * riseOf(rig.setting)) },
    { name: "stretch of the rope", u: rig.rode.some((part) => part.kind === "line" && isRope(part)) ? stretch : 0 },
  ];
}

/** Tension at the bow at the peak of a snatch, N. */
export function snatchCertainty(rig: Rig, load: SteadyLoad, surge: Surge, u: InputsU, peak: number): Certain | null {
  const inputs = [
    ...rigInputs(rig, u.stretch),
    { name: "steady load", u: u.load ?? 0 },
    { name: "speed", u: surge.kind === "speed" ? (u.speed ?? 0) : 0 },
    { name: "mass that moves", u: surge.kind === "speed" ? (u.mass ?? 0) : 0 },
    { name: "distance", u: surge.kind === "distance" ? (u.distance ?? 0) : 0 },
  ];
  return firstOrder(peak, inputs, ([mass, rise, stretch, steady, speed, moving, distance]) => {
    const rigThere = varied(rig, 1 + mass!, rise!, 1 + stretch!);
    const mean = settle(rigThere, { at: load.at, newtons: load.newtons + steady! });
    if (mean.kind === "noEquilibrium") return Number.NaN;
    const horizontal = snatchForce(
      rigThere,
      mean.horizontal,
      surge.kind === "speed"
        ? { kind: "speed", speed: Math.max(0, surge.speed + speed!), mass: surge.mass + moving! }
        : { kind: "distance", distance: Math.max(0, surge.distance + distance!) },
    );
    if (!Number.isFinite(horizontal)) return Number.NaN;
    const at = settle(rigThere, { at: "horizontal", newtons: horizontal });
    return at.kind === "settled" ? at.bow.tension : Number.NaN;
  });
}

/** Load past which catenary gives less than is asked, N, read at the end the question names. */
export function fadeCertainty(rig: Rig, question: FadeQuestion, load: number): Certain | null {
  return firstOrder(load, rigInputs(rig), ([mass, rise]) => {
    const fade = catenaryFade(varied(rig, 1 + mass!, rise!, 1), question);
    return fade.kind === "fades" ? readAt(fade.settled, question.at) : Number.NaN;
  });
}
