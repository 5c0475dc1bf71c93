/** What of a ride has come from the worker: pictures and samples in the order they came, and what lies between two of them. */
import type { RideAnswer } from "../../../motion/index.ts";
import type { RopeWork } from "../../../sizing/index.ts";

/** What the ride says so far, without its single cycles. */
export type GaleAnswer = Omit<RideAnswer, "cycles"> & { readonly ropes: readonly RopeWork[] };

/** What the worker hands over of a stretch of the ride. */
export interface GalePiece {
  /** Ends of the nodes a picture holds. */
  readonly nodes: number;
  /** Pictures: x, y, z of every node, then x, y and heading of the boat. m and rad. */
  readonly pictures: Float32Array;
  /** A sample a picture: time, s, loads at bow and anchor, N, angle at the anchor, rad. */
  readonly samples: Float32Array;
  readonly over: boolean;
  /** What the ride says so far; null where it was answered shortly before, and in its first minute. */
  readonly answer: GaleAnswer | null;
  readonly highest: Float64Array;
}

/** Ride time between two pictures, s. */
export const FRAME = 0.2;
/** Values of one sample. */
export const SAMPLE = 4;
/** Places of its values after the time: loads at bow and anchor, N, and the angle at the anchor, rad. */
export const BOW = 1;
export const ANCHOR = 2;
export const ANGLE = 3;

export interface GaleRecord {
  readonly nodes: number;
  /** Values of one picture. */
  readonly width: number;
  readonly pictures: readonly Float32Array[];
  readonly samples: readonly Float32Array[];
  /** Pictures in all. */
  readonly count: number;
  /** Highest load at the bow among the samples, N. */
  readonly highest: number;
}

export const noRecord: GaleRecord = { nodes: 0, width: 0, pictures: [], samples: [], count: 0, highest: 0 };

export function withPiece(record: GaleRecord, piece: GalePiece): GaleRecord {
  const width = 3 * piece.nodes + 3;
  let highest = record.highest;
  for (let i = BOW; i < piece.samples.length; i += SAMPLE) highest = Math.max(highest, piece.samples[i]!);
  return {
    nodes: piece.nodes,
    width,
    pictures: [...record.pictures, piece.pictures],
    samples: [...record.samples, piece.samples],
    count: record.count + piece.samples.length / SAMPLE,
    highest,
  };
}

/** Seconds that can be shown. */
export const secondsOf = (record: GaleRecord): number => Math.max(0, (record.count - 1) * FRAME);

/** The picture at a time, s, straight between the two beside it, into `out`. False where there is none. */
export function pictureAt(record: GaleRecord, seconds: number, out: Float32Array): boolean {
  if (record.count === 0) return false;
  const place = Math.max(0, Math.min(record.count - 1, seconds / FRAME));
  const k = Math.floor(place);
  const share = place - k;
  const a = pieceOf(record.pictures, record.width, k);
  const b = pieceOf(record.pictures, record.width, Math.min(record.count - 1, k + 1));
  for (let i = 0; i < record.width; i++) out[i] = a[i]! + share * (b[i]! - a[i]!);
  return true;
}

/** One value of the sample nearest before a picture's number. */
export function sampleAt(record: GaleRecord, k: number, value: number): number {
  return pieceOf(record.samples, SAMPLE, k)[value]!;
}

function pieceOf(pieces: readonly Float32Array[], width: number, k: number): Float32Array {
  let from = 0;
  for (const piece of pieces) {
    const count = piece.length / width;
    if (k < from + count) return piece.subarray((k - from) * width, (k - from + 1) * width);
    from += count;
  }
  throw new RangeError(`no picture ${k}`);
}
