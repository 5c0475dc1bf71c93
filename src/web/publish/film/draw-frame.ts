/** Frames as pictures: each drawn on a canvas by the browser, transparent where nothing stands. */

export interface FrameSize {
  readonly width: number;
  readonly height: number;
}

export interface FrameCanvas {
  readonly canvas: HTMLCanvasElement;
  /** Draws a frame in place of the one before; the same again costs nothing. */
  draw(svg: string): Promise<void>;
}

export function frameCanvas({ width, height }: FrameSize): FrameCanvas {
  const canvas = document.createElement("canvas");
  [canvas.width, canvas.height] = [width, height];
  const context = canvas.getContext("2d", { willReadFrequently: true })!;
  let last = "";
  return {
    canvas,
    async draw(svg) {
      if (svg === last) return;
      const address = URL.createObjectURL(new Blob([svg], { type: "image/svg+xml" }));
      try {
        const image = new Image(width, height);
        image.src = address;
        await image.decode();
        context.clearRect(0, 0, width, height);
        context.drawImage(image, 0, 0, width, height);
        last = svg;
      } finally {
        URL.revokeObjectURL(address);
      }
    },
  };
}
