/** Files of an archive whose entries are stored, by the local headers of the format (APPNOTE.TXT 6.3, section 4.3.7; recalled). */
export function filesStored(archive: Buffer): Map<string, Uint8Array> {
  const files = new Map<string, Uint8Array>();
  for (let at = 0; archive.readUInt32LE(at) === 0x04034b50; ) {
    const [size, name, extra] = [
      archive.readUInt32LE(at + 18),
      archive.readUInt16LE(at + 26),
      archive.readUInt16LE(at + 28),
    ];
    const from = at + 30 + name + extra;
    files.set(archive.toString("utf8", at + 30, at + 30 + name), new Uint8Array(archive.subarray(from, from + size)));
    at = from + size;
  }
  return files;
}
