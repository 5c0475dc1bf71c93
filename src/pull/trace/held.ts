import type { Moved } from "../anchor/index.ts";
import type { HeldCause, NotHeldCause, OpenStretch } from "./cause.ts";
import type { Mark } from "./marks.ts";

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
      readonly why: HeldCause;
      /** What the log cannot tell and would make it otherwise; null where the anchor's own movement is known. */
      readonly untold: Untold | null;
    }
  | { readonly kind: "notKnown"; readonly why: NotHeldCause; readonly untold: Untold | null };

/**
 * What a load by itself cannot tell: an anchor that ploughs slowly under a steady load from one that holds, or a throttle
 * cut from an anchor that gives way. What a track cannot tell: a movement smaller than its fixes wander.
 */
export type Untold = "slowPlough" | "fall" | "smallMovement";

/** How the anchor moved while a load was held: what the hold rule asks. */
export interface HoldRule {
  /** A plateau counts from this length, s. */
  readonly heldFor: number;
  /** The anchor moves by less than this while it holds, m. */
  readonly heldWithin: number;
  /** How far it moved during a mark; null where no track tells; absent: there is no track. */
  readonly moved?: (mark: Mark) => Moved | null;
  /** Whether a drag was seen in the load alone. */
  readonly byLoadAlone?: (drag: Mark) => boolean;
}

/** A drag that begins this near to a plateau's end began on it, s. */
const AT_ONCE = 3;
/** What a verdict says holds with this chance. */
const SURE = 0.95;

/**
 * The held load of a pull from its marks (corrected ones when there are any). It gave way at the highest load at which
 * a drag began, unless it held more than that (by twice the uncertainty) on a plateau that did not end in a drag; a
 * plateau through which it dragged held nothing, and one in which the anchor may have moved by more than the rule
 * allows does not tell. A peak is no held load.
 */
export function heldLoad(marks: readonly Mark[], at: ReadAt, rule: HoldRule): HeldLoad {
  const drags = marks.filter((m) => m.kind === "drag");
  const dragged = (p: Mark): boolean =>
    drags.some((d) => Math.min(d.to, p.to) - Math.max(d.from, p.from) > 0.5 * (p.to - p.from));
  const longEnough = marks.filter((m) => m.kind === "plateau" && m.to - m.from >= rule.heldFor - 1e-9 && !dragged(m));
  const ways = new Map(longEnough.map((m) => [m, rule.moved?.(m) ?? null] as const));
  // Where no track tells how far it moved, the load alone is believed; the verdict says that it is.
  const tells = (m: Mark): boolean => {
    const way = ways.get(m) ?? null;
    return way === null || way.chance(rule.heldWithin) <= 1 - SURE;
  };
  const firm = highest(longEnough.filter(tells));
  const open = highest(longEnough.filter((m) => !tells(m)));
  // Where nothing firm is known, one that likelier held than not is told with what stays open: more than the load alone.
  const likely = firm
    ? null
    : highest(longEnough.filter((m) => !tells(m) && ways.get(m)!.chance(rule.heldWithin) <= 0.5));
  const held = firm ?? likely;
  const drag = highest(drags);
  const beyond =
    open && open.value > (held?.value ?? 0) && !(drag && drag.value > open.value) ? openStretch(open) : null;
  // A drag that ends the highest plateau ends what was held there, though the load swung low as it began.
  const ended = held && drags.find((d) => Math.abs(d.from - held.to) <= AT_ONCE);
  if (held && ended && ended.value <= held.value && !(drag && drag.value > held.value + 2 * Math.hypot(held.u, drag.u)))
    return {
      kind: "gaveWay",
      newtons: held.value,
      u: Math.hypot(held.u, ended.u),
      at,
      mark: ended.id,
      why: { kind: "heldThenGaveWay", seconds: held.to - held.from, drag: ended.why },
      untold: untoldOf(ended),
    };
  if (drag && !(held && held.value > drag.value + 2 * Math.hypot(held.u, drag.u)))
    return {
      kind: "gaveWay",
      newtons: drag.value,
      u: drag.u,
      at,
      mark: drag.id,
      why: { kind: "gaveWay", drag: drag.why, open: beyond },
      untold: untoldOf(drag),
    };
  if (held) {
    const way = ways.get(held) ?? null;
    return {
      kind: "heldTo",
      newtons: held.value,
      u: held.u,
      at,
      mark: held.id,
      why: {
        kind: "held",
        seconds: held.to - held.from,
        most: way && atMost(way),
        rule: likely && way ? rule.heldWithin : null,
        gaveWayAtLess: drag !== null,
        open: beyond,
      },
      untold: way === null ? "slowPlough" : likely ? "smallMovement" : null,
    };
  }
  if (open)
    return {
      kind: "notKnown",
      why: { kind: "open", open: openStretch(open) },
      untold: "smallMovement",
    };
  return {
    kind: "notKnown",
    why: { kind: "nothingHeld", heldFor: rule.heldFor },
    untold: null,
  };

  function openStretch(plateau: Mark): OpenStretch {
    const { value, u } = ways.get(plateau)!;
    return { from: plateau.from, seconds: plateau.to - plateau.from, way: { value, u } };
  }

  /** A fall of the load alone may be the throttle; a drag that a person marked, or the track shows, is one. */
  function untoldOf(drag: Mark): Untold | null {
    return rule.byLoadAlone?.(drag) === true ? "fall" : null;
  }
}

/** Less is not told of an anchor, m. */
const TELLS = 0.1;

/** The least way, m, that the anchor did not pass with the chance that is called sure; a tenth of a metre at least. */
export function atMost(way: Moved): number {
  let [low, high] = [0, Math.max(0.1, way.value) + 6 * way.u];
  for (let k = 0; k < 40; k++) {
    const middle = (low + high) / 2;
    if (way.chance(middle) > 1 - SURE) low = middle;
    else high = middle;
  }
  return Math.max(TELLS, high);
}

function highest(marks: readonly Mark[]): Mark | null {
  return marks.reduce<Mark | null>((a, b) => (a && a.value >= b.value ? a : b), null);
}
