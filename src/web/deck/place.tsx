import { lazy, Suspense, useEffect } from "react";
import { PlaceLink } from "../controls/place-link.tsx";
import { Ways } from "../controls/ways.tsx";
import { recordSearch } from "../days/address.ts";
import { look } from "../days/book-copy.ts";
import { DemoNote } from "../days/books/demo-note.tsx";
import { useAddress } from "../state/address.ts";
import { useStore } from "../state/use-store.ts";
import { setupCodec } from "./address.ts";
import { deckStore, deckTrouble, lastEnded, openDeck } from "./keep.ts";
import styles from "./place.module.css";
import { Setup } from "./setup.tsx";
import { setupStore } from "./setup-state.ts";
import { bring } from "./to-book.ts";
import { UnderWay } from "./under-way.tsx";

/** Comes when a pull has ended: a pull under way needs the device for itself. */
const EndedFigure = lazy(() => import("./ended-figure.tsx"));

/** Between two tries to bring to the book what waits here, ms. */
const AGAIN = 15_000;

/** A pull on deck: one hand, wet, in sun, without network. */
export function Place() {
  useAddress(setupStore, setupCodec);
  const state = useStore(deckStore);
  const trouble = useStore(deckTrouble);
  const ended = useStore(lastEnded);
  useBringing();
  return (
    <div className={styles.place}>
      <h1 className="unseen">Deck</h1>
      {trouble !== null && (
        <p className={styles.trouble} role="alert">
          {trouble}
        </p>
      )}
      {state === null ? (
        <p>Looking what this device keeps…</p>
      ) : state.pull === null ? (
        <>
          <DemoNote />
          {ended !== null && (
            <>
              <Suspense>
                <EndedFigure pull={ended} />
              </Suspense>
              {state.waiting.every(({ ids }) => ids.pull !== ended.id) && (
                <Ways label="On with the pull that ended">
                  <PlaceLink to="/days" search={recordSearch("pull", ended.id)}>
                    The pull that ended, in Days
                  </PlaceLink>
                </Ways>
              )}
            </>
          )}
          <Setup state={state} />
        </>
      ) : (
        <UnderWay pull={state.pull} />
      )}
      {state !== null && state.waiting.length > 0 && (
        <p className={styles.quiet} role="status">
          {state.waiting.length === 1 ? "1 pull waits" : `${state.waiting.length} pulls wait`} on this device for the
          book.
        </p>
      )}
    </div>
  );
}

/** Brings what is not in the book: after each change, when the network is back, and now and then. */
function useBringing(): void {
  useEffect(() => {
    const go = () => void bring().catch(() => undefined);
    void openDeck().then(go);
    void look().catch(() => undefined);
    const leave = deckStore.subscribe(go);
    const timer = setInterval(go, AGAIN);
    window.addEventListener("online", go);
    document.addEventListener("visibilitychange", go);
    return () => {
      leave();
      clearInterval(timer);
      window.removeEventListener("online", go);
      document.removeEventListener("visibilitychange", go);
    };
  }, []);
}
