/** What an answer about a boat rests on that nobody stated, as short sentences without a full stop. */
import { roundToUncertainty } from "../quantity/index.ts";
import type { Assumption, Derivation } from "../sea/index.ts";

const OF = {
  drag: "drag coefficients",
  area: "areas",
  airDensity: "air density",
  current: "force of the current",
  engineThrust: "engine thrust",
} as const;
const OF_POINTS = { load: "loads", peak: "peaks", wind: "wind", exponent: "exponent" } as const;
const BODY = "the body as half a spheroid as long as the waterline";

/** What an answer takes for granted, as a sentence. */
export function assumptionLine(assumption: Assumption): string {
  switch (assumption.kind) {
    case "uncertainty":
      return `${OF[assumption.of]} to ${percent(assumption.share)}`;
    case "points": {
      const { at, of, u } = assumption;
      return `${pointsAt(at)}: ${OF_POINTS[of]} to ${of === "exponent" ? u : percent(u)}`;
    }
    case "squareLawKept": {
      const { value, u, because } = assumption.fitted;
      const shown = roundToUncertainty(value, u);
      const why = because === "tellsLess" ? "tells less than the square law" : "is no law of wind";
      return `${pointsAt(assumption.at)}: square law kept, a fitted exponent of ${shown.value} ± ${shown.u} ${why}`;
    }
    case "dimension":
      return `${assumption.of === "waterline" ? "waterline" : "draught of the body"} ${derivationWords(assumption.from)}`;
    case "gustFactorSure":
      return "the gust factor as the model has it, without uncertainty";
    case "pointsWithoutCurrent":
      return "measured points without current: none is added to what they give";
    case "freeBoxSurge":
      return "surge of a free box in long-crested waves from ahead, without uncertainty";
  }
}

/** Where a number of a boat is from. */
export function derivationWords(from: Derivation): string {
  switch (from.kind) {
    case "stated":
      return "stated";
    case "shareOfLength":
      return `${from.share} of the length over all`;
    case "wholeDraught":
      return "the whole draught";
    case "addedWater": {
      const water = `displacement and ${(100 * from.share).toPrecision(2)} % added water, ${BODY}`;
      return from.motion === "sway" ? `${water}, keel not counted` : water;
    }
    case "gyration":
      return `radius of gyration of ${from.share === 0.25 ? "a quarter" : from.share} of the length, and added water, ${BODY}, keel not counted`;
  }
}

function pointsAt(at: Extract<Assumption, { kind: "points" }>["at"]): string {
  return `points at the ${at === "horizontal" ? "bow, horizontal" : at}`;
}

function percent(share: number): string {
  return `${Math.round(100 * share)} %`;
}
