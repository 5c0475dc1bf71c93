import type { Trace } from "../../../src/pull/trace/trace.ts";
import { type Chance, chanceOf, groups, smoothWander, wander } from "./chance.ts";
import { groundOf } from "./ground.ts";
import { type Helm, helmOf, type Step } from "./helm.ts";
import type { Regime } from "./regimes.ts";
import { distanceAt, loadOf, type OwnRode } from "./rode-curve.ts";

/** A pull of another maker: boat as a mass on her rode, ground that gives way, cell and receiver with faults, and its truth. */
export interface MadePull {
  readonly trace: Trace;
  /** What the rode gives by a rig known as a tester knows it: a few per cent off; null where no rig is known. */
  readonly give: ((newtons: number) => number) | null;
  /** Rode hanging at the cell when slack, N, as stated. */
  readonly hangs: { readonly load: number; readonly u: number } | null;
  readonly ahead: boolean;
  readonly truth: {
    /** Load at the bow, N, at the readings' times; way of the anchor, m. */
    readonly load: Float64Array;
    readonly anchor: Float64Array;
    readonly zero: Float64Array;
    readonly steps: readonly Step[];
    /** Direction from anchor to boat, rad clockwise from north. */
    readonly directionAt: (t: number) => number;
    /** Time between the pulls when it was turned round. */
    readonly turned: number | null;
    readonly top: number;
    /** What the rode truly gives between two loads, m. */
    readonly give: (newtons: number) => number;
  };
}

/** s */
const STEP = 0.05;
const RATE = 10;

export function makePull(regime: Regime, seed: number): MadePull {
  const chance = chanceOf(seed);
  const of = (range: readonly [number, number] | undefined, usual: readonly [number, number]): number =>
    chance.between(...(range ?? usual));
  const top = chance.between(2500, 9000);
  const rode: OwnRode = {
    weight: chance.between(12, 25),
    height: chance.between(4, 10),
    length: chance.between(28, 50),
    spring: chance.between(2500, 20_000),
  };
  const load = loadOf(rode, 4 * top);
  const mass = chance.between(6000, 16_000);
  const speed = of(regime.speed, [0.2, 0.5]);
  const most = of(regime.most, [1.5, 2.5]) * top;
  const digs = chance.between(0.15, 0.8);
  const ground = groundOf({
    ways: regime.ways ?? "firm",
    most,
    digs,
    thick: regime.ways === "breaks out" ? 0.25 * top : Math.max(100, top - Math.min(most, 0.9 * top)) / speed,
    left: regime.ways === "stick-slip" ? chance.between(0.7, 0.85) : chance.between(0.3, 0.6),
    again: regime.again ? of(regime.again, [1, 1]) : Number.POSITIVE_INFINITY,
  });
  const shape = {
    top,
    steps: Math.round(of(regime.steps, [1.6, 3.4])),
    hold: of(regime.hold, [20, 45]),
    ends: regime.ends ?? (chance.coin(0.5) ? ("eases" as const) : ("cuts" as const)),
    minds: of(regime.minds, [3, 8]),
    light: regime.light ? of(regime.light, [0, 0]) : 0,
  };
  const helms: Helm[] = [helmOf(shape, chance.between(12, 30), chance)];
  if (regime.turns === "round") helms.push(helmOf(shape, helms[0]!.end + chance.between(40, 70), chance));
  const turned =
    helms.length > 1 ? (helms[0]!.end + helms[1]!.end - (helms[1]!.end - helms[1]!.steps[0]!.from)) / 2 : null;
  const end = helms.at(-1)!.end + chance.between(18, 35);
  const count = Math.floor(end * RATE) + 1;

  const gusts = regime.gusts ? of(regime.gusts, [0, 0]) : chance.between(0, 0.03);
  const swell = regime.swell ? of(regime.swell, [0, 0]) : chance.between(0, 0.04);
  const bow = groups(chance, 4, 8);
  const fresh = smoothWander(chance, Math.ceil(end) + 2, 1, chance.between(4, 12));
  const wash = wander(chance, Math.ceil(end / STEP) + 2, STEP, 0.25);
  const washed = chance.between(0.005, 0.03);

  const out = { load: new Float64Array(count), anchor: new Float64Array(count), away: new Float64Array(count) };
  let [x, v, anchor, way] = [distanceAt(rode, 0) - chance.between(0.2, 2), 0, 0, 0];
  let still = 0;
  let round = false;
  for (let k = 0; k * STEP <= end; k++) {
    const t = k * STEP;
    if (turned !== null && !round && t > turned) {
      round = true;
      ground.turned(of(regime.after, [1, 1]));
      // The boat has gone over to the other side; the rode is slack there.
      [x, v] = [anchor + distanceAt(rode, 0) - 1, 0];
    }
    const pull = load(x + swell * bow(t) - anchor);
    const helm = round ? helms[1]! : helms[0]!;
    const go = ground.speed(pull, STEP);
    // Who stands at the throttle expects the anchor to dig in; what goes on after that is seen.
    still = go > 0.02 && way > 4 * digs ? still + STEP : 0;
    const j = Math.floor(t);
    const blow = fresh[j]! + (t - j) * (fresh[j + 1]! - fresh[j]!);
    const thrust = helm.thrust(t, still > 1) * (1 + gusts * blow + washed * wash[k]!);
    // A propeller pushes less the faster she goes; the rode is drawn through the water with her.
    v += (STEP * (thrust - pull - (1000 + Math.max(0, thrust) / 2) * v - 250 * v * Math.abs(v))) / mass;
    x += v * STEP;
    anchor += go * STEP;
    way += go * STEP;
    const i = Math.round(t * RATE);
    if (i < count && Math.abs(i / RATE - t) < STEP / 2) {
      out.load[i] = pull;
      out.anchor[i] = way;
      out.away[i] = x + swell * bow(t);
    }
  }
  return { ...seen(regime, chance, { rode, top, end, count, turned, helms, ...out }), ahead: regime.ahead === true };
}

interface Done {
  readonly rode: OwnRode;
  readonly top: number;
  readonly end: number;
  readonly count: number;
  readonly turned: number | null;
  readonly helms: readonly Helm[];
  readonly load: Float64Array;
  readonly anchor: Float64Array;
  readonly away: Float64Array;
}

/** What cell, receiver and compass tell of it. */
function seen(regime: Regime, chance: Chance, done: Done): Omit<MadePull, "ahead"> {
  const { rode, top, end, count, turned } = done;
  const time = Float64Array.from({ length: count }, (_, i) => i / RATE);
  const noise = chance.between(0.0005, 0.004) * top;
  const start = chance.between(-0.04, 0.04) * top;
  const drift = chance.between(-0.008, 0.008) * top;
  const warms = regime.warms ? chance.between(...regime.warms) * top * (chance.coin(0.5) ? 1 : -1) : 0;
  const warmth = chance.between(60, 150);
  const hangs = regime.hangs ? chance.between(...regime.hangs) : 0;
  const truth = done.load.map((f) => Math.max(f, hangs));
  const zero = time.map((t) => start + (drift * t) / end + warms * (1 - Math.exp(-t / warmth)));
  const read = truth.map((f, i) => f + zero[i]! + noise * chance.normal());
  if (regime.glitches)
    for (let k = 0; k < 5; k++) read[Math.floor(chance.between(20, count - 20))]! += chance.between(-1.5, 1.5) * top;

  const first = chance.between(0, 2 * Math.PI);
  const veer = regime.turns === "veers" ? chance.between(0.5, 1.2) * (chance.coin(0.5) ? 1 : -1) : 0;
  const middle = done.helms[0]!.steps[0]!.to;
  const lean = turned === null ? 0 : chance.between(-0.4, 0.4);
  // Half a minute for a veer, twenty seconds to go round.
  const round = (t: number): number => (turned === null ? 0 : Math.min(1, Math.max(0, (t - turned + 10) / 20)));
  const direction = (t: number): number =>
    first + (Math.PI + lean) * round(t) + veer * Math.min(1, Math.max(0, (t - middle) / 30));
  const ticks = Math.floor(end) + 1;
  const sway = smoothWander(chance, ticks, 1, 8).map((s) => 0.4 * s);
  const fix = regime.fix ? regime.fix[0] : chance.between(1, 2);
  const slow = chance.between(100, 300);
  const maker = chance.coin(0.5) ? smoothWander : wander;
  const errors = [maker(chance, ticks, 1, slow), maker(chance, ticks, 1, slow)];
  const white = chance.between(0.05, 0.2);
  const [east, north, angle] = [new Float64Array(ticks), new Float64Array(ticks), new Float64Array(ticks)];
  const yaw = wander(chance, ticks, 1, 8);
  const off = 0.05 * chance.normal();
  // Where the anchor lay when the pull was turned round.
  const origin = turned === null ? 0 : done.anchor[Math.floor(turned * RATE)]!;
  for (let i = 0; i < ticks; i++) {
    const d = direction(i);
    const k = i * RATE;
    const [s, c] = [Math.sin(d), Math.cos(d)];
    const base = round(i) * origin;
    const along = done.away[k]! - base;
    east[i] = base * Math.sin(first) + along * s + sway[i]! * c + fix * errors[0]![i]! + white * chance.normal();
    north[i] = base * Math.cos(first) + along * c - sway[i]! * s + fix * errors[1]![i]! + white * chance.normal();
    angle[i] = d + (regime.ahead ? 0 : Math.PI) + off + 0.1 * yaw[i]!;
  }
  if (regime.glitches) for (let k = 0; k < 3; k++) east[Math.floor(chance.between(2, ticks - 2))]! += 25;
  const ticked = Float64Array.from({ length: ticks }, (_, i) => i);
  const known = {
    ...rode,
    weight: rode.weight * (1 + 0.03 * chance.normal()),
    height: rode.height * (1 + 0.04 * chance.normal()),
  };
  const rigKnown = chance.coin(0.5);
  return {
    trace: {
      time,
      load: read,
      ...(regime.track === false ? {} : { track: { time: ticked, east, north } }),
      ...(regime.heading ? { heading: { time: ticked, angle } } : {}),
    },
    give: rigKnown ? (f) => distanceAt(known, Math.max(0, f)) - distanceAt(known, 0) : null,
    hangs: regime.hangs ? { load: hangs * (1 + 0.05 * chance.normal()), u: 0.05 * hangs } : null,
    truth: {
      load: truth,
      anchor: done.anchor,
      zero,
      steps: done.helms.flatMap((h) => h.steps),
      directionAt: direction,
      turned,
      top,
      give: (f) => distanceAt(rode, Math.max(0, f)) - distanceAt(rode, 0),
    },
  };
}
