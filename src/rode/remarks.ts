/** What a rig leaves open and an answer therefore takes for granted. */
import { dragDiameter } from "./contact/drag-stepper.ts";
import { inStillWater, type Rig } from "./model.ts";

/** Something a rig leaves open and an answer takes for granted. */
export interface Remark {
  /** A line in a current states no diameter: it is dragged as the circle that holds its displaced volume. */
  readonly about: "diameterAssumed";
  /** Part of the rode, 1 next to the anchor. */
  readonly part: number;
  readonly name: string;
  /** m */
  readonly diameter: number;
}

/** What a rig leaves open; empty where nothing is. */
export function remarksOn(rig: Rig): Remark[] {
  if (inStillWater(rig.setting)) return [];
  return rig.rode.flatMap((part, i) =>
    part.kind === "line" && part.diameter === undefined
      ? [{ about: "diameterAssumed", part: i + 1, name: part.name, diameter: dragDiameter(part) }]
      : [],
  );
}
