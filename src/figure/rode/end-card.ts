/** The card at each end of a rode: its load and angle, with their ±. */
import { formatQuantity, type UnitSystem } from "../../quantity/index.ts";
import type { Ink } from "../ink.ts";
import { SIZE, text, widthOf } from "../lettering.ts";
import type { Box } from "../room-for.ts";

export interface EndValues {
  readonly name: string;
  /** N, and its standard uncertainty where there is one */
  readonly tension: number;
  readonly uTension?: number | undefined;
  /** rad */
  readonly angle: number;
  readonly uAngle?: number | undefined;
}

export interface Card {
  readonly lines: readonly string[];
  readonly width: number;
  readonly height: number;
}

const LEADING = 16;

export function cardOf(end: EndValues, units: UnitSystem): Card {
  const certain = (u: number | undefined) => (u !== undefined && u > 0 && Number.isFinite(u) ? { u } : { digits: 3 });
  const lines = [
    end.name,
    formatQuantity(end.tension, "force", { system: units, ...certain(end.uTension) }),
    `${formatQuantity(end.angle, "angle", { system: units, ...certain(end.uAngle) })}${Math.abs(end.angle) < 1e-9 ? " (level)" : ""}`,
  ];
  return {
    lines,
    width: Math.max(...lines.map((line) => widthOf(line, SIZE.strong, true))),
    height: lines.length * LEADING,
  };
}

/** @param top of the card, px */
export function cardAt(card: Card, left: number, top: number, colour: Ink): { svg: string; box: Box } {
  const svg = card.lines
    .map((line, i) =>
      text(left, top + 12 + i * LEADING, line, {
        rimmed: true,
        ...(i === 0 ? { size: SIZE.small, colour: "soft" } : { size: SIZE.strong, weight: "bold", colour }),
      }),
    )
    .join("");
  return { svg, box: { left, top, right: left + card.width, bottom: top + card.height } };
}
