// The rows of a likelihood fit: an intercept (the first anchor in alphabetical order) and columns for each term.

import { choleskyInPlace } from "../numeric/index.ts";
import { DEGREES } from "../quantity/index.ts";
import type { Grouping, Terms } from "./aft.ts";
import type { Pull } from "./pull.ts";
import { namesOf, type RandomTerm, type Term, type TermDropped } from "./terms.ts";

interface Column {
  readonly name: string;
  readonly term?: Term;
  readonly value: (pull: Pull) => number;
}

export interface Design {
  readonly terms: Terms;
  readonly dropped: readonly TermDropped[];
}

/** @param pulls each states what the terms need */
export function designOf(pulls: readonly Pull[], terms: readonly Term[]): Design {
  const columns: Column[] = [{ name: "intercept", value: () => 1 }];
  for (const term of terms) columns.push(...columnsOf(pulls, term));
  const kept: Column[] = [];
  const dropped: TermDropped[] = [];
  for (const column of columns) {
    if (column.term === undefined || independent([...kept, column], pulls)) kept.push(column);
    else dropped.push({ kind: "confounded", term: column.term, name: column.name });
  }
  const rows = new Float64Array(pulls.length * kept.length);
  for (const [i, pull] of pulls.entries()) {
    for (const [c, column] of kept.entries()) rows[i * kept.length + c] = column.value(pull);
  }
  return { terms: { names: kept.map(({ name }) => name), rows }, dropped };
}

function columnsOf(pulls: readonly Pull[], term: Term): Column[] {
  switch (term) {
    case "anchor":
      return namesOf(pulls.map((pull) => pull.anchor))
        .slice(1)
        .map((name) => ({ name: `anchor:${name}`, term, value: (pull) => (pull.anchor === name ? 1 : 0) }));
    case "seabed":
      return namesOf(pulls.map((pull) => pull.seabed))
        .slice(1)
        .map((name) => ({ name: `seabed:${name}`, term, value: (pull) => (pull.seabed === name ? 1 : 0) }));
    case "angle":
      return [{ name: "anchorAngle_deg", term, value: (pull) => pull.anchorAngle! * DEGREES }];
    case "mass":
      return [{ name: "lnMass", term, value: (pull) => Math.log(pull.mass!) }];
  }
}

/** Whether the last column is no combination of those before it: its part square to them is not rounding alone. */
function independent(columns: readonly Column[], pulls: readonly Pull[]): boolean {
  const n = columns.length;
  const middle = columns.map(({ value, name }) =>
    name === "intercept" ? 0 : pulls.reduce((sum, pull) => sum + value(pull), 0) / pulls.length,
  );
  const products = new Float64Array(n * n);
  for (const pull of pulls) {
    for (let a = 0; a < n; a++) {
      const x = columns[a]!.value(pull) - middle[a]!;
      for (let b = 0; b <= a; b++) {
        products[a * n + b] = products[a * n + b]! + x * (columns[b]!.value(pull) - middle[b]!);
      }
    }
  }
  for (let a = 0; a < n; a++) if (!(products[a * n + a]! > 0)) return false;
  return choleskyInPlace(products, n, 1e-10);
}

/** Sites, days or testers as groups; pulls that name none share one group of their own. */
export function groupingOf(
  pulls: readonly Pull[],
  random: RandomTerm,
): Grouping & { readonly names: readonly string[] } {
  const nameOf = (pull: Pull): string => pull[random] ?? "";
  const names = namesOf(pulls.map(nameOf));
  const place = new Map(names.map((name, k) => [name, k]));
  return { groups: names.length, names, of: Int32Array.from(pulls, (pull) => place.get(nameOf(pull))!) };
}
