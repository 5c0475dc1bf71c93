import type { PullEvidence } from "../../study/index.ts";
import { PlaceLink } from "../controls/place-link.tsx";
import { Ways } from "../controls/ways.tsx";
import { setupCodec } from "../deck/address.ts";
import { usualSetup } from "../deck/setup-state.ts";
import { holdingCodec } from "../holding/address.ts";
import { usualHolding } from "../holding/state.ts";
import { rigCodec } from "../rig/address.ts";
import { rigStore } from "../rig/store.ts";
import { stringifySearch } from "../state/address.ts";

/** Where a pull goes on to: its rig as it lay, under its load; its anchor among the others; once more on deck. */
export function WaysOn({ evidence, anchor }: { readonly evidence: PullEvidence; readonly anchor: string | null }) {
  const { deployment, readAt, gaveWayBy, heldTo } = evidence;
  const carried = gaveWayBy ?? heldTo;
  const newtons = carried?.kind === "carried" ? carried[readAt].value : null;
  return (
    <Ways label="On with this pull">
      {deployment !== null && newtons !== null && newtons > 0 && (
        <PlaceLink
          to="/rig"
          search={stringifySearch(
            rigCodec.write({
              rig: deployment.rig,
              load: { at: readAt, newtons: Number(newtons.toPrecision(6)) },
              over: null,
            }),
          )}
        >
          Its rig, as it lay, in Rig
        </PlaceLink>
      )}
      {anchor !== null && (
        <PlaceLink to="/holding" search={stringifySearch(holdingCodec.write({ ...usualHolding, anchors: [anchor] }))}>
          {anchor} in Holding
        </PlaceLink>
      )}
      {deployment !== null && deployment.rig.setting.medium === "water" && (
        <PlaceLink
          to="/deck"
          search={stringifySearch(
            setupCodec.write({
              ...usualSetup,
              anchor: anchor ?? "",
              depth: deployment.rig.setting.depth,
              paidOut: deployment.length.value,
            }),
          )}
          onClick={() =>
            rigStore.set((before) => ({ ...before, rig: deployment.rig }), { label: `rig ${deployment.rig.name}` })
          }
        >
          Once more on Deck
        </PlaceLink>
      )}
    </Ways>
  );
}
