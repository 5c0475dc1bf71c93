import { besideWords, type Stated } from "../../../words/index.ts";
import { formatQuantity } from "../../controls/numbers.ts";
import { useUnits } from "../../state/preferences.ts";
import placeStyles from "../place.module.css";
import type { GaleAnswer } from "./gale-record.ts";

const meanOf = ({ bow }: GaleAnswer): Stated => ({ value: bow.mean, u: bow.u });
const stormOf = ({ bowExtremes }: GaleAnswer): Stated | null => bowExtremes?.mostProbable ?? null;

/** How the loads of the second ride lie to those of the first: two numbers that look alike are told to be so. */
export function GaleBeside({
  first,
  second,
  name,
}: {
  readonly first: GaleAnswer;
  readonly second: GaleAnswer;
  readonly name: string;
}) {
  const { system, unitOf } = useUnits();
  const shown = { system, unit: unitOf("load", "force") };
  const words = (of: (answer: GaleAnswer) => Stated | null): string | null => {
    const [a, b] = [of(first), of(second)];
    return a === null || b === null ? null : besideWords(a, b, "force", shown);
  };
  const largest = [first, second].map(({ bow }) => formatQuantity(bow.largest, "force", { ...shown, digits: 2 }));
  const lines = [
    ["mean load at the bow", words(meanOf)],
    ["largest load at the bow", largest[0] === largest[1] ? "the same to the digits shown" : null],
    ["largest of three hours", words(stormOf)],
  ] as const;
  return (
    <ul className={placeStyles.quiet} aria-label="Beside the first">
      {lines.map(([what, said]) => said !== null && <li key={what}>{`${name}, ${what}: ${said}.`}</li>)}
    </ul>
  );
}
