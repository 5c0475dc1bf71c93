import { Button } from "../controls/button.tsx";
import { atHand, useUndoLabels } from "../state/undoable.ts";

/** Takes back and does again what was changed in the place that is shown. */
export function UndoButtons() {
  const { undo, redo } = useUndoLabels();
  return (
    <>
      <Button
        look="bare"
        disabled={undo === null}
        title={undo === null ? "Nothing to take back" : `Take back: ${undo} (ctrl-z)`}
        aria-label="Undo"
        onClick={() => atHand.get()?.undo()}
      >
        <Turn />
      </Button>
      <Button
        look="bare"
        disabled={redo === null}
        title={redo === null ? "Nothing to do again" : `Do again: ${redo} (ctrl-shift-z)`}
        aria-label="Redo"
        onClick={() => atHand.get()?.redo()}
      >
        <Turn mirrored />
      </Button>
    </>
  );
}

function Turn({ mirrored = false }: { readonly mirrored?: boolean }) {
  return (
    <svg width="22" height="22" viewBox="0 0 24 24" aria-hidden="true">
      <path
        d="M9 5L4 10l5 5M4 10h9a6 6 0 0 1 0 12h-3"
        transform={mirrored ? "matrix(-1 0 0 1 24 -2)" : "translate(0 -2)"}
        fill="none"
        stroke="currentColor"
        strokeWidth="2"
        strokeLinecap="round"
        strokeLinejoin="round"
      />
    </svg>
  );
}
