/** A transparent picture as two that are not: its colours, and its alpha as grey. */

export interface Opaque {
  readonly colour: VideoFrame;
  readonly alpha: VideoFrame;
}

/** @param timestamp µs; @param duration µs */
export function opaqueOf(canvas: HTMLCanvasElement, timestamp: number, duration: number): Opaque {
  const { width, height } = canvas;
  const { data } = canvas.getContext("2d")!.getImageData(0, 0, width, height);
  const size = { codedWidth: width, codedHeight: height, timestamp, duration };
  return {
    colour: new VideoFrame(data.buffer, { ...size, format: "RGBX" }),
    alpha: new VideoFrame(greyOf(data, width, height), { ...size, format: "I420" }),
  };
}

/** Alpha as brightness in planes of YUV 4:2:0: a byte a pixel, and no colour (128) for every four. */
function greyOf(rgba: Uint8ClampedArray, width: number, height: number): Uint8Array<ArrayBuffer> {
  const pixels = width * height;
  const planes = new Uint8Array(pixels + 2 * Math.ceil(width / 2) * Math.ceil(height / 2)).fill(128);
  for (let i = 0; i < pixels; i++) planes[i] = rgba[4 * i + 3]!;
  return planes;
}
