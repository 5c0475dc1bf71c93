import { durationText } from "../../../words/index.ts";
import type { Store } from "../../state/store.ts";
import { useStore } from "../../state/use-store.ts";
import { clockText, isDated } from "./clock.ts";
import styles from "./log.module.css";
import type { Window } from "./window.ts";

/** Where the window stands, in words. */
export function Where({ view, whole }: { readonly view: Store<Window>; readonly whole: Window }) {
  const { from, to } = useStore(view);
  const step = (to - from) / 100;
  const all = from <= whole.from && to >= whole.to;
  const day = isDated(from)
    ? `${new Date(from * 1000).toISOString().slice(0, 10)}, UTC; `
    : "from the start of the log; ";
  return (
    <p className={styles.quiet}>
      {day}
      {all
        ? `all of it, ${durationText(to - from)}`
        : `${clockText(from, Math.min(1, step))} to ${clockText(to, Math.min(1, step))}, ${durationText(to - from)} of ${durationText(whole.to - whole.from)}`}
    </p>
  );
}
