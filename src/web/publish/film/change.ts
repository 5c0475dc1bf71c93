import { publishStore } from "../state.ts";
import type { FilmState } from "./state.ts";

/** Changes a part of the film, as one step of undo. @param label what undo calls it */
export const changeFilm = (part: Partial<FilmState>, label: string): void =>
  publishStore.set((before) => ({ ...before, film: { ...before.film, ...part } }), {
    label,
    stroke: `publish film ${label}`,
  });
