/**
 * Globally unique ids made on this device, as the book takes them: UUIDs of version 7, which sort by the time they were
 * made.
 * @source RFC 9562, section 5.7: 48 bits of milliseconds, version, 12 bits, variant, 62 random bits (recalled)
 */
let last = 0;
let within = 0;

export function newId(
  now: number = Date.now(),
  random: Uint8Array = crypto.getRandomValues(new Uint8Array(8)),
): string {
  if (now > last) {
    last = now;
    within = 0;
  } else if (++within > 0xfff) {
    // More than a millisecond can count: borrowed from the next one, so that the order stands.
    last += 1;
    within = 0;
  }
  const time = last.toString(16).padStart(12, "0");
  const tail = Array.from(random, (byte, i) => (i === 0 ? 0x80 | (byte & 0x3f) : byte).toString(16).padStart(2, "0"));
  const rest = tail.join("");
  return `${time.slice(0, 8)}-${time.slice(8)}-7${within.toString(16).padStart(3, "0")}-${rest.slice(0, 4)}-${rest.slice(4)}`;
}
