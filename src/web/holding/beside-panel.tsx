import { useRef, useState } from "react";
import { InputError } from "../../quantity/index.ts";
import { Button } from "../controls/button.tsx";
import { FilePick } from "../controls/file-pick.tsx";
import { useStore } from "../state/use-store.ts";
import { besideStore, readBeside } from "./beside.ts";
import styles from "./place.module.css";

/** Larger than the pulls of anybody's life. */
const MOST_BYTES = 100e6;

/** Packages of other testers, put beside the book's pulls. */
export function BesidePanel() {
  const beside = useStore(besideStore);
  const pick = useRef<HTMLInputElement>(null);
  const [wrong, setWrong] = useState<string | null>(null);
  const take = async (file: File): Promise<void> => {
    try {
      if (file.size > MOST_BYTES) throw new InputError(file.name, "larger than 100 MB", "a table of pulls is expected");
      const read = readBeside(file.name, await file.text());
      besideStore.set((before) => [...before, read], { label: "pulls beside" });
      setWrong(null);
    } catch (error) {
      setWrong(error instanceof InputError ? error.message : `${file.name}: cannot be read`);
    }
  };
  return (
    <details>
      <summary>Pulls of another tester beside them{beside.length === 0 ? "" : ` (${beside.length})`}</summary>
      <p className={styles.quiet}>
        The pulls.csv of a data package. Each source is then a tester with an effect of its own. They are looked at
        here, and are not taken into the book.
      </p>
      <Button onClick={() => pick.current?.click()}>Choose pulls.csv…</Button>
      <FilePick
        pick={pick}
        label="Pulls.csv of another tester"
        accept=".csv,text/csv"
        onPick={(file) => void take(file)}
      />
      {wrong !== null && (
        <p className={styles.wrong} role="alert">
          {wrong}
        </p>
      )}
      <ul className={styles.pulls}>
        {beside.map((one) => (
          <li key={`${one.name} ${one.pulls.length}`}>
            <span>
              {one.name}: {one.pulls.length} pulls
            </span>
            <Button
              aria-label={`Take away the pulls of ${one.name}`}
              onClick={() =>
                besideStore.set((before) => before.filter((other) => other !== one), { label: "pulls beside" })
              }
            >
              Take away
            </Button>
          </li>
        ))}
      </ul>
    </details>
  );
}
