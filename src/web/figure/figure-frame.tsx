import { type ReactNode, useId, useRef } from "react";
import type { FigureTable } from "../../figure/index.ts";
import type { FigureKindName } from "../../publish/index.ts";
import styles from "./figure-frame.module.css";
import { FigureMenu } from "./figure-menu.tsx";
import { ReadOut } from "./read-out.tsx";
import type { Shown } from "./shown-figure.ts";

export interface FigureFrameProps {
  /** What it shows, by the name `rodebench publish figure` draws the same by. */
  readonly kind: FigureKindName;
  /** Names the figure: above it, in its menu, in the files made of it. */
  readonly title: string;
  /** The title is for those who do not see it: the panel around says it. With a hand of its own, the menu lies in a corner of the drawing. */
  readonly titleUnseen?: boolean;
  /** That corner, where it is not the upper one. */
  readonly corner?: "below";
  /** What can be read off and makes its table; null while nothing is drawn. */
  readonly shown?: Shown | null;
  /** Its table, where it is no plot. */
  readonly table?: (() => FigureTable | Promise<FigureTable>) | null;
  /** No read-out over it: the figure has a hand of its own, such as a slider. */
  readonly ownHand?: boolean;
  /** The figure as SVG text, where what stands in the page is a canvas. */
  readonly redrawn?: (() => string | Promise<string>) | null;
  /** Under the drawing: what its signs mean. */
  readonly caption?: ReactNode;
  /** What its ± are, or that there are none, where its kind alone does not tell it; a whole sentence. */
  readonly uncertain?: string;
  /** Made of the book: where that says its data are invented, so does what leaves. */
  readonly ofBook?: boolean;
  /** The drawing is of a size of its own, and is only made smaller. */
  readonly ownSize?: boolean;
  /** The drawing. */
  readonly children: ReactNode;
}

/** What stands around every figure of the bench: its title, the read-out under a hand, and how it is saved and sent. */
export function FigureFrame(props: FigureFrameProps) {
  const { title, shown = null, table = null, redrawn = null, ownHand = false } = props;
  const named = useId();
  const holds = useRef<HTMLDivElement>(null);
  const asTable = shown !== null ? async () => (await import("./table.ts")).tableOf(shown) : table;
  return (
    <figure className={styles.frame} aria-labelledby={named} data-figure={props.kind}>
      <div
        className={styles.head}
        data-bare={(props.titleUnseen === true && ownHand) || undefined}
        data-corner={props.corner}
      >
        <span id={named} className={props.titleUnseen === true ? "unseen" : styles.title}>
          {title}
        </span>
        <FigureMenu
          source={{
            ...{ title, kind: props.kind, uncertain: props.uncertain ?? null },
            ...{ table: asTable, redrawn, ofBook: props.ofBook === true },
          }}
          holds={holds}
        />
      </div>
      <div ref={holds} className={styles.holds} data-own-size={props.ownSize || undefined}>
        {props.children}
        {shown !== null && !ownHand && <ReadOut title={title} shown={shown} />}
      </div>
      {props.caption}
    </figure>
  );
}
