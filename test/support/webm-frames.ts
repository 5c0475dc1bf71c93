/**
 * Frames of a WebM file by the rules of its format, with no library: when each is shown and how much alpha is with it.
 * @source RFC 8794 (EBML: ids and sizes of variable length) and RFC 9559 (Matroska: Cluster, BlockGroup, BlockAdditional)
 */

const ID = {
  segment: 0x18538067,
  info: 0x1549a966,
  timestampScale: 0x2ad7b1,
  tracks: 0x1654ae6b,
  track: 0xae,
  codec: 0x86,
  video: 0xe0,
  width: 0xb0,
  height: 0xba,
  alphaMode: 0x53c0,
  cluster: 0x1f43b675,
  timestamp: 0xe7,
  simpleBlock: 0xa3,
  blockGroup: 0xa0,
  block: 0xa1,
  additions: 0x75a1,
  more: 0xa6,
  additional: 0xa5,
} as const;

const HOLDS_OTHERS: ReadonlySet<number> = new Set([
  ...[ID.segment, ID.info, ID.tracks, ID.track, ID.video, ID.cluster, ID.blockGroup, ID.additions, ID.more],
]);

export interface WebmRead {
  codec: string;
  width: number;
  height: number;
  /** 1 where frames have alpha beside them. */
  alphaMode: number;
  /** In the order of the file; bytes of the alpha of each, 0 where there is none. */
  readonly frames: { readonly ms: number; alpha: number }[];
}

export function webmFrames(bytes: Uint8Array): WebmRead {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const read: WebmRead = { codec: "", width: 0, height: 0, alphaMode: 0, frames: [] };
  let [scale, cluster] = [1e6, 0];

  const number = (from: number, size: number): number => {
    let value = 0;
    for (let i = 0; i < size; i++) value = value * 256 + view.getUint8(from + i);
    return value;
  };
  /** How many bytes a number of variable length has, by its leading zeros. */
  const widthAt = (at: number): number => Math.clz32(view.getUint8(at)) - 23;

  const walk = (from: number, to: number): void => {
    let at = from;
    while (at < to) {
      const idWidth = widthAt(at);
      const id = number(at, idWidth);
      at += idWidth;
      const sizeWidth = widthAt(at);
      const most = 2 ** (7 * sizeWidth);
      const stated = number(at, sizeWidth) - most;
      at += sizeWidth;
      // All ones: the size is not known, and the element goes to the end of what holds it.
      const end = stated === most - 1 ? to : at + stated;
      if (HOLDS_OTHERS.has(id)) walk(at, end);
      else take(id, at, end - at);
      at = end;
    }
  };

  const take = (id: number, at: number, size: number): void => {
    if (id === ID.timestampScale) scale = number(at, size);
    else if (id === ID.timestamp) cluster = number(at, size);
    else if (id === ID.codec) read.codec = new TextDecoder().decode(bytes.subarray(at, at + size));
    else if (id === ID.width) read.width = number(at, size);
    else if (id === ID.height) read.height = number(at, size);
    else if (id === ID.alphaMode) read.alphaMode = number(at, size);
    else if (id === ID.additional) read.frames.at(-1)!.alpha += size;
    else if (id === ID.simpleBlock || id === ID.block) {
      const after = at + widthAt(at);
      read.frames.push({ ms: ((cluster + view.getInt16(after)) * scale) / 1e6, alpha: 0 });
    }
  };

  walk(0, bytes.byteLength);
  return read;
}
