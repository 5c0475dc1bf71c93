import { useMemo } from "react";
import { drawRode } from "../../figure/index.ts";
import { catenaryEnds, GIVE_ASKED, liesInWind, liftsAt, type Setup } from "../../publish/index.ts";
import { formatQuantity, significant, type UnitSystem } from "../../quantity/index.ts";
import { type Rig, settle } from "../../rode/index.ts";
import type { Boat } from "../../sea/index.ts";
import { noEquilibriumLine } from "../../words/index.ts";
import { useSize } from "../controls/use-size.ts";
import { answerText, loadInWind, Row } from "./answer-text.tsx";

const FROM = {
  measuredPeaks: "by the peaks measured on her",
  windageGust: "by the 3-second gust of a published model on her windage",
  windageSteady: "by her windage in a steady wind",
} as const;

interface Asked {
  readonly boat: Boat;
  readonly rig: Rig;
  readonly wind: number;
  readonly setup: Setup | null;
  readonly units: UnitSystem;
}

/** The viewer's rode under the largest load of a wind, drawn, with where it lifts and where catenary ends. */
export function InYourWind({ boat, rig, wind, setup, units }: Asked) {
  const { peak, traced, certainty } = useMemo(() => liesInWind(boat, rig, wind), [boat, rig, wind]);
  const lifts = useMemo(() => liftsAt(boat, rig), [boat, rig]);
  const ends = useMemo(() => catenaryEnds(boat, rig), [boat, rig]);
  const test = useMemo(
    () => (setup === null ? null : settle(setup.rig, { at: setup.at, newtons: setup.load })),
    [setup],
  );
  const [ref, { width }] = useSize<HTMLDivElement>();
  const lies = traced !== null && "settled" in traced ? traced : null;
  const none = traced !== null && !("settled" in traced) ? traced : null;
  const drawn = useMemo(
    () =>
      lies === null || width === 0
        ? null
        : drawRode({ rig, traced: lies, certainty, units, width, title: "Your rode in that wind" }).svg,
    [lies, certainty, rig, units, width],
  );
  const anchor = lies?.settled.anchor;
  return (
    <section className="panel" aria-labelledby="wind">
      <h2 id="wind">
        <bdi>{boat.name}</bdi> in {answerText(wind, "speed", units)} of wind
      </h2>
      <dl aria-live="polite">
        <Row name="largest load">
          {peak === null
            ? "not known of this boat in any wind"
            : `${answerText(peak.value, "force", units, peak.u)} at the ${peak.at === "anchor" ? "anchor" : "bow"}${peak.at === "horizontal" ? ", level" : ""}, ${FROM[peak.from]}`}
        </Row>
        {none !== null && <Row name="your rode">{noEquilibriumLine(none, units)}</Row>}
        {anchor !== undefined && (
          <Row name="at your anchor">
            {answerText(anchor.tension, "force", units, certainty?.anchorTension)} at{" "}
            {anchor.angleToBottom <= 0
              ? "0°: it is pulled along the bottom"
              : `${answerText(anchor.angleToBottom, "angle", units, certainty?.angleToBottom)} above the bottom`}
          </Row>
        )}
        {anchor !== undefined && test?.kind === "settled" && (
          <Row name="share of the load in the test">
            {formatQuantity(anchor.tension / test.anchor.tension, "ratio", {
              unit: "%",
              u: (certainty?.anchorTension ?? 0) / test.anchor.tension,
            })}{" "}
            of what the test put on its anchor
          </Row>
        )}
        <Row name="your anchor end begins to rise at">
          {lifts.kind === "load" ? loadInWind(lifts, units) : noEquilibriumLine(lifts, units)}
        </Row>
        <Row name="catenary ends at">
          {ends.kind === "load"
            ? `${loadInWind(ends, units)}; beyond it another kilonewton draws less than ${formatQuantity(GIVE_ASKED * 1000, "length", { unit: units === "us" ? "in" : "cm", digits: 2 })} out of its sag`
            : ends.kind === "noEquilibrium"
              ? noEquilibriumLine(ends, units)
              : ends.kind === "alwaysEnough"
                ? "no load looked at"
                : `no load: its weight gives less than ${significant(GIVE_ASKED * 1e5, 2)} cm a kilonewton at any`}
        </Row>
      </dl>
      <div ref={ref} className="figure">
        {/* Our own SVG: every text in it is escaped where it is drawn. */}
        {/* biome-ignore lint/security/noDangerouslySetInnerHtml: drawn by src/figure */}
        {drawn !== null && <div dangerouslySetInnerHTML={{ __html: drawn }} />}
      </div>
    </section>
  );
}
