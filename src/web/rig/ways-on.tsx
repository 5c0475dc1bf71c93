import { useEffect } from "react";
import { settle } from "../../rode/index.ts";
import { PlaceLink } from "../controls/place-link.tsx";
import { Ways } from "../controls/ways.tsx";
import { recordSearch } from "../days/address.ts";
import { bookCopy, look } from "../days/book-copy.ts";
import { withRig } from "../match/state.ts";
import { matchStore } from "../match/store.ts";
import { useStore } from "../state/use-store.ts";
import { takeRig } from "../weather/store.ts";
import { pullOf } from "./state.ts";
import { rigStore } from "./store.ts";

/**
 * Where the rig on the bench goes on to: beside another in Match, into the wind in Weather, to the deck, which takes it from
 * here, and to the pulls on a rig of its name in the book.
 */
export function WaysOn({ name }: { readonly name: string }) {
  const { records } = useStore(bookCopy);
  useEffect(() => void look().catch(() => undefined), []);
  const known = records.rig.find((rig) => rig.name === name && !rig.hidden);
  return (
    <Ways label="On with this rig">
      <PlaceLink to="/match" onClick={intoMatch}>
        Match another with it
      </PlaceLink>
      <PlaceLink to="/weather" onClick={() => takeRig(rigStore.get().rig)}>
        Its loads in Weather
      </PlaceLink>
      <PlaceLink to="/deck">Pull on it in Deck</PlaceLink>
      {known !== undefined && (
        <PlaceLink to="/days" search={recordSearch("rig", known.id)}>
          Its pulls in Days
        </PlaceLink>
      )}
    </Ways>
  );
}

/** The rig as A, under the load it has at its bow. */
function intoMatch(): void {
  const state = rigStore.get();
  const settled = settle(state.rig, pullOf(state));
  matchStore.set(
    (before) => ({
      ...withRig(before, "one", state.rig),
      load: settled.kind === "noEquilibrium" ? before.load : settled.bow.tension,
    }),
    { label: `rig ${state.rig.name}` },
  );
}
