import { useEffect, useMemo, useState } from "react";
import { type Deployment, type HoldRule, type HoldSoFar, holdSoFar } from "../../study/index.ts";
import { durationText, holdLine } from "../../words/index.ts";
import { useUnits } from "../state/preferences.ts";
import { holdEvents, ruleOf } from "./hold-events.ts";
import { fixesOf, type LiveReading } from "./live/reading.ts";
import { giveNear } from "./loads.ts";
import styles from "./place.module.css";
import type { DeckPull } from "./pull.ts";

/** The hold of the step under way by the rule of its pull. */
export interface HoldHere {
  readonly rule: HoldRule;
  readonly hold: HoldSoFar;
}

/** null where the step asks for no load. @param all touches and loads, those of instruments among them */
export function useHold(
  pull: DeckPull,
  all: Pick<DeckPull, "events">,
  rows: readonly LiveReading[],
  deployment: Deployment,
  asked: number | null,
): HoldHere | null {
  const { direction = null } = pull;
  const { heldFor, heldWithin } = ruleOf(pull);
  const give = useMemo(
    () => (asked === null || direction === null ? null : giveNear(deployment, asked)),
    [deployment, asked, direction],
  );
  return useMemo(() => {
    if (asked === null) return null;
    const rule = { heldFor, heldWithin };
    return { rule, hold: holdSoFar(holdEvents(all, rows), { asked, rule, direction, give }) };
  }, [all, rows, asked, heldFor, heldWithin, direction, give]);
}

/** How long a hold lasts by now, s; null while there is none. */
function useHeld(here: HoldHere | null): number | null {
  const [now, setNow] = useState(() => Date.now());
  useEffect(() => {
    const timer = setInterval(() => setNow(Date.now()), 500);
    return () => clearInterval(timer);
  }, []);
  const since = here?.hold.since ?? null;
  return since === null ? null : Math.max(0, now / 1000 - since);
}

/** How long the load of the step is held. @param hold s it is to be */
export function Held({ here, hold }: { readonly here: HoldHere | null; readonly hold: number }) {
  const held = useHeld(here);
  return (
    <div>
      <dt>Held</dt>
      <dd data-done={held !== null && held >= hold ? "" : undefined}>
        {held === null ? "–" : `${durationText(Math.floor(held))}${held >= hold ? " ✓" : ` of ${durationText(hold)}`}`}
      </dd>
    </div>
  );
}

/** The hold against the hold rule, in words. */
export function HoldTold({
  here,
  rows,
  direction,
}: {
  readonly here: HoldHere;
  readonly rows: readonly LiveReading[];
  readonly direction: number | null;
}) {
  const { system } = useUnits();
  const held = useHeld(here);
  const untold = !rows.some((row) => fixesOf([row]).length > 0)
    ? "positions"
    : direction === null
      ? "direction"
      : "time";
  return (
    <p className={styles.quiet} data-hold>
      {holdLine(here.hold, held, here.rule, untold, system)}
    </p>
  );
}
