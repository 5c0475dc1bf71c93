import { Button } from "../../controls/button.tsx";
import { useStore } from "../../state/use-store.ts";
import { bookCopy } from "../book-copy.ts";
import { go } from "../state.ts";
import styles from "./books.module.css";

/** Says that the open book is one of invented data; with `way`, at the computer, how to come to a book of one's own. */
export function DemoNote({ way = false }: { readonly way?: boolean }) {
  const { simulated, via } = useStore(bookCopy);
  if (!simulated) return null;
  return (
    <div className={styles.demo} role="note">
      <p>
        <strong>Demonstration.</strong> All in the open book is invented.
      </p>
      {way && via === "computer" && <Button onClick={() => go({ page: "books" })}>Make a book of your own</Button>}
    </div>
  );
}
