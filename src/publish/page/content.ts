/** What a tester puts into a page for others: plain data in SI, as it stands in the file. */

import type { UnitSystem } from "../../quantity/index.ts";
import type { LinePart, Rig } from "../../rode/index.ts";
import type { Boat } from "../../sea/index.ts";
import type { DrawsText } from "./draws-text.ts";

/** Format of what stands inside a page. */
export const PAGE_FORMAT = "rodebench/page@1";

/** A pull a viewer may set beside their own rode: a rig as it lay, and the load. */
export interface Setup {
  readonly name: string;
  readonly rig: Rig;
  /** N, and the end it was read at. */
  readonly load: number;
  readonly at: "anchor" | "bow" | "horizontal";
}

/** Holding as draws foretell it, and what a viewer may ask of it. */
export interface PageHolding {
  readonly draws: DrawsText;
  readonly pulls: number;
  readonly anchors: readonly {
    readonly anchor: string;
    /** kg; the mean of its pulls. */
    readonly mass?: number;
    readonly pulls: number;
    readonly heldOn: number;
  }[];
  /** Seabed most pulls were on, where seabeds are a term. */
  readonly seabed?: string;
  /** Lowest and highest angle pulled at, rad. */
  readonly angles?: readonly [number, number];
  /** Whether angle and mass are terms of the model. */
  readonly hasAngle: boolean;
  readonly hasMass: boolean;
  readonly seed: number;
}

/** Everything a page holds of one tester. */
export interface PageContent {
  readonly format: typeof PAGE_FORMAT;
  readonly title: string;
  /** Who tested, as they want to be named; empty: not said. */
  readonly by: string;
  /** What the tester says of it, in plain text. */
  readonly note: string;
  readonly units: UnitSystem;
  readonly setups: readonly Setup[];
  /** Lines a viewer may choose from, 1 m each. */
  readonly chains: readonly LinePart[];
  readonly ropes: readonly LinePart[];
  /** Boats offered beside the viewer's own. */
  readonly boats: readonly Boat[];
  readonly holding: PageHolding | null;
  /** Version of the program that made it. */
  readonly program: string;
  /** The book it is made of says that its data are invented. */
  readonly invented?: boolean;
}
