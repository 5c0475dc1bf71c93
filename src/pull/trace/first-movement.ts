import type { AnchorPath } from "../anchor/index.ts";
import type { Drag } from "./drags.ts";
import type { Measured } from "./trace.ts";

/** When the anchor first moved, as far as load and track tell it: when it had gone three tenths of a metre. */
export type FirstMovement =
  | {
      readonly kind: "moved";
      /** s on the log's clock. */
      readonly at: Measured;
      /** By load and track together, or as a person marked it. */
      readonly by: "track" | "hand";
      /** An earlier one of less than so many metres in half a minute may have been missed; null where no track tells. */
      readonly unseen: number | null;
    }
  /** None was seen; one of less than so many metres in half a minute may have been missed (with 95 % it was less). */
  | { readonly kind: "none"; readonly unseen: number }
  /** The load alone does not tell; `fell` is when it first fell as it does when an anchor goes, s; null: it did not. */
  | { readonly kind: "notKnown"; readonly why: "noTrack" | "noLine"; readonly fell: number | null };

/** The beginning of a fall of the load is known to so much, s, and to half its own length. */
const FALL = 2;
/** No anchor goes at full speed at once: what a movement's beginning is uncertain by besides, s, and as a share of its length. */
const GENTLY = { seconds: 2.5, share: 0.15 };
/** A fall of the load so near to where a movement begins is that beginning, s. */
const SAME = 3;
/** A movement of this length is what may be missed, s, looked at everywhere in steps of half of it. */
const MISSED = 30;
/** Found with 95 %: what stands out by so many times its ±, about what a search of all windows asks, and 1.65 more. */
const FOUND = 4.2 + 1.65;

/** @param drags as their marks stand after corrections */
export function firstMovement(path: AnchorPath | null, drags: readonly Drag[], hasTrack: boolean): FirstMovement {
  const byHand = drags.find((d) => d.seenIn === "hand");
  const seen = drags.find((d) => d.seenIn === "both" || d.seenIn === "movement");
  const movement = path?.movements[0];
  const found = [
    ...(byHand ? [{ at: { value: byHand.from, u: 1 }, by: "hand" as const }] : []),
    ...(movement ? [{ at: sharper(began(movement), drags), by: "track" as const }] : []),
    ...(seen ? [{ at: fallen(seen), by: "track" as const }] : []),
  ];
  // A fall within a movement is no earlier one: what ploughs lets go at last.
  const first = found.reduce<(typeof found)[number] | null>((a, b) => (a && a.at.value <= b.at.value ? a : b), null);
  const tracked = path !== null && path.stretches.length > 0;
  if (first) return { kind: "moved", ...first, unseen: tracked ? unseenBy(path) : null };
  const fell = drags[0]?.from ?? null;
  if (!tracked || fell !== null) return { kind: "notKnown", why: hasTrack ? "noLine" : "noTrack", fell };
  return { kind: "none", unseen: unseenBy(path) };
}

/** The least movement in half a minute that is found with 95 % wherever it lies, m. */
function unseenBy(path: AnchorPath): number {
  let most = 0;
  for (const stretch of path.stretches)
    for (let from = stretch.from; from === stretch.from || from + MISSED <= stretch.to; from += MISSED / 2) {
      const moved = path.moved({ from, to: Math.min(stretch.to, from + MISSED) });
      if (moved) most = Math.max(most, moved.u);
    }
  return Math.max(1, FOUND * most);
}

const began = ({ from, to, begins }: AnchorPath["movements"][number]): Measured => ({
  value: begins.value,
  u: Math.hypot(begins.u, GENTLY.seconds, GENTLY.share * (to - from)),
});

const fallen = (drag: Drag): Measured =>
  drag.seenIn === "both"
    ? { value: drag.from, u: Math.hypot(FALL, (drag.to - drag.from) / 2) }
    : { value: drag.from, u: Math.hypot(GENTLY.seconds, (drag.to - drag.from) / 4) };

/** A quick fall of the load where a movement begins tells the moment better than fixes do. */
function sharper(at: Measured, drags: readonly Drag[]): Measured {
  const near = drags.find((d) => d.seenIn === "both" && Math.abs(d.from - at.value) < Math.max(SAME, 2 * at.u));
  const fall = near && { value: near.from, u: FALL };
  return fall && fall.u < at.u ? fall : at;
}
