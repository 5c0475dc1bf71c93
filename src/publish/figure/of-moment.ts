/** The boat and her rode at one second of a ride. */
import { drawMoment } from "../../figure/index.ts";
import { DEGREES, formatQuantity, type UnitSystem } from "../../quantity/index.ts";
import { type Rig, riseOf } from "../../rode/index.ts";
import type { Boat } from "../../sea/index.ts";
import type { FigureMade } from "./made.ts";

/** A second of a ride. */
export interface MomentDrawn {
  readonly rig: Rig;
  readonly boat: Boat;
  /** s from the start of what is counted */
  readonly second: number;
  /** x, y, z of every node from the anchor, m: downwind, across, up. */
  readonly places: ArrayLike<number>;
  /** Middle of the boat, m, and her heading, rad. */
  readonly body: readonly [x: number, y: number, heading: number];
  /** Loads then, N, and the angle at the anchor above the bottom, rad. */
  readonly bowLoad: number;
  readonly anchorLoad: number;
  readonly anchorAngle: number;
  readonly seed: number;
}

/** Boat and rode from the side and from above, to scale. */
export function momentFigure(moment: MomentDrawn, units: UnitSystem): FigureMade {
  const { rig, boat, second, places, body, bowLoad, anchorLoad, anchorAngle, seed } = moment;
  const nodes = Math.floor(places.length / 3);
  const along = (axis: 0 | 1 | 2): number[] => Array.from({ length: nodes }, (_, i) => places[3 * i + axis]!);
  const [x, y, z] = [along(0), along(1), along(2)];
  const load = (newtons: number): string => formatQuantity(newtons, "force", { system: units, digits: 3 });
  const title = `${boat.name} riding to ${rig.name}, second ${Number(second.toFixed(1))}`;
  const said = `${load(bowLoad)} at the bow, ${load(anchorLoad)} and ${formatQuantity(anchorAngle, "angle", { digits: 2 })} at the anchor.`;
  return {
    title,
    uncertain: `${said} No ± is drawn: one drawing of gusts and waves, seed ${seed}, of boat and rode as their files state them.`,
    draw: (width) =>
      drawMoment({
        title,
        description: `The boat and her rode from the side and from above, to scale. ${said}`,
        ...{ x, y, z },
        surface: rig.setting.medium === "water" ? rig.setting.depth : riseOf(rig.setting),
        bottomSlope: rig.setting.bottomSlope,
        boat: {
          ...{ x: body[0], y: body[1], heading: body[2], length: boat.length, beam: boat.beam },
          depth: boat.bodyDraught ?? 0.4 * boat.draught,
          freeboard: 0.8 * boat.bowRollerHeight,
        },
        width: Math.round(width),
      }),
    table: {
      columns: ["what", "downwind, m", "across, m", "height above the anchor, m", "heading, deg"],
      rows: [
        ...x.map((value, i) => [`node ${i}`, value, y[i]!, z[i]!, ""]),
        ["middle of the boat", body[0], body[1], "", body[2] * DEGREES],
      ],
    },
  };
}
