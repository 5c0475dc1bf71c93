import type { Dimension } from "../../quantity/index.ts";
import type { MarkCause } from "./cause.ts";

/** What a mark on a trace can be. */
export const markKinds = ["slack", "plateau", "peak", "spike", "drag", "easing", "reversal"] as const;
/** What a mark on a trace can be. */
export type MarkKind = (typeof markKinds)[number];

/** A mark on a trace, made by the reduction or by hand: plain data, kept as it is. */
export interface Mark {
  readonly id: string;
  readonly kind: MarkKind;
  /** s; a moment has the same time twice. */
  readonly from: number;
  readonly to: number;
  /** Mean load of a slack stretch or plateau, highest load of a peak or spike, load before a drag or easing, N; turn of a reversal, rad. */
  readonly value: number;
  readonly u: number;
  readonly of: Extract<Dimension, "force" | "angle">;
  /** Why it was made. */
  readonly why: MarkCause;
}

/** Who corrected, when (as text, such as an ISO time), and why: kept, never judged. */
export interface Attribution {
  readonly by?: string;
  readonly at?: string;
  readonly why?: string;
}

/** A change a person makes to the marks. It names the mark, and where that lay, so that it finds it again. */
export type Correction = Attribution &
  (
    | {
        readonly change: "move";
        readonly mark: string;
        readonly lay: MarkPlace;
        readonly from: number;
        readonly to: number;
      }
    | { readonly change: "take away"; readonly mark: string; readonly lay: MarkPlace }
    | { readonly change: "call"; readonly mark: string; readonly lay: MarkPlace; readonly kind: MarkKind }
    | {
        readonly change: "value";
        readonly mark: string;
        readonly lay: MarkPlace;
        readonly value: number;
        readonly u: number;
      }
    | { readonly change: "add"; readonly mark: Mark }
  );

/** Where a mark lay and what it was when the correction was made. */
export interface MarkPlace {
  readonly kind: MarkKind;
  readonly from: number;
  readonly to: number;
}

/** A mark after corrections, the automatic one beside it. */
export interface CorrectedMark extends Mark {
  readonly origin: "automatic" | "corrected" | "added";
  /** The mark as the reduction made it; absent for one added by hand. */
  readonly automatic?: Mark;
  /** Indices of the corrections that made it what it is. */
  readonly corrections: readonly number[];
}

/** Marks as they stand once corrections are laid over the automatic ones. */
export interface CorrectedMarks {
  readonly marks: readonly CorrectedMark[];
  /** Automatic marks taken away, and by which correction. */
  readonly takenAway: readonly { readonly mark: CorrectedMark; readonly correction: number }[];
  /** Corrections whose mark is not there any more: to be shown, not dropped. */
  readonly unmatched: readonly number[];
}

/**
 * Applies corrections, in their order, to automatic marks; neither is changed. A correction finds its mark by name,
 * or, when a later reduction named it anew, by kind and by where it lay (more than half of either in common).
 *
 * @param measure gives a mark that was moved its value anew; absent: a moved mark keeps its value
 */
export function applyCorrections(
  marks: readonly Mark[],
  corrections: readonly Correction[],
  measure?: (mark: Mark) => { readonly value: number; readonly u: number } | null,
): CorrectedMarks {
  let current: CorrectedMark[] = marks.map((m) => ({ ...m, origin: "automatic", automatic: m, corrections: [] }));
  const takenAway: { mark: CorrectedMark; correction: number }[] = [];
  const unmatched: number[] = [];
  corrections.forEach((c, index) => {
    if (c.change === "add") {
      const there = current.find((m) => m.id === c.mark.id && m.origin === "added");
      // The same addition twice (a book merged with itself) is one mark.
      if (!there) current.push({ ...c.mark, origin: "added", corrections: [index] });
      return;
    }
    const mark =
      current.find((m) => m.id === c.mark) ??
      current.find((m) => m.automatic !== undefined && isWhere(m.automatic, c.lay)) ??
      current.find((m) => isWhere(m, c.lay));
    if (!mark) {
      if (!takenAway.some((t) => c.change === "take away" && (t.mark.id === c.mark || isWhere(t.mark, c.lay))))
        unmatched.push(index);
      return;
    }
    if (c.change === "take away") {
      current = current.filter((m) => m !== mark);
      takenAway.push({ mark, correction: index });
      return;
    }
    const changed = changedBy(mark, c, index);
    current = current.map((m) => (m === mark ? changed : m));
  });
  current.sort((a, b) => a.from - b.from || a.to - b.to || (a.id < b.id ? -1 : 1));
  return { marks: current, takenAway, unmatched };

  function changedBy(
    mark: CorrectedMark,
    c: Exclude<Correction, { change: "add" | "take away" }>,
    index: number,
  ): CorrectedMark {
    const origin = mark.origin === "added" ? "added" : "corrected";
    const noted = { ...mark, origin, corrections: [...mark.corrections, index] } as const;
    if (c.change === "value") return { ...noted, value: c.value, u: c.u };
    const placed =
      c.change === "move"
        ? { ...noted, from: Math.min(c.from, c.to), to: Math.max(c.from, c.to) }
        : { ...noted, kind: c.kind };
    const anew = measure?.(placed);
    return anew ? { ...placed, value: anew.value, u: anew.u } : placed;
  }
}

function isWhere(mark: MarkPlace, lay: MarkPlace): boolean {
  if (mark.kind !== lay.kind) return false;
  const common = Math.min(mark.to, lay.to) - Math.max(mark.from, lay.from);
  const longer = Math.max(mark.to - mark.from, lay.to - lay.from);
  // Marks of a moment have no length to share: within a second they are the same.
  return longer < 1 ? Math.abs(mark.from - lay.from) < 1 : common > longer / 2;
}
