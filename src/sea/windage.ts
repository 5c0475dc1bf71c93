/**
 * What the wind meets: each shape of a boat as a front and a side area with drag coefficient and a band of heights.
 *
 * Usual drag coefficients, where the file states none:
 *   hull 0.5 head on on beam × freeboard, mast 1.0, rigging 1.2
 *     @source Larsson & Eliasson, Principles of Yacht Design, fig. 9.2 (seen)
 *   hull 0.9 beam on, deckhouse 0.8 head on and 1.0 beam on, other parts 1.0
 *     assumed: blunt bodies lie between 0.8 and 1.2; the uncertainty of drag covers it
 */
import type { Boat, WindageShape } from "./boat.ts";

/** One face of a shape: area m², drag coefficient, heights of foot and top above the water, m. */
export interface Face {
  readonly area: number;
  readonly drag: number;
  readonly foot: number;
  readonly top: number;
}

/** A surface of a boat that meets the wind. */
export interface Surface {
  readonly name: string;
  readonly front: Face;
  readonly side: Face;
}

const usual = { hull: 0.5, hullSide: 0.9, deckhouse: 0.8, deckhouseSide: 1, mast: 1, rigging: 1.2, part: 1 } as const;

/** The surfaces of a boat's windage; empty when its file states none. */
export function surfaces(boat: Boat): readonly Surface[] {
  const { windage } = boat;
  if (windage === undefined) return [];
  if (windage.kind === "areas") {
    const face = ({ area, drag, height }: { area: number; drag: number; height: number }): Face => ({
      area,
      drag,
      foot: height,
      top: height,
    });
    return [{ name: "whole boat", front: face(windage.front), side: face(windage.side) }];
  }
  const freeboard = windage.shapes.find((shape) => shape.kind === "hull")?.freeboard ?? 0;
  return windage.shapes.map((shape) => surfaceOf(shape, boat, freeboard));
}

function surfaceOf(shape: WindageShape, boat: Boat, freeboard: number): Surface {
  const between = (area: number, drag: number, foot: number, top: number): Face => ({ area, drag, foot, top });
  switch (shape.kind) {
    case "hull": {
      const { freeboard: f } = shape;
      return {
        name: "hull",
        front: between(boat.beam * f, shape.drag ?? usual.hull, 0, f),
        side: between(boat.length * f, shape.sideDrag ?? usual.hullSide, 0, f),
      };
    }
    case "deckhouse": {
      const foot = shape.foot ?? freeboard;
      const top = foot + shape.height;
      return {
        name: "deckhouse",
        front: between(shape.width * shape.height, shape.drag ?? usual.deckhouse, foot, top),
        side: between(shape.length * shape.height, shape.sideDrag ?? usual.deckhouseSide, foot, top),
      };
    }
    case "mast": {
      const drag = shape.drag ?? usual.mast;
      const height = shape.top - shape.foot;
      return {
        name: "mast",
        front: between(shape.thickness * height, drag, shape.foot, shape.top),
        side: between((shape.chord ?? shape.thickness) * height, drag, shape.foot, shape.top),
      };
    }
    case "rigging": {
      const face = between(shape.length * shape.diameter, shape.drag ?? usual.rigging, shape.foot, shape.top);
      return { name: "rigging", front: face, side: face };
    }
    case "part":
      return {
        name: shape.name,
        front: between(shape.front, shape.drag ?? usual.part, shape.foot, shape.top),
        side: between(shape.side, shape.sideDrag ?? shape.drag ?? usual.part, shape.foot, shape.top),
      };
  }
}
