import { useEffect, useRef } from "react";
import { NEAR, type Weakest } from "./loads.ts";
import styles from "./place.module.css";
import { warnBySound } from "./sound.ts";

/** The load against the working load limit of the part that is nearest to it: a bar, and near it sign, word and sound. */
export function Limit({ weakest }: { readonly weakest: Weakest | null }) {
  const state = weakest === null ? "unknown" : weakest.share >= 1 ? "past" : weakest.share >= NEAR ? "near" : "below";
  const before = useRef(state);
  useEffect(() => {
    if (state !== before.current && (state === "near" || state === "past")) warnBySound(state === "past");
    before.current = state;
  }, [state]);
  if (weakest === null) return <p className={styles.quiet}>Working load limit: none known for this rode.</p>;
  const percent = Math.round(100 * weakest.share);
  return (
    <div className={styles.limit} data-state={state}>
      <meter
        min={0}
        max={1}
        high={NEAR}
        value={Math.min(1, weakest.share)}
        aria-label="Share of the working load limit"
      />
      {state === "below" ? (
        <p>
          {percent} % of the working load limit, {weakest.part}
        </p>
      ) : (
        <p role="alert">
          <span aria-hidden="true">⚠</span>{" "}
          <strong>{state === "past" ? "PAST THE WORKING LOAD LIMIT: ease off" : "NEAR THE WORKING LOAD LIMIT"}</strong>:{" "}
          {percent} %, {weakest.part}
        </p>
      )}
    </div>
  );
}
