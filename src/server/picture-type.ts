/** Pictures and clips a browser shows without running anything: never SVG or HTML, which can carry script. */
const SIGNS: readonly { readonly type: string; readonly at: number; readonly bytes: readonly number[] }[] = [
  { type: "image/jpeg", at: 0, bytes: [0xff, 0xd8, 0xff] },
  { type: "image/png", at: 0, bytes: [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a] },
  { type: "image/gif", at: 0, bytes: [0x47, 0x49, 0x46, 0x38] },
  { type: "image/webp", at: 8, bytes: [0x57, 0x45, 0x42, 0x50] },
  { type: "image/heic", at: 4, bytes: [0x66, 0x74, 0x79, 0x70, 0x68, 0x65, 0x69, 0x63] },
  { type: "video/webm", at: 0, bytes: [0x1a, 0x45, 0xdf, 0xa3] },
  { type: "video/mp4", at: 4, bytes: [0x66, 0x74, 0x79, 0x70] },
];

/** The types taken in, for error lines. */
export const pictureTypes: readonly string[] = SIGNS.map((sign) => sign.type);

/** What a file is by its first bytes, whatever it is called; undefined for anything not taken in. */
export function pictureType(bytes: Uint8Array): string | undefined {
  return SIGNS.find((sign) => sign.bytes.every((byte, i) => bytes[sign.at + i] === byte))?.type;
}
