import { useEffect, useMemo, useState } from "react";
import { type Deployment, type HoldRule, type HoldSoFar, holdSoFar } from "../../study/index.ts";
import { durationText, holdLine } from "../../words/index.ts";
import { useUnits } from "../state/preferences.ts";
import { holdEvents, ruleOf } from "./hold-events.ts";
import type { LiveReading } from "./live/reading.ts";
import { giveNear } from "./loads.ts";
import styles from "./place.module.css";
import type { DeckPull } from "./pull.ts";

/** The hold of the step under way by the rule of its pull. */
export interface HoldHere {
  readonly rule: HoldRule;
  readonly hold: HoldSoFar;
  /** Why the anchor's way is not told, where it is not. */
  readonly untold: Parameters<typeof holdLine>[3];
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
    const events = holdEvents(all, rows);
    const placed = events.some(({ kind }) => kind === "place");
    const untold = !placed ? "positions" : direction === null ? "direction" : "time";
    return { rule, hold: holdSoFar(events, { asked, rule, direction, give }), untold };
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
export function HoldTold({ here }: { readonly here: HoldHere }) {
  const { system } = useUnits();
  const held = useHeld(here);
  return (
    <p className={styles.quiet} data-hold>
      {holdLine(here.hold, held, here.rule, here.untold, system)}
    </p>
  );
}
