import type { Boat } from "../../../sea/index.ts";
import { Button } from "../../controls/button.tsx";
import { unfold } from "../../state/preferences.ts";
import styles from "../place.module.css";
import { stillInvented } from "./boat.ts";

/** Says how much of the boat on the bench is still the invented example; nothing once she is the user's own. */
export function InventedNote({ boat }: { readonly boat: Boat }) {
  const invented = stillInvented(boat);
  if (invented.length === 0) return null;
  return (
    <p className={styles.quiet}>
      <strong>An invented boat as an example</strong>: her {listed(invented)} are nobody's.{" "}
      <Button
        onClick={() => {
          unfold("boat");
          document.querySelector("#boat")?.scrollIntoView();
        }}
      >
        Put in your own
      </Button>
    </p>
  );
}

const listed = (parts: readonly string[]): string =>
  parts.length < 2 ? parts.join("") : `${parts.slice(0, -1).join(", ")} and ${parts.at(-1)}`;
