import { useEffect, useState } from "react";
import type { PlannedPull } from "../../series/index.ts";
import { degreesText } from "../../words/index.ts";
import { Button } from "../controls/button.tsx";
import { seriesCodec } from "../series/address.ts";
import { seriesStore, usualSeries } from "../series/state.ts";
import { keptState } from "../state/device.ts";
import type { Fields } from "../state/fields.ts";
import { askWorker } from "../work/worker.ts";
import styles from "./place.module.css";
import { setupPlanned } from "./planned-setup.ts";
import type { Setup } from "./setup-state.ts";

/** The pull that a code on the sheet stands for, in the series this device keeps: a touch lays it out. */
export function Planned({ code, onTake }: { readonly code: string; readonly onTake: (setup: Setup) => void }) {
  const [found, setFound] = useState<{ readonly pull: PlannedPull; readonly hold: number } | "none" | null>(null);
  useEffect(() => {
    setFound(null);
    const signs = code.replace(/[\s-]/g, "");
    if (signs.length !== 5) return;
    let asked = true;
    askWorker((work) => work.pullOfCode(seriesText(), signs))
      .then((answer) => {
        if (asked) setFound(answer ?? "none");
      })
      .catch(() => {
        if (asked) setFound("none");
      });
    return () => {
      asked = false;
    };
  }, [code]);
  if (found === null) return null;
  if (found === "none")
    return (
      <p className={styles.quiet} role="status">
        {code.toUpperCase()} is no code of the series this device keeps: a sign is wrong, or it is of another series.
      </p>
    );
  const setup = setupPlanned(found.pull, found.hold);
  return (
    <div className={styles.lastLine}>
      <p role="status">
        {found.pull.code}: {found.pull.anchor} at {degreesText(found.pull.angle)}
        {setup === null ? ", which cannot be had" : ""}
      </p>
      {setup !== null && <Button onClick={() => onTake(setup)}>Lay out as planned</Button>}
    </div>
  );
}

/** As it stands in the place Series, or as this device kept it where that was not opened yet. */
function seriesText(): string {
  const now = seriesStore.get();
  if (now !== usualSeries) return now.text;
  const kept = keptState(seriesCodec.name);
  const read = typeof kept === "object" && kept !== null ? seriesCodec.read(kept as Fields) : null;
  return read?.kind === "read" ? read.state.text : now.text;
}
