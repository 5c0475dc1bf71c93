import { useMemo } from "react";
import { type Cut, frameCount, type Sync, wholeClip } from "../../../publish/index.ts";
import { FoldingPanel } from "../../controls/panel.tsx";
import { bookCopy } from "../../days/book-copy.ts";
import { useUnits } from "../../state/preferences.ts";
import { useStore } from "../../state/use-store.ts";
import placeStyles from "../place.module.css";
import { publishStore } from "../state.ts";
import { FilmFields } from "./film-fields.tsx";
import { logsOfPulls } from "./logs-of-pulls.ts";
import { Preview } from "./preview.tsx";
import { SaveFilm } from "./save-film.tsx";
import { readTyped } from "./state.ts";
import { useClip } from "./use-clip.ts";
import { useFilm } from "./use-film.ts";

/** Load, angle and rode in time with a clip: put together, looked at over the clip, and saved. */
export function FilmPanel() {
  return (
    <FoldingPanel name="publish film" open={false} title="A film overlay">
      <Film />
    </FoldingPanel>
  );
}

function Film() {
  const copy = useStore(bookCopy);
  const { film: state } = useStore(publishStore);
  const { system } = useUnits();
  const clip = useClip();
  const pulls = useMemo(() => logsOfPulls(copy), [copy]);
  const chosen = state.log === "" ? pulls[0] : pulls.find(({ log }) => log.id === state.log);
  const log = chosen?.log ?? null;
  const here = useFilm(copy.records, copy.logs, log, state.loadU, copy.simulated);
  const typed = useMemo(() => readTyped(state), [state]);
  const { rate, size } = typed;
  const { mark, markFrame, corner, share } = state;
  const shown = useMemo(() => {
    if (rate === null || size === null) return null;
    const sync: Sync = { rate, markFrame, markNs: BigInt(Math.round(mark * 1e9)) };
    return { sync, units: system, place: { ...size, corner, share } };
  }, [rate, size, markFrame, mark, system, corner, share]);
  const seconds = here.kind === "opened" ? here.seconds : null;
  /** To the end of the log; of a clip that is there, to the end of the clip. */
  const whole = useMemo((): Cut | null => {
    if (shown === null || seconds === null) return null;
    return clip.seconds === null
      ? wholeClip(Float64Array.of(0, seconds), shown.sync)
      : {
          from: 0,
          to: Math.max(
            1,
            Math.floor((clip.seconds * Number(shown.sync.rate.frames)) / Number(shown.sync.rate.per) + 0.5),
          ),
        };
  }, [shown, seconds, clip.seconds]);
  const cuts = typed.wrong.cuts !== undefined ? null : (typed.cuts ?? (whole === null ? null : [whole]));
  if (pulls.length === 0)
    return <p className={placeStyles.quiet}>No pull of the book has a log of its load: bring one in, in Days.</p>;
  return (
    <>
      <p className={placeStyles.quiet}>
        Load, angle at the anchor and the rode as it lies, in time with a clip of the pull. The clip stays on this
        device: it is played, and sent nowhere.
      </p>
      <FilmFields state={state} wrong={typed.wrong} pulls={pulls} chosen={chosen?.log.id ?? state.log} clip={clip} />
      {here.kind === "opening" && <p className={placeStyles.quiet}>Reading the log…</p>}
      {here.kind === "refused" && (
        <p className={placeStyles.wrong} role="alert">
          {here.line}
        </p>
      )}
      {here.kind === "opened" && shown !== null && whole === null && (
        <p className={placeStyles.wrong} role="alert">
          The clip begins after the log ends: a mark within the log is expected.
        </p>
      )}
      {here.kind === "opened" && shown !== null && whole !== null && (
        <>
          <Preview film={here} shown={shown} whole={whole} cuts={cuts} clip={clip} />
          {cuts !== null && (
            <SaveFilm film={here} shown={shown} cuts={cuts} count={frameCount(cuts)} name={chosen?.title ?? "pull"} />
          )}
        </>
      )}
    </>
  );
}
