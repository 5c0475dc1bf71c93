import { useEffect, useMemo, useState } from "react";
import { useUnits } from "../../state/preferences.ts";
import type { Store } from "../../state/store.ts";
import { type Channel, shownIn } from "./channels.ts";
import { Stretches } from "./stretches.ts";
import { drawnOf } from "./view-bytes.ts";
import type { Window } from "./window.ts";

const POINTS_PER_PIXEL = 1.5;

/** The channels drawn one below the other, each in its unit, with what has been fetched of them. */
export function useLanes(about: {
  readonly log: string;
  readonly rows: number;
  readonly shown: readonly Channel[];
  readonly view: Store<Window>;
  readonly whole: Window;
  readonly width: number;
  readonly onTrouble: (line: string | null) => void;
}) {
  const { log, rows, shown, view, whole, width, onTrouble } = about;
  const { unitOf } = useUnits();
  const [drawn, setDrawn] = useState(0);

  const namesText = shown.map(({ name }) => name).join(",");
  const stretches = useMemo(() => {
    const made: Stretches = new Stretches(log, { whole, rows }, namesText.split(","), (line) => {
      onTrouble(line);
      setDrawn((n) => n + 1);
    });
    return made;
  }, [log, rows, whole, namesText, onTrouble]);
  useEffect(() => {
    const want = () => stretches.want(view.get(), Math.max(300, Math.ceil(POINTS_PER_PIXEL * width)));
    want();
    const leave = view.subscribe(want);
    return leave;
  }, [stretches, view, width]);
  useEffect(() => () => stretches.close(), [stretches]);

  // biome-ignore lint/correctness/useExhaustiveDependencies: what is left out is read anew when it is needed
  const lanes = useMemo(
    () =>
      shown.map((channel, i) => {
        const { unit, factor } = shownIn(channel, unitOf);
        return {
          channel,
          lane: {
            channel: channel.name,
            label: `${channel.name}, ${unit}`,
            shown: { name: channel.name, unit },
            factor,
            height: (i === 0 ? 300 : 120) + (i === shown.length - 1 ? 26 : 0),
            kind: i === 0 ? ("measured" as const) : ("other" as const),
            timed: i === shown.length - 1,
          },
        };
      }),
    [namesText, shown.map((channel) => shownIn(channel, unitOf).unit).join()],
  );
  // biome-ignore lint/correctness/useExhaustiveDependencies: drawn counts what has come
  const data = useMemo(
    () => lanes.map(({ lane }) => drawnOf(stretches.coarse, stretches.fine, lane.channel, lane.factor)),
    [lanes, stretches, drawn],
  );
  // biome-ignore lint/correctness/useExhaustiveDependencies: drawn counts what has come
  const ranges = useMemo(
    () => lanes.map(({ lane }) => rangeOf(drawnOf(stretches.coarse, null, lane.channel, lane.factor))),
    [lanes, stretches, drawn],
  );

  const outline = useMemo(
    () => drawnOf(stretches.coarse, null, lanes[0]!.lane.channel, lanes[0]!.lane.factor),
    [lanes, stretches.coarse],
  );

  return { lanes, data, ranges, outline, stretches, drawn };
}

/** Least and greatest of what is drawn, with a little room; zero is kept in view where it is near. */
function rangeOf(data: {
  min: readonly (number | null)[];
  max: readonly (number | null)[];
}): readonly [number, number] {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const value of data.min) if (value !== null && value < low) low = value;
  for (const value of data.max) if (value !== null && value > high) high = value;
  if (!(high >= low)) return [0, 1];
  if (low > 0 && low < 0.35 * high) low = 0;
  const room = 0.06 * Math.max(high - low, 1e-6 * Math.abs(high), 1e-9);
  return [low === 0 ? 0 : low - room, high + room];
}
