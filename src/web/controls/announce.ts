/** The live region: what a screen reader is told when answers change, once they stand still. */
import { createStore } from "../state/store.ts";

export const announced = createStore("");

let timer: ReturnType<typeof setTimeout> | undefined;
const STILL = 700;

/** Says a sentence when nothing newer comes within a moment. */
export function announce(sentence: string): void {
  clearTimeout(timer);
  timer = setTimeout(() => announced.put(sentence), STILL);
}
