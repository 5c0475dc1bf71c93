/** What a reduction and a carrying say, as sentences: no full stop, beginning small. */
import type {
  AngleShortCut,
  Effect,
  Judgement,
  MixUp,
  NotCarried,
  ShortCut,
  Unsettled,
  Verdict,
  WordedJudgement,
  WordedShortCut,
} from "../pull/index.ts";
import { DEGREES, type UnitSystem } from "../quantity/index.ts";
import type { Rig } from "../rode/index.ts";
import { noEquilibriumLine } from "./no-equilibrium.ts";

type FitCause = Extract<Judgement, { about: "fit" }>["cause"];
type UnknownCause = Extract<Judgement, { about: "unknown" }>["cause"];
type OfRow = Extract<Judgement, { about: "reading" | "release" }>;
type OfShortCut = Extract<Judgement, { about: "simplification" }>;

/** A verdict of a reduction as a clause; the load it speaks of is told before it. */
export function judgementWords(judgement: Judgement): string {
  switch (judgement.about) {
    case "fit":
      return fitWords(judgement.cause);
    case "unknown":
      return unknownWords(judgement.cause);
    case "simplification":
      return angleCutWords(judgement);
    default:
      return rowWords(judgement);
  }
}

/** Why theory says nothing of a row; the row is told before it. */
export function unsettledWords(unsettled: Unsettled, units: UnitSystem, medium: Rig["setting"]["medium"]): string {
  return unsettled.kind === "noEquilibrium"
    ? `no equilibrium: ${noEquilibriumLine(unsettled.none, units, medium)}`
    : "an angle is expected beside the lift-off: by theory no load lifts this rig off";
}

/** The same with what it is about and its load: what is written for other programs. */
export const wordedJudgement = (judgement: Judgement): WordedJudgement => ({
  about: judgement.about,
  load: judgement.load,
  says: judgementWords(judgement),
});

function fitWords(cause: FitCause): string {
  switch (cause.kind) {
    case "notSettled":
      return "the readings do not settle the unknowns: take the fitted values as stated beforehand";
    case "accounted":
      return `theory accounts for ${cause.count} of ${cause.all} readings; ${scatterWords(cause)}`;
    case "notAccounted":
      return `theory does not account for these readings: ${cause.count} of ${cause.all} readings agree with it, and they scatter ${cause.scatter.toFixed(1)} times more than their stated uncertainties; look at the rig, the units, the ends and the gauge before anything here is used`;
    case "tooShort": {
      const [which, those] =
        cause.count === cause.all ? ["any", "these readings"] : ["one", `${cause.count} of these readings`];
      return `the run is too short to tell who is wrong: a gross error in ${which} of ${those} would pass for one in another, or for what is not known of the rig`;
    }
    case "mixedUp":
      return `they would fit if ${mixUpWords(cause.mixUp)}: the readings then scatter ${cause.scatter > 1 ? `${cause.scatter.toFixed(1)} times their stated uncertainties` : "as stated"}; nothing was changed, the file has to be`;
    case "stuckGauge":
      return `the gauge reads the same at all ${cause.count} loads while by theory the angle turns by ${(cause.turns * DEGREES).toFixed(1)}°: it may stick`;
    case "suspects":
      return `${cause.count} readings do not agree with each other, and the run is too short to tell which is wrong: none of them is believed; read them again`;
  }
}

function scatterWords({ spread, scatter }: Extract<FitCause, { kind: "accounted" | "notAccounted" }>): string {
  return {
    more: `they scatter ${scatter.toFixed(1)} times more than their stated uncertainties`,
    less: "they scatter less than their stated uncertainties, which may be too generous",
    asStated: "they scatter about as their stated uncertainties say",
    tooFew: "they are too few to say whether they scatter as stated",
  }[spread];
}

function rowWords({ about, cause, residual, resting }: OfRow): string {
  const what = about === "reading" ? "the angle" : "the movement";
  const why = resting
    ? `by theory part of the rode rests on the ground here${about === "release" ? " and may stick; the movement read does not follow from weight alone" : ""}`
    : "no cause shows in the rig; the entry or the gauge may be at fault";
  const doubt =
    cause === "outlier"
      ? `an outlier, kept in view and given little weight; ${why}`
      : "this reading or another is wrong, the run does not tell which; kept in view and given no weight";
  return `${what} is ${Math.abs(residual).toFixed(1)} standard uncertainties ${residual < 0 ? "below" : "above"} theory: ${doubt}`;
}

const unknownNames = { massPerLength: "mass per length", rise: "the rise" } as const;

function unknownWords(cause: UnknownCause): string {
  switch (cause.kind) {
    case "asGiven":
      return `${unknownNames[cause.of]} is taken as given: the rig states no uncertainty of it`;
    case "moved":
      return `${unknownNames[cause.of]} moved by more than twice what was stated beforehand: measure it again`;
    case "littleSaid":
      return `these readings say little of ${unknownNames[cause.of]}: its value is mostly what was stated beforehand`;
    case "gaugeZero":
      return "the gauge's zero is off by more than twice its uncertainty: check it against a level";
    case "rigGives":
      return "the rig itself gives under load: part of the movement read is not the rode's";
    case "rigPushesBack":
      return "the rig would have to push back: the movement read is smaller than the rode's own";
  }
}

const angleCuts: Readonly<Record<AngleShortCut, string>> = {
  straight: "taking the rode as straight",
  readAtAnchor: "taking the load read as that at the anchor",
  readAtBow: "taking the load read as that at the bow",
  noStretch: "leaving out stretch",
  levelGround: "taking the ground as level",
};

function angleCutWords({ cause, worst, larger, of }: OfShortCut): string {
  const degrees = (worst * DEGREES).toFixed(worst < 0.01 ? 2 : 1);
  const verdict =
    larger === 0
      ? "smaller than the gauge's uncertainty at every load read"
      : `larger than the gauge's uncertainty at ${larger} of ${of} loads`;
  return `${angleCuts[cause]}: changes the angle at the anchor by up to ${degrees}°, ${verdict}`;
}

const loadMixUps: Readonly<Record<Extract<MixUp, { kind: "loads" }>["as"], string>> = {
  kgfAsN: "kgf written as N",
  lbfAsN: "lbf written as N",
  tenth: "daN written as N, or a tenth too little",
  hundredth: "a hundredth too little",
  kNAsN: "kN written as N",
  nAsKgf: "N written as kgf",
  nAsLbf: "N written as lbf",
  tenfold: "N written as daN, or ten times too much",
  hundredfold: "a hundred times too much",
  nAsKN: "N written as kN",
  kgfAsLbf: "kgf written as lbf",
  lbfAsKgf: "lbf written as kgf",
  daNAsLbf: "daN written as lbf",
  lbfAsDaN: "lbf written as daN",
};

const movementMixUps: Readonly<Record<Extract<MixUp, { kind: "movements" }>["as"], string>> = {
  otherWay: "movement counted the other way",
  inchesAsCm: "inches written as cm",
  cmAsInches: "cm written as inches",
  inchesAsMm: "inches written as mm",
  mmAsInches: "mm written as inches",
  inchesAsM: "inches written as m",
  feetAsInches: "feet written as inches",
  inchesAsFeet: "inches written as feet",
  cmAsMm: "cm written as mm",
  mmAsCm: "mm written as cm",
  cmAsM: "cm written as m",
  mmAsM: "mm written as m",
};

const angleMixUps: Readonly<Record<Extract<MixUp, { kind: "angles" }>["as"], string>> = {
  otherSign: "angles below the horizontal written as above, or the other way",
  perCentAsDegrees: "per cent written as degrees",
  degreesAsPerCent: "degrees written as per cent",
  radiansAsDegrees: "radians written as degrees",
  fromVertical: "angles from the vertical written as from the horizontal",
  tenth: "angles a tenth of what they are",
  tenfold: "angles ten times what they are",
};

/** What was mixed up, as a clause: "the loads are kgf written as N". */
export function mixUpWords(mixUp: MixUp): string {
  switch (mixUp.kind) {
    case "loads":
      return `the loads are ${loadMixUps[mixUp.as]}`;
    case "angles":
      return `these are ${angleMixUps[mixUp.as]}`;
    case "movements":
      return `the movements are ${movementMixUps[mixUp.as]}`;
    case "ends": {
      const { cell, gauge } = mixUp;
      if (cell === null) return `the gauge sat at the ${gauge}`;
      return `the load cell sat at the ${cell}${gauge === null ? "" : ` and the gauge at the ${gauge}`}`;
    }
  }
}

const shortCuts: Readonly<Record<ShortCut, string>> = {
  readForBow: "the load read stands for the load at the other rig's bow",
  anchorForBow: "the load at the anchor stands for the load at the bow",
  straight: "the rode is straight: the angle at the anchor follows from the scope alone",
  noStretch: "nothing stretches",
  asInAir: "rode weighs the same in water as in air",
  allUnderWater: "rode between the surface and the roller weighs as under water",
  levelGround: "the ground is level",
  noWeights: "shackles, swivels and weights weigh nothing",
};

/** A short cut of carrying, what it is and at which loads it may stand. */
export const wordedShortCut = ({ simplification, effects }: Verdict): WordedShortCut => ({
  simplification: shortCuts[simplification],
  says: effectWords(effects),
  effects,
});

function effectWords(effects: readonly Effect[]): string {
  const worse = effects.filter((effect) => !effect.smaller);
  if (worse.length === 0) return "smaller than the uncertainty at every load: it may stand";
  if (worse.length === effects.length) return "larger than the uncertainty at every load: it may not stand";
  return `larger than the uncertainty at ${worse.length} of ${effects.length} loads: it may not stand there`;
}

/** Why a load is not carried. */
export function notCarriedWords({ kind }: NotCarried["cause"]): string {
  return kind === "noEquilibrium"
    ? "the stand-in rig has no equilibrium"
    : "no load in the rig carried to pulls its anchor at that angle";
}
