/** Frame times of the browser itself, while something is done. */
import type { Page } from "playwright-core";

export interface Frames {
  /** ms between one frame and the next, as the browser counts them. */
  readonly times: readonly number[];
  readonly median: number;
  /** 95 of 100 frames took no longer, ms. */
  readonly p95: number;
  readonly longest: number;
}

export const FRAME_BUDGET = 1000 / 60;

/** Counts frames while `work` goes on. */
export async function framesDuring(page: Page, work: () => Promise<void>): Promise<Frames> {
  await page.evaluate(() => {
    const log = { times: [] as number[], on: true };
    (globalThis as unknown as { frameLog: typeof log }).frameLog = log;
    let last = 0;
    const frame = (now: number) => {
      if (last > 0) log.times.push(now - last);
      last = now;
      if (log.on) requestAnimationFrame(frame);
    };
    requestAnimationFrame(frame);
  });
  await work();
  const times = await page.evaluate(() => {
    const { frameLog } = globalThis as unknown as { frameLog: { times: number[]; on: boolean } };
    frameLog.on = false;
    return frameLog.times;
  });
  const sorted = [...times].sort((a, b) => a - b);
  const at = (share: number) => sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN;
  return { times, median: at(0.5), p95: at(0.95), longest: sorted.at(-1) ?? Number.NaN };
}

/**
 * Draws something back and forth for so many frames, in the page itself: one pointer event a frame, as a hand gives them.
 * @param label of the slider
 * @param by px to either side
 */
export async function drawnAbout(
  page: Page,
  label: RegExp,
  by: { x: number; y: number },
  frames: number,
): Promise<void> {
  const knob = page.getByRole("slider", { name: label }).first();
  await knob.evaluate(
    async (element, { by: reach, frames: count }) => {
      const circle = element.querySelectorAll("circle")[1]!;
      const box = circle.getBoundingClientRect();
      const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
      const send = (type: string, dx: number, dy: number) =>
        element.dispatchEvent(
          new PointerEvent(type, {
            ...{ clientX: x + dx, clientY: y + dy, pointerId: 1, isPrimary: true, button: 0, bubbles: true },
            pointerType: "mouse",
          }),
        );
      // A pointer made here is none the browser knows: it cannot be captured, and need not be.
      element.setPointerCapture = () => undefined;
      send("pointerdown", 0, 0);
      for (let i = 0; i < count; i++) {
        const swing = Math.sin((2 * Math.PI * i) / 90);
        send("pointermove", reach.x * swing, reach.y * swing);
        await new Promise(requestAnimationFrame);
      }
      send("pointerup", 0, 0);
    },
    { by, frames },
  );
}

/**
 * How many frames pass between a move of the pointer and what is shown of it, move by move: 1 is the very next frame.
 * Counted in frames and not in time, so that other work of the machine changes nothing.
 * @param on CSS selector of the element that takes the pointer; it is held from (x, y), shares of its box
 * @param shown CSS selector of the text that must change
 */
export function framesUntilShown(
  page: Page,
  { on, from, by, held, shown }: Drawing,
  moves: number,
): Promise<readonly number[]> {
  return page.evaluate(
    async ({ target, start, reach, hold, watched, count }) => {
      const element = document.querySelector<HTMLElement>(target)!;
      const box = element.getBoundingClientRect();
      const [x, y] = [box.x + start.x * box.width, box.y + start.y * box.height];
      const send = (type: string, dx: number, dy: number) =>
        element.dispatchEvent(
          new PointerEvent(type, {
            ...{ clientX: x + dx, clientY: y + dy, pointerId: 1, isPrimary: true, button: 0, bubbles: true },
            pointerType: "mouse",
          }),
        );
      const seen = () => document.querySelector(watched)!.textContent;
      // A pointer made here is none the browser knows: it cannot be captured, and need not be.
      element.setPointerCapture = () => undefined;
      const waits: number[] = [];
      if (hold) send("pointerdown", 0, 0);
      for (let i = 1; i <= count; i++) {
        const before = seen();
        send("pointermove", (reach.x * i) / count, (reach.y * i) / count);
        let frames = 0;
        do {
          await new Promise(requestAnimationFrame);
          frames++;
        } while (seen() === before && frames < 8);
        waits.push(frames);
      }
      if (hold) send("pointerup", reach.x, reach.y);
      return waits;
    },
    { target: on, start: from, reach: by, hold: held, watched: shown, count: moves },
  );
}

export interface Drawing {
  readonly on: string;
  readonly from: { readonly x: number; readonly y: number };
  /** px */
  readonly by: { readonly x: number; readonly y: number };
  /** Whether a button is held down meanwhile. */
  readonly held: boolean;
  readonly shown: string;
}
