import { Button } from "../controls/button.tsx";
import { addWords } from "./kinds.ts";
import styles from "./place.module.css";
import { holds } from "./shelf-kinds.ts";
import { go, type Shelf, shelves } from "./state.ts";

/** What may be added to a shelf. */
export function AddButtons({
  shelf,
  counts,
}: {
  readonly shelf: Shelf;
  readonly counts: Readonly<Record<Shelf, number>>;
}) {
  // Shelves without anything have no button of their own: what would fill them is added from the days.
  const missing = shelf === "days" ? shelves.filter((one) => counts[one] === 0).flatMap((one) => holds[one].add) : [];
  // A pull is added from the head of the place, always at hand.
  const add = [...new Set([...holds[shelf].add, ...missing])].filter((kind) => kind !== "pull");
  if (add.length === 0) return null;
  return (
    <div className={styles.adds}>
      {add.map((kind) => (
        <Button key={kind} onClick={() => go({ page: "form", kind, id: null, about: null })}>
          {addWords(kind)}
        </Button>
      ))}
    </div>
  );
}
