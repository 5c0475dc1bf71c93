/**
 * Marks as they stand: the automatic ones, each with its correction beside it where a person made one, and those added
 * by hand. A correction is a record of its own; putting it aside brings the automatic mark back.
 */
import { type Correction, type Mark, type MarkCause, type MarkKind, readMarkCause } from "../pull/index.ts";
import type { WrittenRecord } from "../record/index.ts";

/** A mark as a book holds it. */
export interface BookMark {
  readonly id: string;
  readonly hidden: boolean;
  readonly log: string;
  readonly kind: string;
  readonly from_s: number;
  readonly to_s: number | null;
  readonly origin: "automatic" | "by hand";
  readonly corrects: string | null;
  readonly detail: Readonly<Record<string, unknown>> | null;
  readonly remarks: string | null;
}

/** A mark as it stands once corrections are laid over it. */
export interface EffectiveMark {
  /** The automatic mark's id, or the added one's: it stays while the mark is corrected. */
  readonly id: string;
  readonly kind: string;
  readonly from: number;
  readonly to: number;
  readonly origin: "automatic" | "corrected" | "added";
  readonly takenAway: boolean;
  /** As the reduction made it; null for one added by hand. */
  readonly automatic: BookMark | null;
  /** As a person made it; null while nobody did. */
  readonly byHand: BookMark | null;
  /** Of the load, N, as told with the automatic mark; null where it tells none, or was moved since. */
  readonly value: number | null;
  readonly u: number;
  /** Why it is one; null where nobody wrote it, or it was moved or called something else since. */
  readonly why: MarkCause | null;
}

/** Kinds the reduction reads; a mark of any other kind is kept and shown, and changes no answer. */
const reduced: readonly MarkKind[] = ["slack", "plateau", "peak", "spike", "drag", "easing", "reversal"];
const isReduced = (kind: string): kind is MarkKind => reduced.some((one) => one === kind);

/** Kinds that a person may put on a trace. */
export const addableMarks = ["plateau", "drag", "slack", "set", "reset", "step", "note"] as const;
/** A kind of mark that a person may add. */
export type AddableMark = (typeof addableMarks)[number];

const takesAway = (mark: BookMark): boolean => mark.detail?.change === "take away";

/** Marks of a log as they stand, corrections laid over the automatic ones. */
export function effectiveMarks(marks: readonly BookMark[]): readonly EffectiveMark[] {
  const shown = marks.filter((mark) => !mark.hidden);
  const corrections = new Map<string, BookMark>();
  for (const mark of shown) {
    if (mark.corrects === null) continue;
    const before = corrections.get(mark.corrects);
    // Two devices may have corrected one mark: the later record stands, the other is kept in the book.
    if (before === undefined || mark.id > before.id) corrections.set(mark.corrects, mark);
  }
  const known = new Set(shown.map((mark) => mark.id));
  return shown
    .filter((mark) => mark.corrects === null || !known.has(mark.corrects))
    .map((mark): EffectiveMark => {
      const byHand =
        mark.origin === "automatic" ? (corrections.get(mark.id) ?? null) : (corrections.get(mark.id) ?? mark);
      const stands = byHand ?? mark;
      const value = mark.detail?.value;
      const moved = byHand !== null && (byHand.from_s !== mark.from_s || byHand.to_s !== mark.to_s);
      // What was found there, of that kind: it says nothing of another stretch, or of what it is called now.
      const told = !moved && stands.kind === mark.kind ? mark.detail?.why : undefined;
      return {
        id: mark.id,
        kind: stands.kind,
        from: stands.from_s,
        to: stands.to_s ?? stands.from_s,
        origin: mark.origin === "automatic" ? (byHand === null ? "automatic" : "corrected") : "added",
        takenAway: takesAway(stands),
        automatic: mark.origin === "automatic" ? mark : null,
        byHand,
        value: typeof value === "number" && mark.detail?.of === "force" && !moved ? value : null,
        u: typeof mark.detail?.u === "number" ? mark.detail.u : 0,
        why: readMarkCause(stands.remarks ?? told),
      };
    })
    .sort((a, b) => a.from - b.from || a.to - b.to || (a.id < b.id ? -1 : 1));
}

/** What somebody does to a mark. */
export type MarkChange =
  | { readonly change: "move"; readonly from: number; readonly to: number }
  | { readonly change: "call"; readonly kind: string }
  | { readonly change: "take away" }
  | { readonly change: "bring back" };

/** A change to a mark as the record to write: the automatic mark is never touched. */
export function changedMark(mark: EffectiveMark, change: MarkChange, newId: () => string): WrittenRecord {
  const own = mark.byHand;
  const isMoment = (own ?? mark.automatic)!.to_s === null;
  const ends = (from: number, to: number) => ({ from_s: from, to_s: isMoment ? null : to });
  const set: Record<string, unknown> =
    change.change === "move"
      ? ends(Math.min(change.from, change.to), Math.max(change.from, change.to))
      : change.change === "call"
        ? { kind: change.kind }
        : { detail: change.change === "take away" ? { ...own?.detail, change: "take away" } : null };
  if (own !== null) {
    const was = Object.fromEntries(
      Object.keys(set).map((field) => [field, (own as unknown as Record<string, unknown>)[field] ?? null]),
    );
    return { kind: "mark", id: own.id, makes: false, set, was };
  }
  const automatic = mark.automatic!;
  return {
    kind: "mark",
    id: newId(),
    makes: true,
    set: {
      log: automatic.log,
      kind: automatic.kind,
      ...ends(mark.from, mark.to),
      origin: "by hand",
      corrects: automatic.id,
      ...set,
    },
  };
}

/** What people changed, as the reduction takes it; and the slack stretches they pointed at. */
export function correctionsOf(marks: readonly EffectiveMark[]): {
  readonly corrections: readonly Correction[];
  readonly slack: readonly { readonly from: number; readonly to: number }[];
} {
  const corrections: Correction[] = [];
  const slack: { from: number; to: number }[] = [];
  for (const mark of marks) {
    const { automatic, byHand } = mark;
    if (byHand === null || !isReduced(mark.kind)) continue;
    if (automatic === null) {
      if (mark.takenAway) continue;
      if (mark.kind === "slack") slack.push({ from: mark.from, to: mark.to });
      else corrections.push(...added(mark, mark.kind));
      continue;
    }
    if (!isReduced(automatic.kind)) continue;
    const lay = { kind: automatic.kind, from: automatic.from_s, to: automatic.to_s ?? automatic.from_s };
    if (mark.takenAway) {
      corrections.push({ change: "take away", mark: automatic.id, lay });
      continue;
    }
    if (mark.kind !== automatic.kind) corrections.push({ change: "call", mark: automatic.id, lay, kind: mark.kind });
    if (mark.from !== lay.from || mark.to !== lay.to)
      corrections.push({ change: "move", mark: automatic.id, lay, from: mark.from, to: mark.to });
  }
  return { corrections, slack };
}

/** An added mark is put where it lies, then moved there, so that the reduction measures it. */
function added(mark: EffectiveMark, kind: MarkKind): readonly Correction[] {
  const own: Mark = {
    id: mark.id,
    kind,
    from: mark.from,
    to: mark.to,
    value: mark.value ?? 0,
    u: mark.u,
    of: "force",
    why: mark.why ?? { kind: "byHand" },
  };
  return [
    { change: "add", mark: own },
    { change: "move", mark: mark.id, lay: { kind, from: mark.from, to: mark.to }, from: mark.from, to: mark.to },
  ];
}
