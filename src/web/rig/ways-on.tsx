import { useEffect } from "react";
import { PlaceLink } from "../controls/place-link.tsx";
import { Ways } from "../controls/ways.tsx";
import { recordSearch } from "../days/address.ts";
import { bookCopy, look } from "../days/book-copy.ts";
import { useStore } from "../state/use-store.ts";

/** Where the rig on the bench goes on to: the deck, which takes it from here, and the pulls on a rig of its name in the book. */
export function WaysOn({ name }: { readonly name: string }) {
  const { records } = useStore(bookCopy);
  useEffect(() => void look().catch(() => undefined), []);
  const known = records.rig.find((rig) => rig.name === name && !rig.hidden);
  return (
    <Ways label="On with this rig">
      <PlaceLink to="/deck">Pull on it in Deck</PlaceLink>
      {known !== undefined && (
        <PlaceLink to="/days" search={recordSearch("rig", known.id)}>
          Its pulls in Days
        </PlaceLink>
      )}
    </Ways>
  );
}
