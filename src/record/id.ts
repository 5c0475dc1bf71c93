/** Where a book takes the time and chance from: handed in, so that a test or a demo repeats exactly. */
export interface Ports {
  /** Time of day, ms since 1970-01-01T00:00Z. */
  clock(): number;
  /** So many random bytes. */
  random(count: number): Uint8Array;
}

/** What an id looks like: a UUID of version 7. */
export const ID = /^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/;

/** True for an id as this book makes and takes them: a UUID of version 7, in lower case. */
export function isId(text: unknown): text is string {
  return typeof text === "string" && ID.test(text);
}

/**
 * A maker of globally unique ids that sort by the time they were made, also within one millisecond and when the clock
 * is set back.
 * @source RFC 9562, section 5.7 (UUID version 7) and 6.2, method 1 (a 12-bit counter after the milliseconds); recalled
 */
export function idMaker(ports: Ports): () => string {
  let last = 0;
  let counter = 0;
  return () => {
    const now = Math.max(0, Math.floor(ports.clock()));
    if (now > last) {
      last = now;
      counter = 0;
    } else if (++counter > 0xfff) {
      last++;
      counter = 0;
    }
    const tail = ports.random(8);
    tail[0] = 0x80 | (tail[0]! & 0x3f);
    const time = last.toString(16).padStart(12, "0");
    const rest = Array.from(tail, (byte) => byte.toString(16).padStart(2, "0")).join("");
    return `${time.slice(0, 8)}-${time.slice(8)}-7${counter.toString(16).padStart(3, "0")}-${rest.slice(0, 4)}-${rest.slice(4)}`;
  };
}
