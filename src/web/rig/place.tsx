import { useMemo } from "react";
import { settleTraced } from "../../rode/index.ts";
import { Panel } from "../show/panel.tsx";
import { Reading } from "../show/reading.tsx";
import { useAddress } from "../state/address.ts";
import { useUndoable } from "../state/undoable.ts";
import { useStore } from "../state/use-store.ts";
import { inWorker, useNewest } from "../work/worker.ts";
import { rigCodec } from "./address.ts";
import { pullOf, rigDesk } from "./desk.ts";

export function Place() {
  useAddress(rigDesk, rigCodec);
  useUndoable(rigDesk);
  const state = useStore(rigDesk);
  const answer = useMemo(() => settleTraced(state.rig, pullOf(state)), [state]);
  const ask = useMemo(() => () => inWorker().certainty(state.rig, pullOf(state)), [state]);
  const sure = useNewest(ask);
  const settled = "settled" in answer ? answer.settled : null;
  return (
    <>
      <h1 className="unseen">Rig</h1>
      <Panel title="Now">
        <dl>
          <Reading
            name="angle at the anchor"
            dimension="angle"
            value={settled?.anchor.angle ?? null}
            u={sure?.anchorAngle}
            big
          />
          <Reading
            name="load at the anchor"
            dimension="force"
            value={settled?.anchor.tension ?? null}
            u={sure?.anchorTension}
            big
          />
        </dl>
      </Panel>
    </>
  );
}
