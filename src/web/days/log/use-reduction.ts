import { useEffect, useMemo, useRef, useState } from "react";
import { ApiTrouble, OutOfReach } from "../../api/client.ts";
import type { Store } from "../../state/store.ts";
import { inWorker } from "../../work/worker.ts";
import type { Rec, Records } from "../book-copy.ts";
import { recordOf } from "../said.ts";
import { MOST_READINGS, readingsOf } from "./readings.ts";
import type { ReducedLog } from "./reduce-log.ts";
import { correctionsOf, type StandingMark } from "./standing-marks.ts";
import type { LogAnswer } from "./use-log.ts";
import type { Window } from "./window.ts";

export interface Reduction {
  readonly reduced: Extract<ReducedLog, { kind: "reduced" }> | null;
  readonly wrong: string | null;
  readonly busy: boolean;
  /** Where the load was read, and whether the pull says so. */
  readonly readAt: "anchor" | "bow";
  readonly readAtKnown: boolean;
  setReadAt(end: "anchor" | "bow"): void;
  /** Reduces what is in view: for logs too long to be reduced whole. Null when there is no need. */
  readonly reduceView: (() => void) | null;
  /** The channel reduced; null when the log has no load. */
  readonly channel: string | null;
  /** The stretch asked of automatic marks: what was reduced. */
  readonly stretch: Window | null;
  readonly hasRig: boolean;
}

/** Logs up to this many readings are reduced as soon as they are opened. */
const AT_ONCE = 120_000;

/** The reduction of a log with its marks as they stand: the readings are fetched once, the answer follows the marks. */
export function useReduction(about: {
  readonly answer: LogAnswer;
  readonly marks: readonly StandingMark[];
  readonly channel: string | null;
  readonly view: Store<Window>;
  readonly whole: Window;
  readonly pull: Rec | undefined;
  readonly records: Records;
}): Reduction {
  const { answer, marks, channel, view, whole, pull, records } = about;
  const { rows } = answer.content;
  const id = answer.log.id;
  const said = pull?.loadAt;
  const [own, setOwn] = useState<"anchor" | "bow">("bow");
  const readAt = said === "anchor" || said === "bow" ? said : own;
  const [stretch, setStretch] = useState<Window | null>(rows <= AT_ONCE ? whole : null);
  const [readings, setReadings] = useState<{ time: Float64Array; load: Float64Array } | null>(null);
  const [reduced, setReduced] = useState<Reduction["reduced"]>(null);
  const [wrong, setWrong] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const asked = useRef(0);

  useEffect(() => {
    if (channel === null || stretch === null) return;
    const stop = new AbortController();
    setBusy(true);
    const expected = (rows * (stretch.to - stretch.from)) / Math.max(1e-9, whole.to - whole.from);
    readingsOf(id, channel, stretch, expected, stop.signal)
      .then((got) => {
        setReadings(got);
        setWrong(null);
      })
      .catch((error: unknown) => {
        if (stop.signal.aborted) return;
        setBusy(false);
        if (error instanceof ApiTrouble || error instanceof OutOfReach) setWrong(error.message);
        else throw error;
      });
    return () => stop.abort();
  }, [id, channel, stretch, rows, whole]);

  const rigFile = useMemo(() => {
    const version = recordOf(records, "rigVersion", pull?.rigVersion);
    return typeof version?.file === "string" ? version.file : null;
  }, [records, pull]);
  const steps = useMemo(
    () =>
      ((pull?.steps ?? []) as { load_N: number; duration_s?: number }[])
        .filter((step) => step.load_N > 0)
        .map((step) => ({ load: step.load_N, hold: step.duration_s ?? 0 })),
    [pull],
  );

  useEffect(() => {
    if (readings === null) return;
    const mine = ++asked.current;
    setBusy(true);
    const { corrections, slack } = correctionsOf(marks);
    inWorker()
      .reducedLog({ ...readings, readAt, corrections, slack, steps, rigFile })
      .then((got) => {
        if (mine !== asked.current) return;
        setBusy(false);
        if (got.kind === "reduced") {
          setReduced(got);
          setWrong(null);
        } else {
          setReduced(null);
          setWrong(got.line);
        }
      })
      .catch((error: unknown) => {
        if (mine === asked.current) {
          setBusy(false);
          setWrong(error instanceof Error ? error.message : String(error));
        }
      });
  }, [readings, readAt, marks, steps, rigFile]);

  const reduceView =
    rows <= AT_ONCE
      ? null
      : () => {
          const window = view.get();
          const expected = (rows * (window.to - window.from)) / (whole.to - whole.from);
          if (expected > MOST_READINGS)
            setWrong(
              `some ${Math.round(expected).toLocaleString("en-GB")} readings are in view; come nearer, to ${MOST_READINGS.toLocaleString("en-GB")} or fewer`,
            );
          else setStretch(window);
        };
  return {
    reduced,
    wrong,
    busy,
    readAt,
    readAtKnown: said === "anchor" || said === "bow",
    setReadAt: setOwn,
    reduceView,
    channel,
    stretch,
    hasRig: rigFile !== null,
  };
}
