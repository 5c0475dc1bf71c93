/** A viewer's own boat and rode, from the few numbers a page asks for. */
import { KNOT } from "../../quantity/index.ts";
import type { LinePart, Rig } from "../../rode/index.ts";
import { type Boat, SEA_WATER_DENSITY, usualShape } from "../../sea/index.ts";
import type { PageContent } from "./content.ts";

/** What a viewer puts in: SI, and what was picked by its place in the page's lists. */
export interface ViewerNumbers {
  /** m */
  readonly depth: number;
  readonly roller: number;
  /** Place among the page's chains and the length of it, m; a length of 0: none. */
  readonly chain: number;
  readonly chainLength: number;
  readonly rope: number;
  readonly ropeLength: number;
  /** Place among the page's boats; −1: a boat of the viewer's own, of these sizes, m. */
  readonly boat: number;
  readonly length: number;
  readonly beam: number;
  readonly freeboard: number;
  readonly mast: number;
  /** Mean wind at 10 m, m/s. */
  readonly wind: number;
  /** Place among the anchors pulled, and the mass of the viewer's own, kg. */
  readonly anchor: number;
  readonly mass: number;
  /** Place among the seabeds pulled on. */
  readonly seabed: number;
  /** Place among the tester's pulls. */
  readonly setup: number;
}

/** What is taken of a viewer's rode where nobody measured: standard uncertainties, said in the page. Assumed. */
export const OF_A_VIEWER: Rig["uncertainty"] = { massPerLength: 0.03, length: 0.02, rise: 0.2 };
/** Of the front area of a boat known by four sizes, as a share. Assumed. */
export const AREA_U_OF_SIZES = 0.3;

/** Numbers to begin with: a boat of eleven metres in eight metres of water. */
export function usualNumbers(content: PageContent): ViewerNumbers {
  const { holding, chains, boats } = content;
  const seabed = holding?.seabed;
  return {
    depth: 8,
    roller: 1.2,
    chain: Math.max(
      0,
      chains.findIndex(
        ({ name, diameter }) => (diameter ?? 0) >= 0.01 && name.includes(content.units === "us" ? " in " : " mm "),
      ),
    ),
    chainLength: 40,
    rope: 0,
    ropeLength: 0,
    boat: boats.length === 0 ? -1 : 0,
    length: 11,
    beam: 3.6,
    freeboard: 1.2,
    mast: 15,
    wind: 25 * KNOT,
    anchor: 0,
    mass: holding?.anchors[0]?.mass ?? 20,
    seabed: seabed === undefined ? 0 : holding!.draws.seabeds.indexOf(seabed),
    setup: 0,
  };
}

/** The viewer's rode as it would be let out: chain next to the anchor, then rope. Null where it has neither. */
export function rigOf(content: PageContent, numbers: ViewerNumbers): Rig | null {
  const part = (line: LinePart | undefined, length: number): LinePart[] =>
    line === undefined || !(length > 0) ? [] : [{ ...line, length }];
  const rode = [
    ...part(content.chains[numbers.chain], numbers.chainLength),
    ...part(content.ropes[numbers.rope], numbers.ropeLength),
  ];
  if (rode.length === 0) return null;
  return {
    name: "Your rode",
    setting: {
      medium: "water",
      depth: numbers.depth,
      rollerHeight: numbers.roller,
      waterDensity: SEA_WATER_DENSITY,
      bottomSlope: 0,
      // Nothing is known of the viewer's bottom: the chain on it is taken to hold nothing back.
      bottomFriction: 0,
      current: 0,
    },
    rode,
    uncertainty: OF_A_VIEWER,
  };
}

/** The boat picked, or one of the viewer's own by four sizes, whose mast and rigging are those such a boat usually has. */
export function boatOf(content: PageContent, numbers: ViewerNumbers): Boat {
  const picked = content.boats[numbers.boat];
  if (picked !== undefined) return picked;
  const { length, beam, freeboard, mast, roller } = numbers;
  const sizes = { length, beam, windage: { kind: "shapes", shapes: [{ kind: "hull", freeboard }] } } as const;
  // Of the hull under water nothing is asked: its draught and mass weigh in nothing that a page answers.
  const draught = 0.15 * length;
  const upright = mast > freeboard ? ([usualShape("mast", sizes), usualShape("rigging", sizes)] as const) : [];
  return {
    name: "Your boat",
    length,
    beam,
    draught,
    displacement: 0.25 * SEA_WATER_DENSITY * length * beam * draught,
    bowRollerHeight: roller,
    windage: {
      kind: "shapes",
      shapes: [
        { kind: "hull", freeboard },
        usualShape("deckhouse", sizes),
        ...upright.map((shape) => ({ ...shape, foot: freeboard, top: mast })),
      ],
    },
    measured: [],
    uncertainty: { area: AREA_U_OF_SIZES },
  };
}
