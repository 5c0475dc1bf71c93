import { useState } from "react";
import { Button } from "../controls/button.tsx";
import { Choice } from "../controls/choice.tsx";
import { formatQuantity } from "../controls/numbers.ts";
import { useUnits } from "../state/preferences.ts";
import { keep, lastEnded } from "./keep.ts";
import styles from "./place.module.css";
import { type DeckEnd, type DeckPull, endOf } from "./pull.ts";

const kinds = [
  { value: "gaveWay", label: "gave way" },
  { value: "heldTo", label: "held" },
  { value: "neverSet", label: "never set" },
  { value: "none", label: "no result" },
] as const;

const about = ({ anchor, loadU }: DeckPull) => ({ anchor, loadU });

/** How it ended, as what was touched suggests; then it goes into the book. */
export function Ending({
  pull,
  onBack,
}: {
  readonly pull: Pick<DeckPull, "events" | "steps" | "helps">;
  readonly onBack: () => void;
}) {
  const suggested = endOf(pull, Date.now());
  const [kind, setKind] = useState<DeckEnd["kind"]>(suggested.kind);
  const { system, unitOf } = useUnits();
  const load =
    suggested.load === null
      ? null
      : formatQuantity(suggested.load, "force", { system, unit: unitOf("deck load", "force"), digits: 3 });
  const out =
    suggested.paidOut === undefined ? null : formatQuantity(suggested.paidOut, "length", { system, digits: 3 });
  const end = () =>
    keep((before) => {
      if (before.pull === null) return before;
      const { load, steps, paidOut } = suggested;
      const ended: DeckEnd = {
        kind,
        ...(kind === "none" ? { load: null } : { load, ...(paidOut === undefined ? {} : { paidOut }) }),
        at: Date.now(),
        steps: steps ?? [],
      };
      const { events } = pull;
      lastEnded.put({ id: before.pull.ids.pull, events, steps: before.pull.steps, ...about(before.pull), ended });
      return { ...before, pull: null, waiting: [...before.waiting, { ...before.pull, ended }] };
    });
  if (pull.helps)
    return (
      <section className={styles.ending} aria-label="End of helping">
        <p>The pull goes on at the device that runs it; what this one read and marked is in it.</p>
        <Button look="strong" className={styles.wide} onClick={() => void end()}>
          Stop helping
        </Button>
        <Button className={styles.wide} onClick={onBack}>
          Go on helping
        </Button>
      </section>
    );
  return (
    <section className={styles.ending} aria-label="End of the pull">
      <Choice
        label="The anchor"
        value={kind}
        options={kinds.filter(({ value }) => load !== null || value === "none" || value === "neverSet")}
        onChange={setKind}
      />
      <p>
        {load === null
          ? "No load was read."
          : `Highest load read at the bow${out === null ? "" : `, with ${out} out`}: ${load}.`}
      </p>
      <Button look="strong" className={styles.wide} onClick={() => void end()}>
        Write it into the book
      </Button>
      <Button className={styles.wide} onClick={onBack}>
        Go on pulling
      </Button>
    </section>
  );
}
