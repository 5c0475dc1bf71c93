/** The text of a file, in the encodings that logs come in too: UTF-8, UTF-16, Windows' Latin. */
export async function textOfBytes(bytes: Uint8Array): Promise<string> {
  try {
    const text = new TextDecoder("utf-8", { fatal: true }).decode(bytes);
    if (!text.slice(0, 4).includes("\0")) return text;
  } catch {
    // Not UTF-8.
  }
  // Read only where it is needed: most files are UTF-8.
  const { guessEncoding, HEAD_BYTES, textOf } = await import("../log/index.ts");
  const { encoding, mark } = guessEncoding(bytes.subarray(0, HEAD_BYTES));
  return textOf(bytes, mark, bytes.length, encoding);
}
