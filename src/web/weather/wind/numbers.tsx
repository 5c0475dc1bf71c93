import { type Settled, workingLoadUsed } from "../../../rode/index.ts";
import { formatQuantity } from "../../controls/numbers.ts";
import { Reading } from "../../controls/reading.tsx";
import { Overloaded } from "../../rig/overloaded.tsx";
import { useUnits } from "../../state/preferences.ts";
import type { LoadsAt } from "../loads.ts";
import styles from "../place.module.css";
import type { RodeAt } from "./rode-view.tsx";

/** Loads and rode in the wind that is shown. */
export function Numbers({
  now,
  mean,
  peak,
}: {
  readonly now: LoadsAt;
  readonly mean: RodeAt | null;
  readonly peak: RodeAt | null;
}) {
  const { system, unitOf } = useUnits();
  const { weather } = now;
  const band = ({ low, high }: { low: number; high: number }) => {
    const unit = unitOf("load", "force");
    const text = (value: number) => formatQuantity(value, "force", { system, unit, digits: 2 });
    return `95 %: ${text(low)} to ${text(high)}`;
  };
  const settled = mean !== null && "settled" in mean.answer ? mean.answer : null;
  const atPeak = peak !== null && "settled" in peak.answer ? peak.answer : null;
  const angle = (one: typeof settled) => (one === null ? null : one.settled.anchor.angleToBottom);
  const between = (
    one: RodeAt | null,
    dimension: "angle" | "length",
    field: string,
    of: (settled: Settled) => number,
  ): string | undefined => {
    const [low, high] = one?.ends ?? [null, null];
    if (low === null || high === null) return undefined;
    const [from, to] = [of(low), of(high)]
      .sort((a, b) => a - b)
      .map((value) => formatQuantity(value, dimension, { system, unit: unitOf(field, dimension), digits: 2 }));
    return from === to ? undefined : `95 %: ${from} to ${to}`;
  };
  const angleNote = (one: RodeAt | null): string | undefined =>
    between(one, "angle", "angle", ({ anchor }) => anchor.angleToBottom) ??
    (one !== null && "settled" in one.answer && one.answer.settled.anchor.angleToBottom <= 0
      ? "not lifted"
      : undefined);
  const used = atPeak ?? settled;
  const share = used === null ? null : workingLoadUsed(used.rig, used.loads);
  return (
    <>
      <Overloaded drawn={used} when={used === atPeak && peak !== null ? "At the peak" : "At the mean load"} />
      <dl className={styles.numbers}>
        {weather.measured.map((own) => (
          <Reading
            key={own.at}
            name={`mean load, own points (${own.at})`}
            field="load"
            dimension="force"
            value={own.mean.value}
            u={own.mean.u}
            kind="measured"
            big
            note={band(own.mean)}
          />
        ))}
        {weather.measured.map(
          (own) =>
            own.peak !== undefined && (
              <Reading
                key={own.at}
                name={`brief peaks, own points (${own.at})`}
                field="load"
                dimension="force"
                value={own.peak.value}
                u={own.peak.u}
                kind="measured"
                big
                note={band(own.peak)}
              />
            ),
        )}
        {weather.windage !== undefined && (
          <Reading
            name="steady load, windage"
            field="load"
            dimension="force"
            value={weather.windage.steady.value}
            u={weather.windage.steady.u}
            big
            note={band(weather.windage.steady)}
          />
        )}
        {weather.windage?.gust !== undefined && (
          <Reading
            name="in the gust, windage"
            field="load"
            dimension="force"
            value={weather.windage.gust.value}
            u={weather.windage.gust.u}
            big
            note={`gust of ${formatQuantity(weather.gust!.speed, "speed", { system, unit: unitOf("wind", "speed", "kn"), digits: 3 })}`}
          />
        )}
        <Reading
          name="angle at the anchor, mean"
          field="angle"
          dimension="angle"
          value={angle(settled)}
          digits={2}
          note={angleNote(mean)}
        />
        {peak !== null && (
          <Reading
            name="angle at the anchor, peak"
            field="angle"
            dimension="angle"
            value={angle(atPeak)}
            digits={2}
            note={angleNote(peak)}
          />
        )}
        <Reading
          name="on the bottom, mean"
          field="length"
          dimension="length"
          value={settled?.settled.grounded ?? null}
          note={between(mean, "length", "length", (one) => one.grounded)}
        />
        {share !== null && (
          <Reading
            name={`of the lowest working load limit, ${atPeak === null ? "mean" : "peak"}`}
            field="share"
            dimension="ratio"
            value={share}
            digits={2}
          />
        )}
      </dl>
    </>
  );
}
