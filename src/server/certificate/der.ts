/**
 * The few forms of DER that a certificate is made of.
 * @source ITU-T X.690 (DER encoding rules), recalled; held to Node's own reader and to OpenSSL by the tests
 */

/** Tag, length and content. */
export function tagged(tag: number, ...content: readonly Uint8Array[]): Buffer {
  const body = Buffer.concat(content);
  return Buffer.concat([Buffer.from([tag]), length(body.length), body]);
}

function length(n: number): Buffer {
  if (n < 0x80) return Buffer.from([n]);
  const bytes: number[] = [];
  for (let rest = n; rest > 0; rest = Math.floor(rest / 256)) bytes.unshift(rest % 256);
  return Buffer.from([0x80 | bytes.length, ...bytes]);
}

export const sequence = (...parts: readonly Uint8Array[]): Buffer => tagged(0x30, ...parts);
export const set = (...parts: readonly Uint8Array[]): Buffer => tagged(0x31, ...parts);
export const octets = (bytes: Uint8Array): Buffer => tagged(0x04, bytes);
export const utf8 = (text: string): Buffer => tagged(0x0c, Buffer.from(text, "utf8"));
export const yes: Buffer = tagged(0x01, Buffer.from([0xff]));
/** Explicit context tag `[n]`. */
export const explicit = (n: number, content: Uint8Array): Buffer => tagged(0xa0 + n, content);
/** Implicit context tag `[n]` over plain bytes. */
export const implicit = (n: number, bytes: Uint8Array): Buffer => tagged(0x80 + n, bytes);

/** A whole number of 0 or more, from its bytes. */
export function integer(bytes: Uint8Array): Buffer {
  let start = 0;
  while (start < bytes.length - 1 && bytes[start] === 0) start++;
  const body = bytes.subarray(start);
  // A first bit of 1 would read as negative.
  return body[0]! & 0x80 ? tagged(0x02, Buffer.from([0]), body) : tagged(0x02, body);
}

/** Whole bytes and how many bits at the end do not count. */
export const bits = (bytes: Uint8Array, unused = 0): Buffer => tagged(0x03, Buffer.from([unused]), bytes);

/** An object identifier such as "2.5.29.17". */
export function oid(dotted: string): Buffer {
  const [first, second, ...rest] = dotted.split(".").map(Number) as [number, number, ...number[]];
  const bytes: number[] = [];
  for (const arc of [first * 40 + second, ...rest]) {
    const groups = [arc & 0x7f];
    for (let left = Math.floor(arc / 128); left > 0; left = Math.floor(left / 128))
      groups.unshift(0x80 | (left & 0x7f));
    bytes.push(...groups);
  }
  return tagged(0x06, Buffer.from(bytes));
}

/** A moment to the second: UTCTime up to 2049, GeneralizedTime from 2050, as RFC 5280 4.1.2.5 has it. */
export function moment(ms: number): Buffer {
  const text = new Date(ms).toISOString().replace(/[-:T]/g, "").slice(0, 14);
  const short = Number(text.slice(0, 4)) < 2050;
  return tagged(short ? 0x17 : 0x18, Buffer.from(`${short ? text.slice(2) : text}Z`, "ascii"));
}
