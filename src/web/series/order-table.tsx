import type { ReactNode } from "react";
import type { PlannedPull, Series, SeriesPlan } from "../../series/index.ts";
import {
  againstLine,
  clockText,
  countText,
  degreesText,
  durationText,
  engineText,
  planHoldLines,
  pullWarningLine,
} from "../../words/index.ts";
import { byDecimal } from "../controls/by-decimal.tsx";
import { formatQuantity } from "../controls/numbers.ts";
import { PlaceLink } from "../controls/place-link.tsx";
import { Scroll } from "../controls/scroll.tsx";
import { setupCodec } from "../deck/address.ts";
import { setupPlanned } from "../deck/planned-setup.ts";
import { useUnits } from "../state/preferences.ts";
import styles from "./place.module.css";

/** Each pull at its hour, with what to lay out and what to know; a touch takes it to the deck. */
export function OrderTable({ plan }: { readonly plan: SeriesPlan }) {
  const { series, pulls, withoutHour, time } = plan;
  if (series.days.length === 0)
    return (
      <>
        <p>No days are given, so no pull has its hour.</p>
        <Rule series={series} />
      </>
    );
  const angles = byDecimal(pulls.map(({ angle }) => degreesText(angle)));
  return (
    <>
      <p>
        {countText(pulls.length, "pull", "pulls")} in {durationText(time)}, by seed {series.seed}.
        {withoutHour === 0 ? "" : ` ${countText(withoutHour, "pull has", "pulls have")} no hour left on these days.`}
      </p>
      <Rule series={series} />
      <Scroll name="Order of pulls by hour" className={styles.scroll}>
        <table className={styles.table}>
          <thead>
            <tr>
              {["code", "at", "anchor", "angle", "lay out", "to"].map((head) => (
                <th key={head} scope="col">
                  {head}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {pulls.map((pull) => (
              <Row key={pull.code} plan={plan} pull={pull} angles={angles} />
            ))}
          </tbody>
        </table>
      </Scroll>
    </>
  );
}

/** When a load of these pulls counts as held. */
function Rule({ series }: { readonly series: Series }) {
  const { system } = useUnits();
  return <p>{planHoldLines(series, system).join(" ")}</p>;
}

function Row({
  plan: { series },
  pull,
  angles,
}: {
  readonly plan: SeriesPlan;
  readonly pull: PlannedPull;
  /** Writes an angle of the column. */
  readonly angles: (text: string) => ReactNode;
}) {
  const { system } = useUnits();
  const length = (metres: number) => formatQuantity(metres, "length", { system, digits: 3 });
  const force = (newtons: number) => formatQuantity(newtons, "force", { system, digits: 3 });
  const { how } = pull;
  const last = how.kind === "had" ? how.loads.at(-1) : undefined;
  const known = knownOf(pull, system);
  const row = (
    <tr className={known.length === 0 ? undefined : styles.open}>
      <th scope="row" className={styles.code}>
        {how.kind === "had" ? (
          <PlaceLink
            to="/deck"
            search={`?${new URLSearchParams(setupCodec.write(setupPlanned(pull, series)!))}`}
            title="Take it to the deck"
          >
            {pull.code}
          </PlaceLink>
        ) : (
          pull.code
        )}
      </th>
      <td>
        {pull.day.date.slice(5)} {clockText(pull.at + pull.day.offset)}
      </td>
      <td>{pull.anchor}</td>
      <td>{angles(degreesText(pull.angle))}</td>
      <td>
        {how.kind === "had"
          ? `${how.at.rode}, ${length(how.at.length)} in ${length(how.at.depth)} (charted ${length(how.charted)})`
          : "cannot be had"}
      </td>
      <td>
        {last === undefined ? "–" : `${force(last.load)}${last.speed === null ? "" : `, ${engineText(last.speed)}`}`}
      </td>
    </tr>
  );
  if (known.length === 0) return row;
  return (
    <>
      {row}
      <tr className={styles.known}>
        <td />
        <td colSpan={5}>{known.join("; ")}</td>
      </tr>
    </>
  );
}

function knownOf({ how }: PlannedPull, system: "metric" | "us"): string[] {
  if (how.kind === "had") return how.warnings.map((one) => pullWarningLine(one, system));
  if (how.kind === "levelNotTold") return ["the tide is not told at that hour"];
  return [
    ...how.against.map((one) => againstLine(one, system)),
    ...(how.byTide ? ["at another level of the water it can be had"] : []),
  ];
}
