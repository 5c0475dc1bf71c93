/** What a film overlay is asked with, and the fields of the address it stands in. */
import { CORNERS, type Cut, type FrameRate, readCuts, readFrameRate, readFrameSize } from "../../../publish/index.ts";
import { InputError } from "../../../quantity/index.ts";
import type { FieldReader, Fields } from "../../state/fields.ts";

export interface FilmState {
  /** Id of a log; empty: the first that can be told. */
  readonly log: string;
  /** Frames a second, as typed. */
  readonly rate: string;
  /** When the mark is in the log, s from its first reading, and the frame of the clip it is seen in. */
  readonly mark: number;
  readonly markFrame: number;
  /** Stretches of the clip, as typed; empty: the clip whole. */
  readonly cuts: string;
  /** Size of a frame, as typed. */
  readonly size: string;
  readonly corner: (typeof CORNERS)[number];
  /** Share of the frame's width the overlay takes. */
  readonly share: number;
  /** Standard uncertainty of a load read, N; null where it is not known. */
  readonly loadU: number | null;
}

export const usualFilm: FilmState = {
  log: "",
  rate: "25",
  mark: 0,
  markFrame: 0,
  cuts: "",
  size: "1920x1080",
  corner: "below-left",
  share: 0.35,
  loadU: null,
};

const NAMES = Object.keys(usualFilm) as (keyof FilmState)[];
const PREFIX = "film-";

/** Bounds of what is a number: the same a command takes. */
export const BOUNDS = { mark: [-1e6, 1e6], markFrame: [0, 1e8], share: [0.1, 0.9], loadU: [0, 1e9] } as const;

/** What differs from the usual. */
export function filmFields(state: FilmState): Fields {
  return Object.fromEntries(
    NAMES.flatMap((name) =>
      state[name] === usualFilm[name] || state[name] === null ? [] : [[`${PREFIX}${name}`, String(state[name])]],
    ),
  );
}

export const FILM_FIELDS: readonly string[] = NAMES.map((name) => `${PREFIX}${name}`);

export function readFilmFields(all: FieldReader): FilmState {
  const fields = all.under(PREFIX);
  const number = <U>(name: keyof typeof BOUNDS, usual: U) =>
    fields.numberOr(name, usual, BOUNDS[name][0], BOUNDS[name][1]);
  return {
    log: fields.text("log") ?? usualFilm.log,
    rate: fields.text("rate") ?? usualFilm.rate,
    mark: number("mark", usualFilm.mark),
    markFrame: Math.round(number("markFrame", usualFilm.markFrame)),
    cuts: fields.text("cuts") ?? usualFilm.cuts,
    size: fields.text("size") ?? usualFilm.size,
    corner: fields.wordOr("corner", CORNERS, usualFilm.corner),
    share: number("share", usualFilm.share),
    loadU: number("loadU", usualFilm.loadU),
  };
}

/** What was typed, read; a line for each that has no meaning. */
export interface FilmTyped {
  readonly rate: FrameRate | null;
  /** Null where none are stated, or what is stated is none. */
  readonly cuts: readonly Cut[] | null;
  readonly size: { readonly width: number; readonly height: number } | null;
  readonly wrong: { readonly rate?: string; readonly cuts?: string; readonly size?: string };
}

export function readTyped({ rate, cuts, size }: FilmState): FilmTyped {
  const wrong: { rate?: string; cuts?: string; size?: string } = {};
  const read = <T>(name: keyof typeof wrong, from: () => T): T | null => {
    try {
      return from();
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      wrong[name] = error.message;
      return null;
    }
  };
  return {
    rate: read("rate", () => readFrameRate(rate, "frames a second")),
    cuts: cuts.trim() === "" ? null : read("cuts", () => readCuts(cuts, "stretches")),
    size: read("size", () => readFrameSize(size, "size of a frame")),
    wrong,
  };
}
