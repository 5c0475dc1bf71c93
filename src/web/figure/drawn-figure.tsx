import styles from "./figure-frame.module.css";
import { FigureFrame, type FigureFrameProps } from "./figure-frame.tsx";
import type { ShownFigure } from "./shown-figure.ts";

/** A drawing as text, where a frame is told of it by hand. */
export function DrawnText({ svg }: { readonly svg: string }) {
  // biome-ignore lint/security/noDangerouslySetInnerHtml: drawn by src/figure, which escapes every text
  return <div className={styles.drawing} dangerouslySetInnerHTML={{ __html: svg }} />;
}

/** A figure that was drawn as text, by the figure room, in its frame. */
export function DrawnFigure({
  figure,
  ...frame
}: { readonly figure: ShownFigure } & Omit<FigureFrameProps, "title" | "shown" | "children">) {
  return (
    <FigureFrame title={figure.title} shown={figure} ownSize {...frame}>
      <DrawnText svg={figure.svg} />
    </FigureFrame>
  );
}
