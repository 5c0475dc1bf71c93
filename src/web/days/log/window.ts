/** The window through which a log is seen, s, and how it is moved: kept within the log and between two widths. */

export interface Window {
  readonly from: number;
  readonly to: number;
}

/** Narrowest window, s: some readings of a fast cell. */
const NARROWEST = 0.02;

/** The window brought within the log, its width kept where the log has room for it. */
export function within(window: Window, whole: Window): Window {
  const room = whole.to - whole.from;
  const width = Math.min(room, Math.max(Math.min(NARROWEST, room), window.to - window.from));
  const middle = (window.from + window.to) / 2;
  const from = Math.min(whole.to - width, Math.max(whole.from, middle - width / 2));
  return { from, to: from + width };
}

/** Nearer by a factor (farther below 1), what lies at a share of the width staying where it is. */
export function zoomed(window: Window, times: number, share: number, whole: Window): Window {
  const width = window.to - window.from;
  const next = Math.min(whole.to - whole.from, Math.max(Math.min(NARROWEST, whole.to - whole.from), width / times));
  const at = window.from + share * width;
  const from = at - share * next;
  return within({ from, to: from + next }, whole);
}

/** Moved by a share of its own width. */
export function panned(window: Window, share: number, whole: Window): Window {
  const by = share * (window.to - window.from);
  return within({ from: window.from + by, to: window.to + by }, whole);
}

/** What a key does to the window; null: nothing. */
export function keyed(key: string, window: Window, whole: Window, far: boolean): Window | null {
  const step = far ? 0.5 : 0.1;
  switch (key) {
    case "ArrowLeft":
      return panned(window, -step, whole);
    case "ArrowRight":
      return panned(window, step, whole);
    case "PageUp":
      return panned(window, -1, whole);
    case "PageDown":
      return panned(window, 1, whole);
    case "+":
    case "=":
      return zoomed(window, 1.5, 0.5, whole);
    case "-":
    case "_":
      return zoomed(window, 1 / 1.5, 0.5, whole);
    case "Home":
      return within({ from: whole.from, to: whole.from + window.to - window.from }, whole);
    case "End":
      return within({ from: whole.to - (window.to - window.from), to: whole.to }, whole);
    case "0":
      return whole;
    default:
      return null;
  }
}

/** The stretch to fetch for a window: itself and as much again on either side, so that it can be moved at once. */
export function stretchFor(window: Window, whole: Window): Window {
  const width = window.to - window.from;
  return { from: Math.max(whole.from, window.from - width), to: Math.min(whole.to, window.to + width) };
}

/** Whether what was fetched for one window still serves another: it covers it, and is about as fine as asked. */
export function serves(fetched: Window, fetchedFor: Window, window: Window, whole: Window): boolean {
  const covers =
    fetched.from <= Math.max(whole.from, window.from) + 1e-9 && fetched.to >= Math.min(whole.to, window.to) - 1e-9;
  const times = (fetchedFor.to - fetchedFor.from) / (window.to - window.from);
  return covers && times < 1.4 && times > 0.3;
}

/** Whether it is time to fetch on, before the edge of what is there comes into view. */
export function runsOut(fetched: Window, window: Window, whole: Window): boolean {
  const margin = 0.35 * (window.to - window.from);
  return (
    (fetched.from > whole.from && window.from - fetched.from < margin) ||
    (fetched.to < whole.to && fetched.to - window.to < margin)
  );
}
