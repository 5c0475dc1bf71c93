import { Button } from "../controls/button.tsx";
import { Panel } from "../controls/panel.tsx";
import { useStore } from "../state/use-store.ts";
import { bookCopy } from "./book-copy.ts";
import styles from "./place.module.css";
import { go } from "./state.ts";

/** Notes about a record. */
export function Notes({ about }: { readonly about: string }) {
  const { records, readOnly } = useStore(bookCopy);
  const notes = records.note.filter((note) => note.about === about && !note.hidden);
  if (notes.length === 0) return null;
  return (
    <Panel
      title="Notes"
      beside={
        !readOnly && (
          <Button onClick={() => go({ page: "form", kind: "note", id: null, about: `about:${about}` })}>
            Add a note
          </Button>
        )
      }
    >
      {
        <ul className={styles.entries}>
          {notes.map((note) => (
            <li key={note.id}>
              <p>{String(note.text)}</p>
              {!readOnly && (
                <Button
                  look="bare"
                  onClick={() => go({ page: "form", kind: "note", id: note.id, about: `about:${about}` })}
                >
                  Change
                </Button>
              )}
            </li>
          ))}
        </ul>
      }
    </Panel>
  );
}
