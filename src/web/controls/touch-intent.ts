/**
 * Tells a finger that scrolls the page from one that means what it touches: it means it after sideways motion, or by a
 * tap. A mouse or a pen means what it presses.
 */

/** More than a finger rolls while it rests, px. */
const ROLL = 8;

export class TouchIntent {
  #start: { readonly x: number; readonly y: number } | null = null;
  #meant = false;
  #moved = false;

  /** @returns true when it is meant at once */
  down(x: number, y: number, pointer: string): boolean {
    this.#start = { x, y };
    this.#moved = false;
    this.#meant = pointer !== "touch";
    return this.#meant;
  }

  /** @returns true while it is meant */
  move(x: number, y: number): boolean {
    if (this.#start === null) return false;
    const [across, along] = [Math.abs(x - this.#start.x), Math.abs(y - this.#start.y)];
    if (Math.max(across, along) > ROLL) {
      // What began as scrolling stays scrolling.
      if (!this.#moved && across > along) this.#meant = true;
      this.#moved = true;
    }
    return this.#meant;
  }

  /** True while a press is under way that is meant. */
  get meant(): boolean {
    return this.#start !== null && this.#meant;
  }

  /** Ends the press. @returns true when it was a tap that is meant by itself */
  up(): boolean {
    const tapped = this.#start !== null && !this.#moved;
    this.cancel();
    return tapped;
  }

  cancel(): void {
    this.#start = null;
    this.#meant = false;
  }
}
