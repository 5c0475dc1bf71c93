import { useMemo, useState } from "react";
import type { WindPoint } from "../../holding/index.ts";
import { inUnit } from "../../quantity/index.ts";
import { sayChance, sayShares } from "../../words/index.ts";
import { FaultNote } from "../controls/fault-note.tsx";
import { formatQuantity, significant } from "../controls/numbers.ts";
import { Scroll } from "../controls/scroll.tsx";
import { useSize } from "../controls/use-size.ts";
import { DrawnFigure } from "../figure/drawn-figure.tsx";
import { useUnits } from "../state/preferences.ts";
import { type Question, useNewest } from "../work/worker.ts";
import type { Curves, CurvesAsked } from "./curves.ts";
import styles from "./place.module.css";
import type { InquiryAnswer } from "./work.ts";

/** How holding falls with the angle, and how likely the load of a wind stays below it; `of` tells several apart. */
export function CurvesPanel({
  concluded,
  of,
}: {
  readonly concluded: NonNullable<InquiryAnswer["concluded"]>;
  readonly of: string;
}) {
  const { system } = useUnits();
  const [ref, { width }] = useSize<HTMLDivElement>();
  const [chosen, setChosen] = useState<string | null>(null);
  const { angleCurves, angles, inWind, holds } = concluded;
  const anchor = chosen ?? holds[0]?.anchor ?? "";
  const drawnAt = Math.round(width / 20) * 20;
  const asked = useMemo(
    (): CurvesAsked => ({
      angleCurves: angleCurves ?? [],
      angles: angles ?? null,
      inWind: inWind?.anchors ?? [],
      anchor,
      units: system,
      width: drawnAt,
    }),
    [angleCurves, angles, inWind, anchor, system, drawnAt],
  );
  const ask = useMemo(
    () => (drawnAt === 0 ? null : (((work) => work.holdingCurves(asked)) satisfies Question<Curves>)),
    [asked, drawnAt],
  );
  const drawn = useNewest(ask);
  const points = inWind?.anchors.find((one) => one.anchor === anchor)?.points ?? [];
  if (angleCurves === undefined && inWind === undefined) return null;
  return (
    <div ref={ref} className={styles.place}>
      <FaultNote of={drawn} what="the curves" />
      <label className={styles.field}>
        <span>anchor whose band is drawn{of}</span>
        <select className={styles.select} value={anchor} onChange={(event) => setChosen(event.target.value)}>
          {holds.map((one) => (
            <option key={one.anchor}>{one.anchor}</option>
          ))}
        </select>
      </label>
      {drawn.answer?.angle != null && (
        <section aria-label={`Over the angle${of}`}>
          <DrawnFigure kind="holding" ofBook figure={drawn.answer.angle} />
        </section>
      )}
      {inWind !== undefined && (
        <>
          <h3>
            In a wind: {inWind.boat} on {inWind.rig}
          </h3>
          <p className={styles.quiet}>
            The boat of Weather on the rode of Rig as they were when this was worked out. How likely the largest load of
            a wind stays below what the anchor holds at the angle of that load, over pulls at a site and day not pulled
            at yet; the band is what is not known. One night is not one load.
            {angleCurves?.length === 0 ? " The angle is no term of these fits: its effect is not in this." : ""}
          </p>
          {drawn.answer?.wind != null && (
            <section aria-label={`Over the wind${of}`}>
              <DrawnFigure kind="chance" ofBook figure={drawn.answer.wind} />
            </section>
          )}
          <Scroll name={`Chances in a wind${of}`}>
            <table className={styles.table}>
              <caption>{anchor}: chance that the largest load stays below what it holds</caption>
              <thead>
                <tr>
                  <th scope="col">wind</th>
                  <th scope="col">peak load</th>
                  <th scope="col">at the anchor</th>
                  <th scope="col">stays below, 95 % band</th>
                  <th scope="col">the band comes of</th>
                </tr>
              </thead>
              <tbody>
                {points
                  .filter((_, k) => k % 2 === 0)
                  .map((point) => (
                    <WindRow key={point.wind} point={point} />
                  ))}
              </tbody>
            </table>
          </Scroll>
          {points.some((point) => point.kind === "chance" && point.beyondAngles) && (
            <p className={styles.quiet}>* beyond the angles pulled at: drawn on, not seen.</p>
          )}
        </>
      )}
    </div>
  );
}

function WindRow({ point }: { readonly point: WindPoint }) {
  const { system } = useUnits();
  const load = (value: number, u?: number): string =>
    formatQuantity(value, "force", { system, ...(u === undefined || u === 0 ? { digits: 3 } : { u }) });
  const wind = `${significant(inUnit(point.wind, "kn", "speed"), 3)} kn`;
  if (point.kind !== "chance") {
    return (
      <tr>
        <th scope="row">{wind}</th>
        <td colSpan={4}>{point.kind === "noLoad" ? "no load is known for it" : "the rode has no equilibrium in it"}</td>
      </tr>
    );
  }
  const { peak, anchorLoad, anchorAngle, chance, low, high, shares, beyondAngles } = point;
  return (
    <tr>
      <th scope="row">{wind}</th>
      <td>{load(peak.value, peak.u)}</td>
      <td>
        {load(anchorLoad)} at {formatQuantity(anchorAngle.value, "angle", { digits: 2 })}
        {beyondAngles ? "*" : ""}
      </td>
      <td>
        {sayChance(chance)} ({sayChance(low)} to {sayChance(high)})
      </td>
      <td>{sayShares(shares)}</td>
    </tr>
  );
}
