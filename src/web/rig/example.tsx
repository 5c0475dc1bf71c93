import { Button } from "../controls/button.tsx";
import { exampleState, type RigState, usualState } from "./state.ts";
import { rigStore } from "./store.ts";

/** What stood here before the example; null where it was there when the bench was opened. */
let before: RigState | null = null;

/** An example by one touch, whatever is made of it; and by another touch what stood here before. */
export function Example({ state }: { readonly state: RigState }) {
  const shown = state.rig.name === exampleState.rig.name;
  return (
    <Button
      onClick={() => {
        if (shown) rigStore.set(before ?? usualState, { label: "leave the example" });
        else {
          before = state;
          rigStore.set(exampleState, { label: "example" });
        }
      }}
    >
      {shown ? "Leave the example" : "Example"}
    </Button>
  );
}
