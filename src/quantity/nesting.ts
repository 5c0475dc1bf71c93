/**
 * How deep a text may be nested. Its readers descend by recursion, and so does all that walks what they have read: a
 * text nested by the thousand ends in an exhausted stack wherever that happens to be. So its depth is found while it is
 * still text, without recursion.
 */
import { InputError } from "./errors.ts";

/** Deepest text read, levels: more than ten times what any format of the program needs. */
export const DEEPEST = 64;

const QUOTE = 34;
const BACKSLASH = 92;

/**
 * Reads JSON text.
 * @param place what the error begins with
 * @throws InputError when it is not JSON, or nested deeper than `DEEPEST`
 */
export function readJson(text: string, place: string, expected = "JSON is expected"): unknown {
  if (deeper(text, DEEPEST)) throw tooDeep(place);
  try {
    return JSON.parse(text);
  } catch {
    throw new InputError(place, "not JSON", expected);
  }
}

export function tooDeep(place: string): InputError {
  return new InputError(place, "nested too deeply", `at most ${DEEPEST} levels are expected`);
}

/** Whether JSON text opens more than `most` lists and groups within one another. */
function deeper(text: string, most: number): boolean {
  let depth = 0;
  for (let i = 0; i < text.length; i++) {
    const c = text.charCodeAt(i);
    if (c === QUOTE) {
      // To the end of the string: a bracket within it opens nothing.
      for (i++; i < text.length && text.charCodeAt(i) !== QUOTE; i++) if (text.charCodeAt(i) === BACKSLASH) i++;
    } else if (c === 91 || c === 123) {
      if (++depth > most) return true;
    } else if (c === 93 || c === 125) depth--;
  }
  return false;
}
