import { useEffect, useRef, useState } from "react";
import type { LogHere } from "./book-copy.ts";
import { usualChannels } from "./log/channels.ts";
import { fetchStretch } from "./log/stretches.ts";
import { type Bands, condensed } from "./log/view-bytes.ts";
import { HEIGHT, outlineOf, WIDTH } from "./small-outline.ts";
import styles from "./small-trace.module.css";

/** A log of so few readings is fetched reading by reading: some 100 kB at most. */
const FEW = 8_000;

/** What was fetched, by log and its number of readings: a list that is come back to asks for nothing again. */
const fetched = new Map<string, Bands>();

/** The load of a log over its time, small, in a line of a list: fetched once it is in view, nothing while it is not to be had. */
export function SmallTrace({ log }: { readonly log: LogHere }) {
  const { rows, from_s, to_s, channels } = log.content;
  const key = `${log.id} ${rows}`;
  const channel = usualChannels(channels)[0];
  const [bands, setBands] = useState<Bands | null>(() => fetched.get(key) ?? null);
  const room = useRef<HTMLSpanElement>(null);
  useEffect(() => {
    const known = fetched.get(key) ?? null;
    setBands(known);
    if (known !== null || channel === undefined || rows === 0 || from_s === null || to_s === null) return;
    const stop = new AbortController();
    const look = async (): Promise<void> => {
      try {
        // The server's bands hold 64 readings: of few readings they would be so wide that a step is drawn as a fat slope.
        const asked = Math.max(2 * WIDTH, rows <= FEW ? rows : 0);
        const got = condensed(
          await fetchStretch(log.id, { from: from_s, to: to_s }, asked, [channel], stop.signal),
          2 * WIDTH,
        );
        fetched.set(key, got);
        if (!stop.signal.aborted) setBands(got);
      } catch {
        // Out of reach: the line tells that there is a log.
      }
    };
    const seen = new IntersectionObserver((entries) => {
      if (!entries.some(({ isIntersecting }) => isIntersecting)) return;
      seen.disconnect();
      void look();
    });
    seen.observe(room.current!);
    return () => {
      seen.disconnect();
      stop.abort();
    };
  }, [key, log.id, channel, rows, from_s, to_s]);
  const path = bands === null || channel === undefined ? "" : outlineOf(bands, channel);
  return (
    <span ref={room} className={styles.room}>
      {path !== "" && (
        <svg className={styles.trace} viewBox={`0 0 ${WIDTH} ${HEIGHT}`} preserveAspectRatio="none" aria-hidden="true">
          <path className={styles.base} d={`M0 ${HEIGHT - 0.5}H${WIDTH}`} />
          <path className={styles.line} d={path} />
        </svg>
      )}
    </span>
  );
}
