import { useId, useState } from "react";
import { Button } from "../../controls/button.tsx";
import { Panel } from "../../controls/panel.tsx";
import { Heading } from "../heading.tsx";
import place from "../place.module.css";
import styles from "./books.module.css";
import { type BookTold, useBooks } from "./use-books.ts";

/** The books of this computer: one of one's own made, another one opened. At the computer only. */
export function Books() {
  const { told, wrong, busy, open, make } = useBooks();
  return (
    <>
      <Heading
        back={{ at: { page: "book" }, label: "Book" }}
        title="Books"
        line="One is open at a time: Days, Deck, Holding and Publish read and write that one"
      />
      {wrong !== null && (
        <p className={place.wrong} role="alert">
          {wrong}
        </p>
      )}
      {told !== null && (
        <div className={place.columns}>
          <Panel title="Books on this computer">
            <ul className={styles.books}>
              {told.books.map((book) => (
                <OneBook key={book.id} book={book} busy={busy} onOpen={() => void open(book.id)} />
              ))}
            </ul>
            <p className={place.quiet}>Files in {told.folder}</p>
          </Panel>
          <NewBook busy={busy} onMake={(title) => void make(title)} />
        </div>
      )}
    </>
  );
}

function OneBook({
  book,
  busy,
  onOpen,
}: {
  readonly book: BookTold;
  readonly busy: boolean;
  readonly onOpen: () => void;
}) {
  const name = book.title === "" ? (book.file ?? "") : book.title;
  return (
    <li aria-current={book.open || undefined}>
      <div className={styles.book}>
        <span className={styles.title}>{name}</span>
        {book.demo && <span className={styles.invented}>Demonstration: all in it is invented</span>}
        {!book.demo && book.simulated && <span className={styles.invented}>Says of itself that it is invented</span>}
        <span className={place.quiet}>{book.trouble ?? aboutOf(book)}</span>
      </div>
      {book.open ? (
        <strong>open now</strong>
      ) : (
        book.trouble === null && (
          <Button aria-label={`Open ${name}`} disabled={busy} onClick={onOpen}>
            Open
          </Button>
        )
      )}
    </li>
  );
}

function aboutOf({ file, pulls }: BookTold): string {
  if (file === null) return "made when it is opened";
  return `${pulls === 0 ? "no pulls yet" : pulls === 1 ? "1 pull" : `${pulls} pulls`} · ${file}`;
}

function NewBook({ busy, onMake }: { readonly busy: boolean; readonly onMake: (title: string) => void }) {
  const id = useId();
  const [title, setTitle] = useState("");
  return (
    <Panel title="A book of your own">
      <form
        className={styles.make}
        onSubmit={(event) => {
          event.preventDefault();
          onMake(title);
        }}
      >
        <div className={place.field}>
          <label htmlFor={id}>What it is called</label>
          <input
            id={id}
            className={place.input}
            value={title}
            maxLength={120}
            required
            autoComplete="off"
            onChange={(event) => setTitle(event.target.value)}
          />
        </div>
        <Button type="submit" look="strong" disabled={busy}>
          Make it and open it
        </Button>
      </form>
      <p className={place.quiet}>
        It is empty at first, and one file. The book that is open now stays as it is; come back to it here.
      </p>
    </Panel>
  );
}
