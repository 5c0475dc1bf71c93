import { DEGREES } from "../quantity/index.ts";
import type { Settled } from "./model.ts";

/** The fields of `rodebench/settled@1`, without the format's name: SI, angles in degrees, the unit in each name. */
export interface SettledFields {
  readonly anchor: { readonly tension_N: number; readonly angle_deg: number; readonly angleToBottom_deg: number };
  readonly bow: { readonly tension_N: number; readonly angle_deg: number };
  readonly horizontal_N: number;
  readonly span_m: number;
  readonly grounded_m: number;
  readonly lifted_m: number;
  readonly stretch_m: number;
  readonly sag_m: number;
  readonly scope: number;
  readonly energy_J: { readonly lift: number; readonly stretch: number };
}

/** Format of an equilibrium as JSON. */
export const SETTLED_FORMAT = "rodebench/settled@1";

/** An equilibrium as other programs read it. */
export function settledFields(settled: Settled): SettledFields {
  return {
    anchor: {
      tension_N: settled.anchor.tension,
      angle_deg: settled.anchor.angle * DEGREES,
      angleToBottom_deg: settled.anchor.angleToBottom * DEGREES,
    },
    bow: { tension_N: settled.bow.tension, angle_deg: settled.bow.angle * DEGREES },
    horizontal_N: settled.horizontal,
    span_m: settled.span,
    grounded_m: settled.grounded,
    lifted_m: settled.lifted,
    stretch_m: settled.stretch,
    sag_m: settled.sag,
    scope: settled.scope,
    energy_J: { lift: settled.energy.lift, stretch: settled.energy.stretch },
  };
}
