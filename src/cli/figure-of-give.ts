import { type FigureMade, giveFigure } from "../publish/index.ts";
import { InputError, KNOT, quoted, type UnitSystem } from "../quantity/index.ts";
import { CALM_SURROUNDINGS, readBoat, steadyLoad, windsForLoad } from "../sea/index.ts";
import { catenaryEnd, catenaryEndCertainty, giveOverLoads, readAt } from "../sizing/index.ts";
import type { Io } from "./io.ts";
import { placeOf, rigAt } from "./options.ts";
import { asksFrom } from "./shock-options.ts";

const WINDS = 60;
/** Drawn at least, m/s, and at most. */
const [LEAST, MOST] = [40 * KNOT, 100];
/** Times the wind in which catenary ends. */
const PAST = 1.25;

/** What a give over the wind is asked with. */
export interface GiveAsked {
  readonly boat: string;
  /** A give per load. */
  readonly asks: string;
  /** Strongest mean wind drawn, m/s; null: past where catenary ends. */
  readonly most: number | null;
}

/**
 * Give of a rode over the wind on a boat, as a figure.
 * @throws InputError for a boat without windage, or what is asked of catenary in another way than per load
 */
export async function figureOfGive(path: string, asked: GiveAsked, units: UnitSystem, io: Io): Promise<FigureMade> {
  const question = asksFrom(asked.asks, "horizontal");
  if (question.ask !== "perLoad")
    throw new InputError("--asks", quoted(asked.asks), 'a give per load, such as "0.1 m/kN", is expected');
  const rig = await rigAt(path, io);
  const place = placeOf(asked.boat);
  const boat = readBoat(await io.read(asked.boat), place);
  if (boat.windage === undefined)
    throw new InputError(place, "no windage", "a boat whose windage is stated is expected");
  const end = catenaryEnd(rig, question);
  let ends: { wind: number; u: number } | null = null;
  if (end.kind === "fades") {
    const value = readAt(end.settled, question.at);
    const worth = windsForLoad(boat, { value, u: catenaryEndCertainty(rig, question, value)?.u ?? 0 }).windage;
    if (worth?.kind === "wind") ends = { wind: worth.wind.value, u: worth.wind.u };
  }
  const most = asked.most ?? Math.min(MOST, Math.max(LEAST, PAST * (ends?.wind ?? 0)));
  const winds = Array.from({ length: WINDS }, (_, i) => (most * (i + 1)) / WINDS);
  const loads = winds.map((value) => steadyLoad(boat, { value, u: 0 }, CALM_SURROUNDINGS).value);
  const gives = giveOverLoads(rig, question.at, loads);
  return giveFigure({ ...gives, rig: rig.name, boat: boat.name, winds, asked: question.give, ends }, units);
}
