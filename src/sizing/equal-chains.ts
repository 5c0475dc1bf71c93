/** Chains of several grades, each the lightest that is at least as strong: what "equal strength" can be bought as. */
import { type Catalogue, type ChainRow, findChain } from "../gear/index.ts";
import { InputError, nth, parseQuantity, quoted } from "../quantity/index.ts";
import type { PlanFields } from "./plan-shape.ts";

export function equalChains(
  given: NonNullable<PlanFields["chains"]>,
  catalogue: Catalogue,
  place: string,
): readonly ChainRow[] {
  const { workingLoad, asStrongAs, grades } = given;
  if ((workingLoad === undefined) === (asStrongAs === undefined)) {
    const what = workingLoad === undefined ? "neither workingLoad nor asStrongAs" : "both workingLoad and asStrongAs";
    throw new InputError(place, what, "one of the two is expected");
  }
  const wanted =
    asStrongAs === undefined ? loadOf(workingLoad!, `${place}.workingLoad`) : strengthOf(asStrongAs, catalogue, place);
  return grades.map((grade, i) => {
    const name = String(grade).replace(/^(grade|g)\s*/i, "");
    const rows = catalogue.rows.filter((row): row is ChainRow => row.kind === "chain" && row.grade === name);
    if (rows.length === 0) {
      const known = [...new Set(catalogue.rows.flatMap((row) => (row.kind === "chain" ? [row.grade] : [])))].sort();
      throw new InputError(`${place}.grades${nth(i)}`, quoted(grade), `one of ${known.join(", ")} is expected`);
    }
    // Strengths are printed rounded: a thousandth short is as strong.
    const strong = rows.filter((row) => (row.workingLoad ?? 0) >= wanted * (1 - 1e-3));
    if (strong.length === 0)
      throw new InputError(
        `${place}.grades${nth(i)}`,
        quoted(grade),
        "a grade with a chain as strong as that in the catalogue is expected",
      );
    return strong.reduce((best, row) => (row.massPerLength < best.massPerLength ? row : best));
  });
}

function loadOf(given: string | number, place: string): number {
  const value = parseQuantity(given, "force", place);
  if (!(value > 0)) throw new InputError(place, quoted(given), "a load above zero is expected");
  return value;
}

function strengthOf(
  chain: { grade: string | number; size: string | number },
  catalogue: Catalogue,
  place: string,
): number {
  const row = findChain(chain, catalogue, `${place}.asStrongAs`);
  if (row.workingLoad === undefined)
    throw new InputError(`${place}.asStrongAs`, row.name, "a chain whose working load limit is known is expected");
  return row.workingLoad;
}
