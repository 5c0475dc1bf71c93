import { constants, crc32, deflateSync, inflateSync } from "node:zlib";

// A column of numbers as bytes and back, without losing a bit: the bytes of equal weight are laid together (their high
// ones hardly change along a log), then deflated. One leading byte says what the numbers were.
//   1  Float64   2  Float32   3  whole microseconds: the first as Float64, then the differences of the differences as
//   Int32; for times of a steady log, nearly all zero
const DOUBLE = 1;
const SINGLE = 2;
const MICROSECONDS = 3;
const LITTLE_ENDIAN = new Uint8Array(new Uint16Array([1]).buffer)[0] === 1;
if (!LITTLE_ENDIAN) throw new Error("the log codec writes little-endian numbers and needs a little-endian machine");

/** Packs numbers. `single` keeps 24 bits of each (6e-8 relative); it packs as doubles any column that would lose by it unless asked. */
export function packReadings(values: Float64Array, single: boolean): Uint8Array {
  const numbers = single ? Float32Array.from(values) : values;
  return packed(single ? SINGLE : DOUBLE, bytesOf(numbers), numbers.BYTES_PER_ELEMENT);
}

/** Packs times in seconds, exactly. */
export function packTimes(times: Float64Array): Uint8Array {
  const steps = microsecondSteps(times);
  if (steps === undefined) return packed(DOUBLE, bytesOf(times), 8);
  const out = new Uint8Array(16 + 4 * Math.max(0, times.length - 1));
  const head = new Float64Array([times.length, times.length === 0 ? 0 : Math.round(times[0]! * 1e6)]);
  out.set(bytesOf(head));
  out.set(interleave(bytesOf(steps), 4), 16);
  return withPacking(MICROSECONDS, out);
}

/** Unpacks what `packReadings` or `packTimes` made. Throws when the bytes are not whole. */
export function unpack(bytes: Uint8Array): Float64Array {
  const packing = bytes[0];
  const body = inflateSync(bytes.subarray(1));
  if (packing === DOUBLE) return new Float64Array(aligned(separate(body, 8)));
  if (packing === SINGLE) return Float64Array.from(new Float32Array(aligned(separate(body, 4))));
  if (packing !== MICROSECONDS) throw new Error("unknown packing of a column");
  const [count, first] = new Float64Array(aligned(body.subarray(0, 16)));
  const steps = new Int32Array(aligned(separate(body.subarray(16), 4)));
  const times = new Float64Array(count!);
  let us = first!;
  let step = 0;
  for (let i = 0; i < times.length; i++) {
    if (i > 0) {
      step += steps[i - 1]!;
      us += step;
    }
    times[i] = us / 1e6;
  }
  return times;
}

/** CRC-32 over several stretches of bytes in turn. */
export function crcOf(...parts: readonly Uint8Array[]): number {
  let crc = 0;
  for (const part of parts) crc = crc32(part, crc);
  return crc;
}

export function bytesOf(numbers: Float64Array | Float32Array | Int32Array): Uint8Array {
  return new Uint8Array(numbers.buffer, numbers.byteOffset, numbers.byteLength);
}

/** Doubles from stored bytes, wherever they lie in memory. */
export function doublesOf(bytes: Uint8Array): Float64Array {
  return new Float64Array(aligned(bytes));
}

/** Differences of differences in µs; undefined when a time is not a whole number of µs or a step is too long. */
function microsecondSteps(times: Float64Array): Int32Array | undefined {
  const steps = new Int32Array(Math.max(0, times.length - 1));
  let before = 0;
  let step = 0;
  for (let i = 0; i < times.length; i++) {
    const us = Math.round(times[i]! * 1e6);
    if (us / 1e6 !== times[i] || Math.abs(us) > 2 ** 52 || Object.is(times[i], -0)) return undefined;
    if (i > 0) {
      const change = us - before - step;
      if (change > 0x7fffffff || change < -0x80000000) return undefined;
      steps[i - 1] = change;
      step = us - before;
    }
    before = us;
  }
  return steps;
}

function packed(packing: number, bytes: Uint8Array, width: number): Uint8Array {
  return withPacking(packing, interleave(bytes, width));
}

function withPacking(packing: number, body: Uint8Array): Uint8Array {
  const squeezed = deflateSync(body, { level: constants.Z_BEST_SPEED });
  const out = new Uint8Array(squeezed.length + 1);
  out[0] = packing;
  out.set(squeezed, 1);
  return out;
}

function interleave(bytes: Uint8Array, width: number): Uint8Array {
  const count = bytes.length / width;
  const out = new Uint8Array(bytes.length);
  for (let b = 0, o = 0; b < width; b++) for (let i = b, n = 0; n < count; n++, i += width) out[o++] = bytes[i]!;
  return out;
}

function separate(bytes: Uint8Array, width: number): Uint8Array {
  const count = bytes.length / width;
  if (!Number.isInteger(count)) throw new Error("a column of readings is cut short");
  const out = new Uint8Array(bytes.length);
  for (let b = 0, i = 0; b < width; b++) for (let o = b, n = 0; n < count; n++, o += width) out[o] = bytes[i++]!;
  return out;
}

function aligned(bytes: Uint8Array): ArrayBuffer {
  return bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength) as ArrayBuffer;
}
