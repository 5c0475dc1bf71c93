import { noEquilibriumLine } from "../../words/index.ts";
import { Button } from "../controls/button.tsx";
import { formatQuantity } from "../controls/numbers.ts";
import { useUnits } from "../state/preferences.ts";
import { useBrought } from "./comparison.ts";
import { LETTER, type MatchState, type Side } from "./state.ts";
import { matchStore } from "./store.ts";

/** Lengths nearer than this are the same on any deck, m. */
const SAME_LENGTH = 0.005;

/** One setup brought to the angle of the other by its length; the button says what it does, or why nothing would do. */
export function Bring({ side, state }: { readonly side: Side; readonly state: MatchState }) {
  const { system, unitOf } = useUnits();
  const found = useBrought(state, side);
  const [mine, theirs] = side === "one" ? (["A", "B"] as const) : (["B", "A"] as const);
  if (found.kind === "noEquilibrium")
    return (
      <p>
        No length of {mine} pulls like {theirs}: {noEquilibriumLine(found, system)}.
      </p>
    );
  const { more, rig } = found;
  if (Math.abs(more) < SAME_LENGTH) return null;
  const length = formatQuantity(Math.abs(more), "length", { system, unit: unitOf("length", "length"), digits: 3 });
  return (
    <Button
      onClick={() =>
        matchStore.set((before) => ({ ...before, [side]: rig }), { label: `${LETTER[side]} brought to ${theirs}` })
      }
    >
      {more > 0 ? "Pay out" : "Haul in"} {length} of {mine}: it then pulls like {theirs}
    </Button>
  );
}
