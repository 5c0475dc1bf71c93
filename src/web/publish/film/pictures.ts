/** A film as transparent pictures, numbered, with the table of their times: one archive. */
import { FRAMES_HEAD, frameLine, type Sync, zipParts } from "../../../publish/index.ts";
import { type FrameSize, frameCanvas } from "./draw-frame.ts";
import type { NumberedFrame } from "./frames-of.ts";

/** @returns null when it was stopped */
export async function picturesOf(
  frames: AsyncIterable<NumberedFrame>,
  size: FrameSize,
  sync: Sync,
  stop: AbortSignal,
  told: (done: number) => void,
): Promise<Blob | null> {
  const { canvas, draw } = frameCanvas(size);
  const files = new Map<string, Uint8Array>();
  let table = FRAMES_HEAD;
  let [last, bytes] = ["", new Uint8Array()];
  for await (const frame of frames) {
    if (frame.svg !== last) {
      await draw(frame.svg);
      [last, bytes] = [frame.svg, await pngOf(canvas)];
    }
    files.set(`frame-${String(frame.number).padStart(6, "0")}.png`, bytes);
    table += frameLine(frame.number, frame.clipFrame, sync, frame);
    told(frame.number + 1);
  }
  if (stop.aborted) return null;
  files.set("frames.csv", new TextEncoder().encode(table));
  return new Blob(zipParts(files), { type: "application/zip" });
}

const pngOf = (canvas: HTMLCanvasElement): Promise<Uint8Array<ArrayBuffer>> =>
  new Promise((done, fail) =>
    canvas.toBlob((blob) => {
      if (blob === null) fail(new Error("no picture was made"));
      else blob.arrayBuffer().then((buffer) => done(new Uint8Array(buffer)), fail);
    }, "image/png"),
  );
