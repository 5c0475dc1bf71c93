import type { RefObject } from "react";
import about from "../../../package.json" with { type: "json" };
import { figureCsv } from "../../figure/index.ts";
import { INVENTED } from "../../words/index.ts";
import { announce } from "../controls/announce.ts";
import { fileName, saveFile } from "../controls/save-file.ts";
import { bookCopy } from "../days/book-copy.ts";
import styles from "./figure-frame.module.css";
import type { FigureSource } from "./figure-source.ts";
import { asPicture, fromText, lettered, standAlone } from "./stand-alone.ts";
import { uncertainOf } from "./uncertain-of.ts";

/** What the menu of a figure offers; comes when it is first opened. */
export default function FigureChoices({
  title,
  kind,
  uncertain,
  holds,
  table,
  redrawn,
  ofBook,
  onDone,
  onSaid,
}: FigureSource & {
  readonly holds: RefObject<HTMLElement | null>;
  /** One was chosen. */
  readonly onDone: () => void;
  /** What has to be read: where the link went, or what went wrong. */
  readonly onSaid: (sentence: string) => void;
}) {
  const kept = (how: string): void => announce(`${title}: saved as ${how}`);
  const drawing = async () => {
    const said = [uncertain ?? uncertainOf[kind], `Made by rodebench ${about.version}.`];
    if (ofBook && bookCopy.get().simulated) said.push(INVENTED);
    return lettered(await drawn(), title, said.join(" "));
  };
  const drawn = async () => {
    if (redrawn !== null) return fromText(await redrawn());
    const svg = holds.current?.querySelector<SVGSVGElement>("svg:not([data-for-hand])");
    if (svg == null) throw new Error("no drawing stands here");
    return standAlone(svg, title);
  };
  const act = (work: () => Promise<void>) => (): void => {
    onDone();
    work().catch((error: unknown) =>
      onSaid(`It could not be saved: ${error instanceof Error ? error.message : String(error)}`),
    );
  };
  const saveDrawing = act(async () => {
    saveFile((await drawing()).svg, "image/svg+xml", `${fileName(title)}.svg`);
    kept("SVG");
  });
  const savePicture = act(async () => {
    saveFile(await asPicture(await drawing()), "image/png", `${fileName(title)}.png`);
    kept("PNG");
  });
  const saveTable = act(async () => {
    saveFile(figureCsv(await table!()), "text/csv", `${fileName(title)}.csv`);
    kept("CSV");
  });
  const copyLink = act(async () => {
    const address = location.href;
    try {
      await navigator.clipboard.writeText(address);
      onSaid("The link is copied.");
    } catch {
      // Not every browser lets a page without https write what is pasted.
      onSaid(address);
    }
  });
  return (
    <div className={styles.choices}>
      <button type="button" onClick={saveDrawing}>
        Save as SVG
      </button>
      <button type="button" onClick={savePicture}>
        Save as PNG
      </button>
      {table !== null && (
        <button type="button" onClick={saveTable}>
          Save as CSV
        </button>
      )}
      <button type="button" onClick={copyLink}>
        Copy the link
      </button>
    </div>
  );
}
