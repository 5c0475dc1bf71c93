import { useEffect, useMemo, useRef, useState } from "react";
import type { LogReadings, ReducedLog } from "../../../study/index.ts";
import { correctionsOf, type EffectiveMark, veersOf, veersTogether } from "../../../study/index.ts";
import { ApiTrouble, OutOfReach } from "../../api/client.ts";
import type { Store } from "../../state/store.ts";
import { faultOf } from "../../work/fault.ts";
import { askWorker } from "../../work/worker.ts";
import type { LogHere, RecordHere, Records } from "../book-copy.ts";
import { caseOf } from "../pull-case.ts";
import { MOST_READINGS, readingsOf, trackApartIn, trackLogIn } from "./readings.ts";
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
}

/** Logs up to this many readings are reduced as soon as they are opened. */
const AT_ONCE = 120_000;

/** The reduction of a log with its marks as they stand: the readings are fetched once, the answer follows the marks. */
export function useReduction(asked: {
  readonly answer: LogAnswer;
  readonly marks: readonly EffectiveMark[];
  readonly channel: string | null;
  readonly view: Store<Window>;
  readonly whole: Window;
  readonly pull: RecordHere<"pull"> | undefined;
  readonly records: Records;
  readonly logs: readonly LogHere[];
}): Reduction {
  const { answer, marks, channel, view, whole, pull, records, logs } = asked;
  const { rows } = answer.content;
  const id = answer.log.id;
  const { veersBeside } = answer;
  const said = pull?.loadAt;
  const [own, setOwn] = useState<"anchor" | "bow">("bow");
  const readAt = said === "anchor" || said === "bow" ? said : own;
  const [stretch, setStretch] = useState<Window | null>(rows <= AT_ONCE ? whole : null);
  const [readings, setReadings] = useState<LogReadings | null>(null);
  const [reduced, setReduced] = useState<Reduction["reduced"]>(null);
  const [wrong, setWrong] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const latest = useRef(0);
  const log = { ...answer.log, content: answer.content };
  const here = useRef({ log, logs });
  here.current = { log, logs };
  // Another log of the pull may become known, or be given to it, while this one is open.
  const clock = pull?.trackClock_s ?? 0;
  const track = trackLogIn(log, logs, clock);
  const apart = trackApartIn(log, logs, clock)?.seconds ?? null;

  // biome-ignore lint/correctness/useExhaustiveDependencies: more rows, or another track, are a reason to read again
  useEffect(() => {
    if (channel === null || stretch === null) return;
    const stop = new AbortController();
    setBusy(true);
    readingsOf(here.current.log, here.current.logs, channel, stretch, stop.signal, clock)
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
  }, [id, channel, stretch, rows, track, apart, clock]);

  const about = useMemo(() => (pull === undefined ? null : caseOf(records, pull)), [records, pull]);

  useEffect(() => {
    if (readings === null) return;
    const mine = ++latest.current;
    setBusy(true);
    const { corrections, slack } = correctionsOf(marks);
    const veers = veersTogether(veersOf(marks), veersBeside);
    askWorker((work): Promise<ReducedLog> => work.reducedLog({ ...readings, readAt, corrections, slack, veers, about }))
      .then((got) => {
        if (mine !== latest.current) return;
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
        if (mine === latest.current) {
          setBusy(false);
          setWrong(faultOf(error).line);
        }
      });
  }, [readings, readAt, marks, veersBeside, about]);

  const reduceView =
    rows <= AT_ONCE
      ? null
      : () => {
          const window = view.get();
          const expected = (rows * (window.to - window.from)) / (whole.to - whole.from);
          if (expected > MOST_READINGS)
            setWrong(`some ${Math.round(expected)} readings are in view; come nearer, to ${MOST_READINGS} or fewer`);
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
  };
}
