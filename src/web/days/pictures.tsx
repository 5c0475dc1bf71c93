import { useRef, useState } from "react";
import { ApiTrouble, asBytes, book, OutOfReach } from "../api/client.ts";
import { Button } from "../controls/button.tsx";
import { FilePick } from "../controls/file-pick.tsx";
import { Panel } from "../controls/panel.tsx";
import { useStore } from "../state/use-store.ts";
import { bookCopy, look } from "./book-copy.ts";
import styles from "./place.module.css";

/** Pictures and clips of a record, from the book's own copies. */
export function Pictures({ about, waits }: { readonly about: string; readonly waits: boolean }) {
  const { records, readOnly } = useStore(bookCopy);
  const pick = useRef<HTMLInputElement>(null);
  const [wrong, setWrong] = useState<string | null>(null);
  const [sending, setSending] = useState(false);
  const own = records.picture.filter((picture) => picture.about === about && !picture.hidden);
  const canAdd = !readOnly && !waits;
  if (own.length === 0 && !canAdd) return null;

  const take = async (file: File): Promise<void> => {
    setSending(true);
    setWrong(null);
    try {
      await book.pictures.$post({ query: { about } }, asBytes(file));
      await look();
    } catch (error) {
      if (error instanceof OutOfReach) setWrong("pictures go straight to the book, which is out of reach now");
      else if (error instanceof ApiTrouble) setWrong(error.message);
      else throw error;
    } finally {
      setSending(false);
    }
  };

  const add = canAdd && (
    <Button disabled={sending} onClick={() => pick.current?.click()}>
      {sending ? "Sending…" : "Add a picture"}
    </Button>
  );
  const inner = (
    <>
      <FilePick
        pick={pick}
        label="A picture or clip"
        accept="image/jpeg,image/png,image/gif,image/webp,image/heic,video/mp4,video/webm"
        onPick={(file) => void take(file)}
      />
      {wrong !== null && (
        <p className={styles.fieldWrong} role="alert">
          {wrong}
        </p>
      )}
      {own.length > 0 && (
        <div className={styles.pictures}>
          {own.map((picture) => (
            <figure key={picture.id}>
              {typeof picture.copy === "string" && (
                <Shown
                  sha256={picture.copy}
                  type={String(picture.type ?? "")}
                  caption={String(picture.caption ?? "")}
                />
              )}
              <figcaption>
                {[picture.caption, picture.copy === null ? picture.reference : null]
                  .filter((part) => typeof part === "string")
                  .join(" · ")}
              </figcaption>
            </figure>
          ))}
        </div>
      )}
    </>
  );
  // Without a picture there is only the way to add one.
  if (own.length === 0)
    return (
      <div className={styles.adds}>
        {add}
        {inner}
      </div>
    );
  return (
    <Panel title="Pictures" beside={add}>
      {inner}
    </Panel>
  );
}

function Shown({
  sha256,
  type,
  caption,
}: {
  readonly sha256: string;
  readonly type: string;
  readonly caption: string;
}) {
  const address = `/api/1/files/${sha256}`;
  // What the book does not vouch for as a picture (a drawing in SVG may hold script) is saved, not shown.
  if (type.startsWith("video/"))
    return (
      // biome-ignore lint/a11y/useMediaCaption: a tester's own clip has none
      <video src={address} controls preload="metadata" aria-label={caption} />
    );
  if (type.startsWith("image/") && type !== "image/svg+xml")
    return <img src={address} alt={caption === "" ? "picture without a caption" : caption} loading="lazy" />;
  return (
    <a href={address} download>
      {type === "image/svg+xml" ? "Save the drawing" : "Save this file"}
    </a>
  );
}
