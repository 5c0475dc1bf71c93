/**
 * A clip with alpha: VP9 in WebM, as browsers and film programs read it. No browser encodes alpha by itself; the format has
 * it as a second picture beside each frame, grey, that is encoded for itself (WebM: AlphaMode, BlockAdditional 1).
 */
import { BufferTarget, EncodedPacket, EncodedVideoPacketSource, Output, WebMOutputFormat } from "mediabunny";
import { type FrameRate, nanosecondsOf } from "../../../publish/index.ts";
import { type FrameSize, frameCanvas } from "./draw-frame.ts";
import type { NumberedFrame } from "./frames-of.ts";
import { opaqueOf } from "./opaque.ts";

/** Bits for each pixel of a second: letters and lines on nothing are little. */
const BITS = 0.12;
/** s between frames that a program can begin at. */
const KEY_EVERY = 1;
/** Frames that wait for an encoder at most. */
const WAITING = 4;

function configOf({ width, height }: FrameSize, framesPerSecond: number): VideoEncoderConfig {
  // Level 5.1 holds 4096 × 2176 at 60 a second, 6.2 all that is larger (VP9 levels; recalled).
  const level = width * height <= 4096 * 2176 ? 51 : 62;
  return {
    codec: `vp09.00.${level}.08`,
    ...{ width, height, framerate: framesPerSecond },
    bitrate: Math.round(BITS * width * height * framesPerSecond),
    latencyMode: "quality",
  };
}

const perSecond = ({ frames, per }: FrameRate): number => Number(frames) / Number(per);

/** Whether this browser writes one. */
export async function canWriteClip(size: FrameSize, rate: FrameRate): Promise<boolean> {
  if (typeof VideoEncoder === "undefined") return false;
  const { supported } = await VideoEncoder.isConfigSupported(configOf(size, perSecond(rate)));
  return supported === true;
}

/**
 * @param told called with the number of frames that are in
 * @returns null when it was stopped
 */
export async function clipWithAlpha(
  frames: AsyncIterable<NumberedFrame>,
  size: FrameSize,
  rate: FrameRate,
  stop: AbortSignal,
  told: (done: number) => void,
): Promise<Blob | null> {
  const { canvas, draw } = frameCanvas(size);
  const target = new BufferTarget();
  const output = new Output({ format: new WebMOutputFormat(), target });
  const source = new EncodedVideoPacketSource("vp9");
  output.addVideoTrack(source, { canBeTransparent: true });
  await output.start();

  let failed: unknown = null;
  const fail = (error: unknown): void => {
    failed ??= error;
  };
  const config = configOf(size, perSecond(rate));
  /** Alpha of frames whose colours are not encoded yet, and colours whose alpha is not. */
  const alphas: VideoFrame[] = [];
  const colours: { readonly chunk: EncodedVideoChunk; readonly meta: EncodedVideoChunkMetadata | undefined }[] = [];
  let added: Promise<void> = Promise.resolve();

  const alphaEncoder = new VideoEncoder({
    error: fail,
    output(chunk) {
      const colour = colours.shift()!;
      const alpha = new Uint8Array(chunk.byteLength);
      chunk.copyTo(alpha);
      const packet = EncodedPacket.fromEncodedChunk(colour.chunk, { alpha });
      added = added.then(() => source.add(packet, colour.meta)).catch(fail);
    },
  });
  const colourEncoder = new VideoEncoder({
    error: fail,
    output(chunk, meta) {
      const alpha = alphas.shift()!;
      colours.push({ chunk, meta });
      // Where colours begin anew alpha does too, so that a program can begin there.
      alphaEncoder.encode(alpha, { keyFrame: chunk.type === "key" });
      alpha.close();
    },
  });
  try {
    colourEncoder.configure(config);
    alphaEncoder.configure(config);
    const every = Math.max(1, Math.round(KEY_EVERY * perSecond(rate)));
    const us = (frame: number): number => Math.round(Number(nanosecondsOf(frame, rate)) / 1000);
    for await (const { number, svg } of frames) {
      await draw(svg);
      // Each from frame 0, never added up.
      const { colour, alpha } = opaqueOf(canvas, us(number), us(number + 1) - us(number));
      alphas.push(alpha);
      colourEncoder.encode(colour, { keyFrame: number % every === 0 });
      colour.close();
      while (failed === null && colourEncoder.encodeQueueSize + alphaEncoder.encodeQueueSize > WAITING) await turn();
      if (failed !== null) throw failed;
      told(number + 1);
    }
    if (stop.aborted) {
      await output.cancel();
      return null;
    }
    await colourEncoder.flush();
    await alphaEncoder.flush();
    await added;
    if (failed !== null) throw failed;
    await output.finalize();
    return new Blob([target.buffer!], { type: "video/webm" });
  } finally {
    for (const encoder of [colourEncoder, alphaEncoder]) if (encoder.state !== "closed") encoder.close();
    for (const frame of alphas) frame.close();
  }
}

const turn = (): Promise<void> => new Promise((done) => setTimeout(done, 1));
