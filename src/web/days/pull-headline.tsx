import { Reading } from "../controls/reading.tsx";
import type { RecordHere } from "./book-copy.ts";

const CAME_TO = { gaveWay: "gave way at", heldTo: "held at least", neverSet: "never set", none: "" } as const;

/** What a pull came to, before all else that is said of it. */
export function PullHeadline({ pull }: { readonly pull: RecordHere<"pull"> }) {
  const { result, loadAt } = pull;
  if (result === null || result === undefined || result.load_N === undefined) return null;
  return (
    <dl>
      <Reading
        big
        kind="measured"
        field="load"
        dimension="force"
        name={`${CAME_TO[result.kind]}${loadAt === null || loadAt === undefined ? "" : `, read at the ${loadAt}`}`}
        value={result.load_N}
        u={result.u_N}
      />
    </dl>
  );
}
