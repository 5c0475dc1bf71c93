/** Boats of the place Weather: the invented one it opens with, and what a hand changes in one. */
import { NAUTICAL_MILE } from "../../../quantity/index.ts";
import type { Boat, Windage } from "../../../sea/index.ts";

const kn = (knots: number): number => (knots * NAUTICAL_MILE) / 3600;
const point = (wind: number, load: number, windU: number, loadU: number, peak?: number, peakU?: number) => ({
  wind: kn(wind),
  load,
  ...(peak === undefined ? {} : { peak }),
  at: "bow" as const,
  uncertainty: { wind: kn(windU), load: loadU, ...(peakU === undefined ? {} : { peak: peakU }) },
});

/** `data/boats/marsh-tern.yaml`, invented, without the reader that a file needs; a test holds the two together. */
export const marshTern: Boat = {
  name: "Marsh Tern",
  length: 11.6,
  waterline: 10.1,
  beam: 3.7,
  draught: 1.75,
  bodyDraught: 0.6,
  displacement: 7600,
  bowRollerHeight: 1.35,
  windage: {
    kind: "shapes",
    shapes: [
      { kind: "hull", freeboard: 1.25 },
      { kind: "deckhouse", length: 4.2, width: 2.4, height: 0.45 },
      { kind: "mast", thickness: 0.14, chord: 0.21, foot: 1.7, top: 16.2 },
      { kind: "rigging", length: 82, diameter: 0.008, foot: 1.3, top: 16 },
      { kind: "rigging", length: 24, diameter: 0.01, foot: 1.3, top: 16 },
      { kind: "part", name: "boom and covered mainsail", front: 0.5, side: 1.9, foot: 2.4, top: 2.9 },
      { kind: "part", name: "rolled headsail", front: 1.3, side: 1.3, foot: 1.6, top: 15, drag: 1.1 },
      { kind: "part", name: "spray hood and dinghy", front: 2.1, side: 1.6, foot: 1.5, top: 2.5 },
    ],
  },
  engineThrust: 2600,
  veering: { amplitude: (25 * Math.PI) / 180, period: 45 },
  measured: [
    point(10, 175, 0.8, 20),
    point(14, 310, 0.8, 25),
    point(18, 560, 1, 45, 850, 80),
    point(22, 780, 1, 60, 1230, 110),
    point(27, 1250, 1.2, 100, 1900, 160),
  ],
  uncertainty: { area: 0.05, drag: 0.2, engineThrust: 300 },
};

/** The same wind met by two areas, as a start for whoever would rather state them. */
export function asAreas(front: number, side: number, height: number): Windage {
  return {
    kind: "areas",
    front: { area: round(front), drag: 1, height: round(height) },
    side: { area: round(side), drag: 1, height: round(height) },
  };
}

/** What of a boat is still the invented one's, in the words of the form; none of it for a boat of one's own. */
export function stillInvented(boat: Boat): readonly string[] {
  const dimensions = ["length", "beam", "draught", "displacement"] as const;
  return [
    ...(dimensions.every((name) => boat[name] === marshTern[name]) ? ["dimensions"] : []),
    ...(alike(boat.windage, marshTern.windage) ? ["windage"] : []),
    ...(boat.measured.some((point) => marshTern.measured.some((one) => alike(one, point))) ? ["measured points"] : []),
  ];
}

/** Equal to the nine digits that an address keeps. */
function alike(one: unknown, other: unknown): boolean {
  if (typeof one === "number" && typeof other === "number") return Math.abs(one - other) <= 1e-7 * Math.abs(one);
  if (typeof one !== "object" || typeof other !== "object" || one === null || other === null) return one === other;
  const names = Object.keys(one);
  return (
    names.length === Object.keys(other).length &&
    names.every((name) => alike(one[name as keyof typeof one], other[name as keyof typeof other]))
  );
}

const round = (value: number): number => Number(value.toPrecision(2));

/** What of a boat cannot be, in one line; null when all of it fits. The reader of boat files holds the same. */
export function misfit(boat: Boat): string | null {
  const { length, beam, draught, displacement, waterline = length, bodyDraught = draught } = boat;
  if (beam > length) return "beam: larger than the length; a beam within the length is expected";
  if (waterline > length) return "waterline: longer than the length; a waterline within the length is expected";
  if (bodyDraught > draught) return "draught of the body: deeper than the draught; one within the draught is expected";
  if (displacement / 1025 > waterline * beam * draught)
    return "displacement: more than a block of waterline × beam × draught displaces; one that fits is expected";
  const upright = boat.windage?.kind === "shapes" ? boat.windage.shapes : [];
  for (const shape of upright)
    if ("top" in shape && shape.top <= shape.foot)
      return `${shape.kind === "part" ? shape.name : shape.kind}: a top at or below the foot; a top above it is expected`;
  for (const one of boat.measured)
    if (one.peak !== undefined && one.peak < one.load)
      return "measured points: a peak below the mean load; a peak at least as large is expected";
  return null;
}
