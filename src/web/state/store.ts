/** State of a place: one plain value, changed whole, with undo. React reads it; nothing here knows React or the DOM. */

/** How a change is to be remembered. */
export interface Change {
  /** What it was, for people: "depth". */
  readonly label?: string;
  /** Changes of one stroke (a drag) are one step of undo. */
  readonly stroke?: string;
}

/** What can be taken back and done again; the header's buttons and ctrl-z work the one of the place that is shown. */
export interface Undoable {
  /** What would be taken back, null when there is nothing. */
  undoLabel(): string | null;
  redoLabel(): string | null;
  undo(): void;
  redo(): void;
  subscribe(listener: () => void): () => void;
}

export interface Store<T> extends Undoable {
  get(): T;
  /** Changes the value; it can be taken back. A value that is the same (by identity) is no change. */
  set(next: T | ((before: T) => T), change?: Change): void;
  /** Puts another value in place without a step of undo: what the address or the device brings. */
  put(next: T): void;
}

interface Step<T> {
  readonly value: T;
  readonly label: string;
}

/** More steps than anybody takes back by hand. */
const MOST_STEPS = 200;

export function createStore<T>(initial: T): Store<T> {
  let value = initial;
  let stroke: string | undefined;
  const past: Step<T>[] = [];
  const future: Step<T>[] = [];
  const listeners = new Set<() => void>();
  const tell = () => {
    for (const listener of [...listeners]) listener();
  };
  const move = (from: Step<T>[], to: Step<T>[]) => {
    const step = from.pop();
    if (step === undefined) return;
    to.push({ value, label: step.label });
    value = step.value;
    stroke = undefined;
    tell();
  };
  return {
    get: () => value,
    set(next, change = {}) {
      const after = typeof next === "function" ? (next as (before: T) => T)(value) : next;
      if (Object.is(after, value)) return;
      const continued = change.stroke !== undefined && change.stroke === stroke;
      if (!continued) {
        past.push({ value, label: change.label ?? "change" });
        if (past.length > MOST_STEPS) past.shift();
      }
      stroke = change.stroke;
      future.length = 0;
      value = after;
      tell();
    },
    put(next) {
      if (Object.is(next, value)) return;
      value = next;
      stroke = undefined;
      tell();
    },
    undoLabel: () => past.at(-1)?.label ?? null,
    redoLabel: () => future.at(-1)?.label ?? null,
    undo: () => move(past, future),
    redo: () => move(future, past),
    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}

let strokes = 0;
/** A name for one stroke, to be given to every change it makes. */
export function newStroke(): string {
  strokes += 1;
  return `stroke ${strokes}`;
}
