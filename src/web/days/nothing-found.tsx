import { Button } from "../controls/button.tsx";
import { useStore } from "../state/use-store.ts";
import styles from "./place.module.css";
import { daysStore, narrowed } from "./state.ts";

/** Says that a search found nothing, and offers to show all. */
export function NothingFound() {
  const { narrow } = useStore(daysStore);
  const open = narrow.find === "" && narrow.site === null && narrow.anchor === null && narrow.series === null;
  if (open) return null;
  return (
    <p className={styles.quiet}>
      Nothing here answers to that.{" "}
      <Button onClick={() => narrowed({ find: "", site: null, anchor: null, series: null })}>Show all</Button>
    </p>
  );
}
