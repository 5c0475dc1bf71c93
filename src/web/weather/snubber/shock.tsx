import { memo, useMemo } from "react";
import type { Surge } from "../../../sea/index.ts";
import { formatQuantity } from "../../controls/numbers.ts";
import { useUnits } from "../../state/preferences.ts";
import { GalePanel } from "../gale/gale-panel.tsx";
import type { LoadInWind } from "../gear/gear-over-winds.tsx";
import { GearPanel } from "../gear/gear-panel.tsx";
import { pullAlong, type RoadLoad } from "../loads.ts";
import type { Road, WeatherState } from "../state.ts";
import { SnatchPanel } from "./snatch-panel.tsx";
import { SnubberPanel } from "./snubber-panel.tsx";
import { surgeAsked } from "./surge.ts";

/** What happens where catenary has ended: the snatch of a surge, and the snubber that takes it. */
export const Shock = memo(function Shock({
  state,
  road,
  load,
  peak,
  over,
  wind,
  sea,
}: {
  readonly state: WeatherState;
  readonly road: Road;
  readonly load: RoadLoad;
  readonly peak: RoadLoad | null;
  /** Loads along the road at a few winds. */
  readonly over: readonly LoadInWind[];
  /** m/s */
  readonly wind: number;
  readonly sea: Surge | null;
}) {
  const { rig, boat, surge: asked, snubber, gear, around } = state;
  const { unitOf } = useUnits();
  const surge = useMemo(() => surgeAsked({ surge: asked, boat, around, rig }), [asked, boat, around, rig]);
  const steady = pullAlong(road, load.value);
  const windText = `in ${formatQuantity(wind, "speed", { unit: unitOf("wind", "speed", "kn"), digits: 3 })}`;
  return (
    <>
      <GalePanel state={state} wind={wind} />
      <SnatchPanel
        rig={rig}
        boat={boat}
        load={steady}
        loadU={load.u}
        asked={asked}
        surge={surge}
        sea={sea}
        windText={windText}
      />
      {surge !== null && (
        <SnubberPanel
          rig={rig}
          boat={boat}
          load={steady}
          loadU={load.u}
          surge={surge}
          snubber={snubber}
          windText={windText}
        />
      )}
      <GearPanel
        gear={gear}
        rig={rig}
        snubber={snubber}
        at={steady.at}
        mean={load}
        peak={peak}
        surge={surge}
        over={over}
        windText={windText.replace("in ", "In ")}
      />
    </>
  );
});
