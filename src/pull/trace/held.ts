import { type NoEquilibrium, type Rig, type Settled, settle } from "../../rode/index.ts";
import type { Mark } from "./marks.ts";
import type { Measured } from "./trace.ts";

/** The end of the rode at which the load cell sat. */
export type ReadAt = "anchor" | "bow";

/**
 * What a pull says of the anchor: it held at least a load, or it gave way at one; read at one end of the rode.
 * Comparing anchors, the first is a value cut off at the right.
 */
export type HeldLoad =
  | {
      readonly kind: "heldTo" | "gaveWay";
      readonly newtons: number;
      readonly u: number;
      readonly at: ReadAt;
      /** The mark it rests on. */
      readonly mark: string;
      readonly why: string;
    }
  | { readonly kind: "notKnown"; readonly why: string };

/** A drag that begins this near to a plateau's end began on it, s. */
const AT_ONCE = 3;

/**
 * The held load of a pull from its marks (corrected ones when there are any). It gave way at the highest load at which
 * a drag began, unless it held more than that (by twice the uncertainty) on a plateau that did not end in a drag; a
 * plateau through which it dragged held nothing. A peak is no held load.
 *
 * @param heldFor a plateau counts from this length, s
 */
export function heldLoad(marks: readonly Mark[], at: ReadAt, heldFor: number): HeldLoad {
  const drags = marks.filter((m) => m.kind === "drag");
  const dragged = (p: Mark): boolean =>
    drags.some((d) => Math.min(d.to, p.to) - Math.max(d.from, p.from) > 0.5 * (p.to - p.from));
  const plateaus = marks.filter((m) => m.kind === "plateau" && m.to - m.from >= heldFor - 1e-9 && !dragged(m));
  const held = highest(plateaus);
  const drag = highest(drags);
  // A drag that ends the highest plateau ends what was held there, though the load swung low as it began.
  const ended = held && drags.find((d) => Math.abs(d.from - held.to) <= AT_ONCE);
  if (held && ended && ended.value <= held.value && !(drag && drag.value > held.value + 2 * Math.hypot(held.u, drag.u)))
    return {
      kind: "gaveWay",
      newtons: held.value,
      u: Math.hypot(held.u, ended.u),
      at,
      mark: ended.id,
      why: `held for ${Math.round(held.to - held.from)} s; then ${ended.why}`,
    };
  if (drag && !(held && held.value > drag.value + 2 * Math.hypot(held.u, drag.u)))
    return { kind: "gaveWay", newtons: drag.value, u: drag.u, at, mark: drag.id, why: drag.why };
  if (held)
    return {
      kind: "heldTo",
      newtons: held.value,
      u: held.u,
      at,
      mark: held.id,
      why: `held for ${Math.round(held.to - held.from)} s${drag ? "; it had given way at less" : ""}`,
    };
  return { kind: "notKnown", why: `no load was held for ${heldFor} s, and nothing shows that the anchor gave way` };
}

function highest(marks: readonly Mark[]): Mark | null {
  return marks.reduce<Mark | null>((a, b) => (a && a.value >= b.value ? a : b), null);
}

/** A held load at both ends of the rode. */
export type Carried =
  | {
      readonly kind: "heldTo" | "gaveWay";
      readonly readAt: ReadAt;
      /** Load at the anchor and at the bow, N. */
      readonly anchor: Measured;
      readonly bow: Measured;
      /** Angle of the rode above the seabed at the anchor, rad. */
      readonly angleToBottom: Measured;
      readonly settled: Settled;
    }
  | NoEquilibrium;

/**
 * The held load at the other end too, by the equilibrium of the rode. First-order uncertainty: of the load read, and
 * of mass per length and rise where the rig states theirs (uncorrelated).
 */
export function carryHeld(held: Extract<HeldLoad, { newtons: number }>, rig: Rig): Carried {
  const answer = settle(rig, { at: held.at, newtons: held.newtons });
  if (answer.kind !== "settled") return answer;
  const inputs: { u: number; at: (times: number) => [Rig, number] }[] = [
    { u: held.u, at: (k) => [rig, held.newtons + k * held.u] },
  ];
  const { massPerLength, rise } = rig.uncertainty;
  if (massPerLength) inputs.push({ u: massPerLength, at: (k) => [heavier(rig, 1 + k * massPerLength), held.newtons] });
  if (rise) inputs.push({ u: rise, at: (k) => [higher(rig, k * rise), held.newtons] });
  const squares = { anchor: 0, bow: 0, angle: 0 };
  for (const input of inputs) {
    if (!(input.u > 0)) continue;
    const up = moved(input.at(0.5));
    const down = moved(input.at(-0.5));
    squares.anchor += (up.anchor.tension - down.anchor.tension) ** 2;
    squares.bow += (up.bow.tension - down.bow.tension) ** 2;
    squares.angle += (up.anchor.angleToBottom - down.anchor.angleToBottom) ** 2;
  }
  return {
    kind: held.kind,
    readAt: held.at,
    anchor: { value: answer.anchor.tension, u: Math.sqrt(squares.anchor) },
    bow: { value: answer.bow.tension, u: Math.sqrt(squares.bow) },
    angleToBottom: { value: answer.anchor.angleToBottom, u: Math.sqrt(squares.angle) },
    settled: answer,
  };

  /** A state beside the answer; where none exists the answer itself stands in, and that side counts half. */
  function moved([r, newtons]: [Rig, number]): Settled {
    const a = settle(r, { at: held.at, newtons: Math.max(0, newtons) });
    return a.kind === "settled" ? a : (answer as Settled);
  }
}

function heavier(rig: Rig, times: number): Rig {
  return {
    ...rig,
    rode: rig.rode.map((p) => (p.kind === "line" ? { ...p, massPerLength: p.massPerLength * times } : p)),
  };
}

function higher(rig: Rig, metres: number): Rig {
  const s = rig.setting;
  return { ...rig, setting: s.medium === "air" ? { ...s, rise: s.rise + metres } : { ...s, depth: s.depth + metres } };
}
