import { useCallback } from "react";
import { loadOf, type PullEvidence } from "../../study/index.ts";
import { FaultNote } from "../controls/fault-note.tsx";
import { Panel } from "../controls/panel.tsx";
import { useUnits } from "../state/preferences.ts";
import { useNewest } from "../work/worker.ts";
import type { RecordHere, Records } from "./book-copy.ts";
import { Carried, Doubts } from "./carried.tsx";
import { caseOf } from "./pull-case.ts";
import { recordOf } from "./record-text.ts";
import { WaysOn } from "./ways-on.tsx";
import { WhatTheseAre } from "./what-these-are.tsx";

/** What a pull's record says of its anchor, carried in the pull's own water; nothing where it has no result. */
export function PullEvidencePanel({ records, pull }: { readonly records: Records; readonly pull: RecordHere<"pull"> }) {
  const { system } = useUnits();
  const asked = useNewest<PullEvidence>(
    useCallback((work) => work.pullEvidence(caseOf(records, pull)), [records, pull]),
  );
  const evidence = asked.answer;
  const anchor = recordOf(records, "anchor", pull.anchor)?.name;
  if (asked.fault !== null) return <FaultNote of={asked} what="the load at the anchor" />;
  if (evidence === null || loadOf(evidence.verdict) === null) return null;
  return (
    <Panel title="At the anchor">
      <Carried evidence={evidence} />
      <Doubts doubts={evidence.doubts} units={system} />
      <WhatTheseAre evidence={evidence} />
      <WaysOn evidence={evidence} anchor={typeof anchor === "string" ? anchor : null} />
    </Panel>
  );
}
