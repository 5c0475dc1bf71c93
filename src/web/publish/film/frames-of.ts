/** The frames of a whole film in order, asked of the worker some at a time. */
import { type Cut, clipFrames, type FilmFrame, type FilmShown } from "../../../publish/index.ts";
import type { Opened } from "./use-film.ts";

/** Asked at once: few enough that the eye's own questions come in between. */
const AT_ONCE = 20;

export interface NumberedFrame extends FilmFrame {
  /** Its number in the film, and in the clip. */
  readonly number: number;
  readonly clipFrame: number;
}

export async function* framesOf(
  film: Opened,
  shown: FilmShown,
  cuts: readonly Cut[],
  stop: AbortSignal,
): AsyncGenerator<NumberedFrame> {
  let number = 0;
  let asked: number[] = [];
  const come = async function* (): AsyncGenerator<NumberedFrame> {
    const frames = await film.frames(shown, asked);
    for (const [i, frame] of frames.entries()) yield { ...frame, number: number++, clipFrame: asked[i]! };
    asked = [];
  };
  for (const clipFrame of clipFrames(cuts)) {
    if (stop.aborted) return;
    asked.push(clipFrame);
    if (asked.length === AT_ONCE) yield* come();
  }
  if (asked.length > 0 && !stop.aborted) yield* come();
}
