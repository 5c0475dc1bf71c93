import { formatQuantity } from "../controls/numbers.ts";
import { useUnits } from "../state/preferences.ts";
import styles from "./overloaded.module.css";
import type { Drawn } from "./scene.ts";

/** Parts that carry more than they may, each in one line; nothing where all carry what they can. */
export function Overloaded({ drawn, when }: { readonly drawn: Drawn | null; readonly when?: string }) {
  const { system, unitOf } = useUnits();
  if (drawn === null) return null;
  const force = (value: number) => formatQuantity(value, "force", { system, unit: unitOf("load", "force"), digits: 3 });
  const lines = drawn.rig.rode.flatMap((part, i) => {
    const load = drawn.loads[i]!;
    const { workingLoad, breakingLoad, name } = part;
    if (breakingLoad !== undefined && load > breakingLoad)
      return [`${name} carries ${force(load)}, above its breaking load of ${force(breakingLoad)}.`];
    if (workingLoad !== undefined && load > workingLoad)
      return [`${name} carries ${force(load)}, over its working load limit of ${force(workingLoad)}.`];
    return [];
  });
  if (lines.length === 0) return null;
  return (
    <ul className={styles.overloaded}>
      {[...new Set(lines)].map((line) => (
        <li key={line}>{when === undefined ? line : `${when}: ${line}`}</li>
      ))}
    </ul>
  );
}
