/** A bridle from above, to scale: the pull runs to the left, the bow turned by its heading, each leg as thick as its load. */
import { ink } from "../ink.ts";
import { SIZE, text } from "../lettering.ts";
import { type Drawn, type FigureWords, sheet } from "../sheet.ts";
import { num, tag } from "../svg.ts";

/** A bridle under a load, as it is drawn. */
export interface BridleDrawing extends FigureWords {
  /** Between the cleats, m, and the boat's angle off the pull, rad. */
  readonly beam: number;
  readonly heading: number;
  /** Of the hook from the middle between the cleats, along and across the pull, m. */
  readonly along: number;
  readonly across: number;
  /** Tension of each leg, N, and what is written beside it. */
  readonly legs: readonly [number, number];
  readonly said: readonly [string, string];
  /** Beside the arrow of the pull. */
  readonly pull: string;
  /** px; 680 by 300 without */
  readonly width?: number;
  readonly height?: number;
  readonly alone?: boolean;
}

const LEFT = 64;
/** Boat's length drawn, in halves of the beam. */
const HULL = 2.6;

/** Bow, cleats, legs and hook. */
export function drawBridle(drawing: BridleDrawing): Drawn {
  const { beam, heading, along, across, legs, said, pull, title, description } = drawing;
  const { width = 680, height = 300, alone = false } = drawing;
  const [s, c] = [Math.sin(heading), Math.cos(heading)];
  const half = beam / 2;
  const cleats = [
    { along: half * s, across: half * c },
    { along: -half * s, across: -half * c },
  ];
  const reach = Math.max(along, 0.1) + HULL * half;
  const scale = Math.min((width - LEFT - 16) / reach, (height - 90) / (2 * 1.7 * half + 0.01));
  const x = (metres: number): number => LEFT + (Math.max(along, 0.1) - metres) * scale;
  const y = (metres: number): number => height / 2 + metres * scale;
  const at = (ahead: number, out: number): string => `${num(x(ahead * c + out * s))} ${num(y(-ahead * s + out * c))}`;
  const most = Math.max(...legs, 1e-9);
  const hook = { x: x(along), y: y(across) };
  const parts = [
    tag("path", {
      // The bow: a wedge whose cleats lie on its shoulders.
      d: `M${at(0.9 * half, 0)}Q${at(0.5 * half, 0.75 * half)} ${at(-0.3 * half, 1.15 * half)}L${at(-2.4 * half, 1.7 * half)}L${at(-2.4 * half, -1.7 * half)}L${at(-0.3 * half, -1.15 * half)}Q${at(0.5 * half, -0.75 * half)} ${at(0.9 * half, 0)}Z`,
      ...{ fill: ink("water"), stroke: ink("soft"), "stroke-width": 1.5 },
    }),
    ...cleats.map(({ along: a, across: o }, i) => {
      const slack = !(legs[i]! > 1e-3 * most);
      return tag("path", {
        ...{ d: `M${num(x(a))} ${num(y(o))}L${num(hook.x)} ${num(hook.y)}`, fill: "none" },
        ...{ stroke: ink(slack ? "soft" : "computed"), "stroke-width": slack ? 1.5 : 1.5 + (4.5 * legs[i]!) / most },
        ...(slack ? { "stroke-dasharray": "3 4" } : { "stroke-linecap": "round" }),
      });
    }),
    ...cleats.map(({ along: a, across: o }) =>
      tag("circle", { cx: x(a), cy: y(o), r: 4, fill: ink("paper"), stroke: ink("ink"), "stroke-width": 2 }),
    ),
    tag("path", {
      d: `M${num(hook.x)} ${num(hook.y)}h-36m8-5l-8 5l8 5`,
      ...{
        fill: "none",
        stroke: ink("ink"),
        "stroke-width": 2.5,
        "stroke-linecap": "round",
        "stroke-linejoin": "round",
      },
    }),
    text(8, hook.y - 14, pull, { rimmed: true }),
    // Above the upper leg and below the lower, whichever of the two that is.
    ...cleats.map(({ along: a, across: o }, i) =>
      text(
        (x(a) + hook.x) / 2,
        o < cleats[1 - i]!.across ? Math.min(y(o), hook.y) - 12 : Math.max(y(o), hook.y) + 22,
        said[i]!,
        { anchor: "middle", rimmed: true },
      ),
    ),
    text(width - 8, height - 8, "from above, to scale", { anchor: "end", size: SIZE.small, colour: "soft" }),
  ];
  return sheet(width, height, { title, description }, parts.join(""), alone);
}
