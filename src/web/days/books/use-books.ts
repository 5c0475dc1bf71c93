import type { InferResponseType } from "hono/client";
import { useCallback, useEffect, useState } from "react";
import { ApiTrouble, books, OutOfReach } from "../../api/client.ts";
import { waitingHere } from "../../api/outbox.ts";
import { deckStore, openDeck } from "../../deck/keep.ts";
import { stringifySearch } from "../../state/address.ts";
import { daysCodec } from "../address.ts";
import { forgetCopy } from "../book-copy.ts";
import { forgetDrafts } from "../drafts.ts";
import { usualDays } from "../state.ts";

/** The books of the computer, as they are told there. */
export type BooksTold = InferResponseType<typeof books.$get, 200>;
export type BookTold = BooksTold["books"][number];

/** What this device still has for the book that is open, in one line; null when nothing: it would go into another one. */
async function stillHere(): Promise<string | null> {
  await openDeck();
  const deck = deckStore.get();
  if (deck !== null && deck.pull !== null) return "a pull is under way in Deck: end it first";
  if ((deck?.waiting.length ?? 0) > 0) return "a pull on this device is not yet in the book: let it get there first";
  return (await waitingHere()).length > 0 ? "what you wrote is not yet in the book: let it get there first" : null;
}

/** Asks which books there are; makes one, and opens another in place of the one that is open. */
export function useBooks() {
  const [told, setTold] = useState<BooksTold | null>(null);
  const [wrong, setWrong] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);

  /** Does something at the computer; what the work answers, or what went wrong, is told in one line. */
  const tried = useCallback(async (work: () => Promise<string | null>): Promise<void> => {
    setBusy(true);
    try {
      setWrong(await work());
    } catch (error) {
      if (error instanceof OutOfReach)
        setWrong("this asks the computer that holds the book, which is out of reach now");
      else if (error instanceof ApiTrouble) setWrong(error.message);
      else throw error;
    } finally {
      setBusy(false);
    }
  }, []);
  useEffect(() => {
    void tried(async () => {
      setTold(await (await books.$get()).json());
      return null;
    });
  }, [tried]);

  const opened = async (id: string): Promise<string | null> => {
    const here = await stillHere();
    if (here !== null) return here;
    await books.open.$post({ json: { id } });
    // Whatever this device shows or keeps of the book before belongs to that one. The address says which page is opened: a bare
    // one would bring back the page that was kept.
    await Promise.all([forgetCopy(), forgetDrafts()]);
    window.location.assign(`/days${stringifySearch(daysCodec.write(usualDays))}`);
    return null;
  };
  return {
    told,
    wrong,
    busy,
    open: (id: string) => tried(() => opened(id)),
    make: (title: string) =>
      tried(async () => {
        const here = await stillHere();
        if (here !== null) return here;
        const { book } = await (await books.$post({ json: { title } })).json();
        return opened(book.id);
      }),
  };
}
