/** What is asked of the drawing of a rode, and the words that both its forms use. */
import { formatQuantity, type UnitSystem } from "../../quantity/index.ts";
import { type Certainty, type Rig, riseOf, type SettledTrace } from "../../rode/index.ts";
import type { Box } from "../room-for.ts";
import { type Card, cardOf } from "./end-card.ts";
import { nameOf } from "./part-labels.ts";
import type { Stage } from "./stage.ts";

/** A rig and its equilibrium as it is drawn. */
export interface RodeDrawing {
  readonly rig: Rig;
  readonly traced: SettledTrace;
  /** Standard uncertainties of what is drawn; without, no ± is shown. */
  readonly certainty?: Certainty | null;
  /** Standard uncertainty of the rise, m; without, that which the rig states. */
  readonly riseU?: number | null;
  /** The end a load cell sits at, marked. */
  readonly loadCellAt?: "anchor" | "bow";
  /** The same rig under another load, as a dotted line behind, with its name. */
  readonly beside?: { readonly traced: SettledTrace; readonly label: string };
  readonly units?: UnitSystem;
  /** px; 680 without. A drawing narrower than a phone's column has its words below it. */
  readonly width?: number;
  readonly title?: string;
  readonly alone?: boolean;
}

/** Where a rode ends on the page, px, and how its loads point there, rad. */
export interface Ends {
  readonly ax: number;
  readonly ay: number;
  readonly bx: number;
  readonly by: number;
  readonly anchorOut: number;
  readonly bowOut: number;
}

/** The words of a drawing, by where they lie in it. */
export interface Words {
  /** Behind the rode. */
  readonly behind: string;
  readonly ends: string;
  readonly parts: string;
  /** Where nothing more may be written, and the page. */
  readonly taken: Box[];
  readonly within: Box;
  /** Where the drawing ends and words below it begin. */
  readonly foot: number;
}

/** Load and angle at both ends. */
export function endCards({ rig, traced, certainty, units = "metric" }: RodeDrawing): { anchor: Card; bow: Card } {
  const { anchor, bow } = traced.settled;
  const inAir = rig.setting.medium === "air";
  return {
    anchor: cardOf(
      {
        name: inAir ? "at the anchor end" : "at the anchor",
        tension: anchor.tension,
        uTension: certainty?.anchorTension,
        angle: anchor.angle,
        uAngle: certainty?.anchorAngle,
      },
      units,
    ),
    bow: cardOf(
      {
        name: inAir ? "at the upper end" : "at the bow",
        tension: bow.tension,
        uTension: certainty?.bowTension,
        angle: bow.angle,
        uAngle: certainty?.bowAngle,
      },
      units,
    ),
  };
}

export const length = (metres: number, units: UnitSystem, u?: number) =>
  formatQuantity(metres, "length", {
    system: units,
    ...(u !== undefined && u > 0 && Number.isFinite(u) ? { u } : { digits: 3 }),
  });

/** What is written at the upper end: the rise, or the depth. */
export function heightLabel({ rig, riseU, units = "metric" }: RodeDrawing): string {
  const { setting } = rig;
  const [name, value] = setting.medium === "air" ? ["rise", setting.rise] : ["depth", setting.depth];
  return `${name} ${length(value as number, units, riseU ?? rig.uncertainty.rise)}`;
}

/** Height of the roller above the water, where there is any. */
export function rollerLabel({ rig, units = "metric" }: RodeDrawing): string | null {
  const { setting } = rig;
  if (setting.medium === "air" || !(setting.rollerHeight > 0)) return null;
  return `roller ${length(setting.rollerHeight, units)}`;
}

export function scaleWords(stage: Stage): string {
  return stage.exaggeration === 1
    ? "drawn to scale"
    : `not to scale: heights drawn ${stage.exaggeration} times as large as lengths`;
}

export function wordsOf({ rig, traced, units = "metric", title }: RodeDrawing): { title: string; description: string } {
  const { settled } = traced;
  const force = (newtons: number) => formatQuantity(newtons, "force", { system: units, digits: 3 });
  const angle = (radians: number) => formatQuantity(radians, "angle", { system: units, digits: 3 });
  const where = rig.setting.medium === "air" ? "hanging in air" : `in ${length(rig.setting.depth, units)} of water`;
  return {
    title: title ?? `${rig.name} as it lies`,
    description: `${rig.name}, ${where}: ${rig.rode.map((part) => nameOf(part, units)).join("; ")}. It pulls with ${force(settled.anchor.tension)} at ${angle(settled.anchor.angle)} above the level at the anchor, and ${force(settled.bow.tension)} at ${angle(settled.bow.angle)} at the other end, over a span of ${length(settled.span, units)} and a rise of ${length(riseOf(rig.setting), units)}. ${settled.grounded > 0 ? `${length(settled.grounded, units)} of it rest on the bottom.` : "None of it rests on the bottom."}`,
  };
}
