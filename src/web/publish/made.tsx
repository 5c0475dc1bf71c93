import { useState } from "react";
import { pageHtml } from "../../publish/index.ts";
import { OutOfReach, reportPdf } from "../api/client.ts";
import { announce } from "../controls/announce.ts";
import { Button } from "../controls/button.tsx";
import { FoldingPanel } from "../controls/panel.tsx";
import { fileName, saveFile } from "../controls/save-file.ts";
import { ViewerPage } from "../viewer/viewer-page.tsx";
import "../viewer/viewer.css";
import { faultOf } from "../work/fault.ts";
import styles from "./place.module.css";
import { ReportPreview } from "./report-preview.tsx";
import type { Outgoing } from "./work.ts";

/** What was made: each to be looked at as others will see it, and saved. */
export function Made({ made, by }: { readonly made: Outgoing; readonly by: string }) {
  const { page, report, archive, files, channelsLeftOut, title } = made;
  const name = fileName(title) || "anchors";
  const [trouble, setTrouble] = useState<string | null>(null);
  const [writing, setWriting] = useState(false);
  const [pdfTrouble, setPdfTrouble] = useState<string | null>(null);
  const savePage = async (): Promise<void> => {
    try {
      const answer = await fetch("/viewer-page.html");
      if (!answer.ok) throw new Error(`the bench answered ${answer.status}`);
      saveFile(pageHtml(await answer.text(), page!), "text/html", `${name}-page.html`);
      setTrouble(null);
      announce("the page is saved");
    } catch (error) {
      setTrouble(`the page cannot be made: ${error instanceof Error ? error.message : String(error)}`);
    }
  };
  const savePdf = async (): Promise<void> => {
    setWriting(true);
    try {
      const answer = await reportPdf.$post({ json: { html: report, by } });
      saveFile(await answer.blob(), "application/pdf", `${name}-report.pdf`);
      setPdfTrouble(null);
      announce("the report is saved as PDF");
    } catch (error) {
      setPdfTrouble(
        error instanceof OutOfReach
          ? `A PDF is written by the book's computer, and ${error.message}: print the report from the browser instead.`
          : faultOf(error).line,
      );
    } finally {
      setWriting(false);
    }
  };
  return (
    <>
      <FoldingPanel
        name="publish page"
        open
        title="A page that computes for a viewer's own boat"
        beside={
          page !== null && (
            <Button look="strong" onClick={() => void savePage()}>
              Save the page
            </Button>
          )
        }
      >
        <p className={styles.quiet}>
          One file that works by itself, in a frame and offline, and sends nothing anywhere. It holds draws of what the
          anchors hold, and of each rig the hardest pull: no site, no day, no person.
        </p>
        {trouble !== null && (
          <p className={styles.wrong} role="alert">
            {trouble}
          </p>
        )}
        {page === null ? (
          <p>No pull has a rig, and the draws bear no conclusion: there is nothing to show.</p>
        ) : (
          <div className={styles.preview}>
            <ViewerPage content={page} preview />
          </div>
        )}
      </FoldingPanel>
      <FoldingPanel
        name="publish report"
        open={false}
        title="A report, to read and to print"
        beside={
          <span className={styles.buttons}>
            <Button onClick={() => saveFile(report, "text/html", `${name}-report.html`)}>Save the report</Button>
            <Button disabled={writing} onClick={() => void savePdf()}>
              Save it as PDF
            </Button>
          </span>
        }
      >
        <p className={styles.quiet}>
          One file; a browser prints it, to PDF too. The PDF saved here is tagged for screen readers and holds the
          pulls; the book's computer writes it, so that without a network there is none.
        </p>
        {pdfTrouble !== null && (
          <p className={styles.wrong} role="alert">
            {pdfTrouble}
          </p>
        )}
        <div className={styles.preview}>
          <ReportPreview html={report} />
        </div>
      </FoldingPanel>
      <FoldingPanel
        name="publish data"
        open={false}
        title="Open data"
        beside={
          <Button onClick={() => saveFile(new Blob([archive]), "application/zip", `${name}-data.zip`)}>
            Save the data
          </Button>
        }
      >
        <p className={styles.quiet}>
          A data package: unpacked, <code>rodebench publish check</code> works every number in it out again.
        </p>
        <ul className={styles.files}>
          {channelsLeftOut.length > 0 && (
            <li>left out of the logs, as they tell places to the metre: {channelsLeftOut.join(", ")}</li>
          )}
          {files.map(({ path, bytes }) => (
            <li key={path}>
              <code>{path}</code> {bytes} bytes
            </li>
          ))}
        </ul>
      </FoldingPanel>
    </>
  );
}
