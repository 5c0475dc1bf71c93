/** In the worker: one log at a time, reduced, and the frames of a film over it. */
import { type Film, type FilmFrame, type FilmShown, filmOf } from "../../../publish/index.ts";
import { reduceTrace, type Span } from "../../../pull/index.ts";
import { InputError } from "../../../quantity/index.ts";
import {
  asPulled,
  howPulled,
  type LogReadings,
  type PullCase,
  pullEvidence,
  traceOfLog,
} from "../../../study/index.ts";

export interface FilmLog extends LogReadings {
  readonly about: Omit<PullCase, "log">;
  /** Slack stretches that a person pointed at: the zero is read there. */
  readonly slack: readonly Span[];
  /** N; null where it is not known. */
  readonly loadU: number | null;
  /** The book says that its data are invented. */
  readonly invented: boolean;
}

/** A log that frames can be asked of, or the line it was refused with. */
export type FilmOpened =
  | {
      readonly kind: "opened";
      /** From the first reading to the last, s. */
      readonly seconds: number;
      readonly at: "anchor" | "bow";
      readonly rig: string;
    }
  | { readonly kind: "refused"; readonly line: string };

let open: { readonly number: number; readonly film: Extract<Film, { kind: "film" }> } | null = null;

/** @param number a new one for each log: frames are asked by it */
export function openFilm({ about, slack, loadU, invented, ...readings }: FilmLog, number: number): FilmOpened {
  open = null;
  const refused = (line: string): FilmOpened => ({ kind: "refused", line });
  const { deployment } = pullEvidence({ ...about, log: null });
  if (deployment === null) return refused("no rig that can be read is in the book for this pull: give it one in Days");
  const at = about.pull.loadAt === "anchor" ? "anchor" : "bow";
  try {
    const { trace, settings } = asPulled(traceOfLog(readings), howPulled(about));
    const { series } = reduceTrace(trace, { readAt: at, settings, ...(slack.length === 0 ? {} : { slack }) });
    const film = filmOf({
      log: { time: series.time, load: series.load },
      ...{ rig: deployment.rig, at, invented },
      ...(loadU === null ? {} : { loadU }),
    });
    if (film.kind === "noLoad") return refused("the log has no load above zero");
    if (film.kind === "noEquilibrium") return refused("the rig of this pull has no equilibrium under its highest load");
    open = { number, film };
    const seconds = series.time.at(-1)! - series.time[0]!;
    return { kind: "opened", seconds, at, rig: deployment.rig.name };
  } catch (error) {
    if (error instanceof InputError) return refused(error.message);
    throw error;
  }
}

/** Frames of the clip by their numbers; null where that log is not open any more. */
export function filmFrames(number: number, shown: FilmShown, clipFrames: readonly number[]): FilmFrame[] | null {
  if (open === null || open.number !== number) return null;
  const { film } = open;
  return clipFrames.map((frame) => film.frame(frame, shown));
}
