import { useMemo } from "react";
import { drawXy } from "../../figure/index.ts";
import type { PredictiveDraws } from "../../holding/index.ts";
import { chancesInWinds, type PageContent, type ViewerNumbers } from "../../publish/index.ts";
import { inUnit, KNOT, type UnitSystem } from "../../quantity/index.ts";
import type { Rig } from "../../rode/index.ts";
import type { Boat } from "../../sea/index.ts";
import { sayChance } from "../../words/index.ts";
import { useSize } from "../controls/use-size.ts";
import { answerText } from "./answer-text.tsx";

const WINDS = Array.from({ length: 11 }, (_, k) => (10 + 5 * k) * KNOT);

const sayBand = (low: number, high: number): string =>
  sayChance(low) === sayChance(high) ? sayChance(low) : `${sayChance(low)} to ${sayChance(high)}`;

interface Asked {
  readonly content: PageContent;
  readonly draws: PredictiveDraws;
  readonly boat: Boat;
  readonly rig: Rig;
  readonly numbers: ViewerNumbers;
  readonly units: UnitSystem;
}

/** The chance that the largest load of a wind stays below what an anchor of that shape holds, with its band. */
export function Chances({ content, draws, boat, rig, numbers, units }: Asked) {
  const holding = content.holding!;
  const { anchor, pulls, heldOn } = holding.anchors[numbers.anchor]!;
  const { mass } = numbers;
  const seabed = draws.seabeds[numbers.seabed];
  const points = useMemo(
    () =>
      chancesInWinds(content, draws, {
        boat,
        rig,
        winds: WINDS,
        anchor,
        mass,
        ...(seabed === undefined ? {} : { seabed }),
      }),
    [content, draws, boat, rig, anchor, mass, seabed],
  );
  const known = points.flatMap((point) => (point.kind === "chance" ? [point] : []));
  const [ref, { width }] = useSize<HTMLDivElement>();
  const drawn = useMemo(() => {
    if (known.length < 2 || width === 0) return null;
    const x = known.map((point) => inUnit(point.wind, "kn", "speed"));
    return drawXy({
      title: "Chance that your anchor holds the largest load of a wind",
      description: `${anchor} over the mean wind, with the band of 95 %`,
      x: { label: "mean wind at 10 m", unit: "kn" },
      y: { label: "chance it stays below", unit: "", from: 0, to: 1 },
      layers: [
        { kind: "band", x, low: known.map(({ low }) => low), high: known.map(({ high }) => high), role: "computed" },
        { kind: "line", x, y: known.map(({ chance }) => chance), role: "computed", label: anchor },
      ],
      width,
      height: 300,
    }).svg;
  }, [known, width, anchor]);
  return (
    <section className="panel" aria-labelledby="chance">
      <h2 id="chance">Chance of holding over the wind</h2>
      <p>
        How likely the largest load of a wind stays below what <bdi>{anchor}</bdi>
        {holding.hasMass && ` of ${answerText(mass, "mass", units)}`} holds at a place and on a day not pulled at yet
        {seabed !== undefined && (
          <>
            , on <bdi>{seabed}</bdi>
          </>
        )}
        . By {pulls} {pulls === 1 ? "pull" : "pulls"} of it ({heldOn} ended while it still held) among {holding.pulls}.
      </p>
      <div ref={ref} className="figure">
        {/* biome-ignore lint/security/noDangerouslySetInnerHtml: drawn by src/figure */}
        {drawn !== null && <div dangerouslySetInnerHTML={{ __html: drawn }} />}
      </div>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a table that scrolls is scrolled by keyboard too */}
      <section className="scrolls" tabIndex={0} aria-label="Chance of holding, wind by wind">
        <table>
          <thead>
            <tr>
              {["wind", "largest load", "at the anchor", "stays below", "95 %"].map((name) => (
                <th key={name} scope="col">
                  {name}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {points.map((point) => (
              <tr key={point.wind}>
                <th scope="row">{answerText(point.wind, "speed", units)}</th>
                {point.kind !== "chance" ? (
                  <td colSpan={4}>
                    {point.kind === "noLoad"
                      ? "no load is known for it"
                      : "no equilibrium: less load than what hangs at the bow, or too short a rode"}
                  </td>
                ) : (
                  <>
                    <td>{answerText(point.peak.value, "force", units, point.peak.u)}</td>
                    <td>
                      {answerText(point.anchorLoad, "force", units)} at{" "}
                      {answerText(point.anchorAngle.value, "angle", units)}
                      {point.beyondAngles && "*"}
                    </td>
                    <td>{sayChance(point.chance)}</td>
                    <td>{sayBand(point.low, point.high)}</td>
                  </>
                )}
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      {known.some(({ beyondAngles }) => beyondAngles) && holding.hasAngle && (
        <p className="quiet">* beyond the angles pulled at: the effect of the angle is drawn on, not seen</p>
      )}
      {!holding.hasAngle && (
        <p className="quiet">The pulls do not tell what the angle at the anchor does: it is not in this.</p>
      )}
      {!holding.hasMass && (
        <p className="quiet">The pulls do not tell what mass does: the chance is of anchors as pulled.</p>
      )}
    </section>
  );
}
