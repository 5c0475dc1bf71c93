/**
 * Which terms a comparison has: what was asked for, or else the anchor and every condition that each pull states and that
 * varies. A pull that lacks what a term needs takes no part in the fits; a term that cannot be told from those before it
 * (one mass an anchor, say) is dropped from the likelihood fits by name.
 */
import type { Pull } from "./pull.ts";

/** The terms a comparison may use, by name. */
export const TERMS = ["anchor", "angle", "mass", "seabed"] as const;
/** A term of the model. */
export type Term = (typeof TERMS)[number];
/** A group whose pulls share an unknown of their own. */
export type RandomTerm = "site" | "day" | "tester";

/** Why a term is not among those used. */
export type TermDropped =
  | { readonly kind: "notStated"; readonly term: Term; readonly lacking: number; readonly of: number }
  | { readonly kind: "sameInAll"; readonly term: Term }
  /** It follows from the terms before it. */
  | { readonly kind: "confounded"; readonly term: Term; readonly name: string };

/** Terms a comparison uses, and those that drop out. */
export interface ChosenTerms {
  readonly terms: readonly Term[];
  readonly dropped: readonly TermDropped[];
  /** Which of the pulls take part. */
  readonly takesPart: readonly boolean[];
}

function stated(pull: Pull, term: Term): boolean {
  switch (term) {
    case "anchor":
      return true;
    case "angle":
      return pull.anchorAngle !== undefined;
    case "mass":
      return pull.mass !== undefined;
    case "seabed":
      return pull.seabed !== undefined;
  }
}

/** What a term sees of a pull. */
export function seen(pull: Pull, term: Term): string | number | undefined {
  switch (term) {
    case "anchor":
      return pull.anchor;
    case "angle":
      return pull.anchorAngle;
    case "mass":
      return pull.mass;
    case "seabed":
      return pull.seabed;
  }
}

/** @param asked the terms wanted; left out, the anchor and all that every pull states */
export function chooseTerms(pulls: readonly Pull[], asked?: readonly Term[]): ChosenTerms {
  const dropped: TermDropped[] = [];
  const chosen: Term[] = [];
  for (const term of TERMS) {
    if (asked !== undefined && !asked.includes(term)) continue;
    const lacking = pulls.filter((pull) => !stated(pull, term)).length;
    if (lacking > 0 && (asked === undefined || lacking === pulls.length)) {
      // Nobody stated it and nobody asked: nothing to say.
      if (asked !== undefined || lacking < pulls.length)
        dropped.push({ kind: "notStated", term, lacking, of: pulls.length });
      continue;
    }
    chosen.push(term);
  }
  const takesPart = pulls.map((pull) => chosen.every((term) => stated(pull, term)));
  const part = pulls.filter((_, i) => takesPart[i]);
  const varying = chosen.filter((term) => {
    if (new Set(part.map((pull) => seen(pull, term))).size > 1) return true;
    if (term !== "anchor") dropped.push({ kind: "sameInAll", term });
    return false;
  });
  return { terms: varying, dropped, takesPart };
}

/** Distinct names, in order of their code points. */
export function namesOf(texts: readonly (string | undefined)[]): string[] {
  return [...new Set(texts.filter((text) => text !== undefined))].sort();
}
