import type { Cell, SeriesSite } from "../../series/index.ts";
import { againstLine, degreesText } from "../../words/index.ts";
import { byDecimal } from "../controls/by-decimal.tsx";
import { formatQuantity } from "../controls/numbers.ts";
import { useUnits } from "../state/preferences.ts";
import styles from "./place.module.css";

const WIDTH = 320;

/** In which water each angle can be had at each load: a bar over the depths, a ring where the depth moves the angle least. */
export function WaterPicture({ site, cells }: { readonly site: SeriesSite; readonly cells: readonly Cell[] }) {
  const { system } = useUnits();
  const length = (metres: number) => formatQuantity(metres, "length", { system, digits: 3 });
  const force = (newtons: number) => formatQuantity(newtons, "force", { system, digits: 3 });
  const angles = byDecimal(cells.map(({ angle }) => degreesText(angle)));
  const loads = byDecimal(cells.map(({ load }) => force(load)));
  const out = byDecimal(cells.map(({ had }) => had && length(had.length)));
  const bows = byDecimal(cells.map(({ had }) => had && force(had.bow)));
  const deepest = Math.max(site.depth.most, ...cells.map(({ depths }) => depths?.most ?? 0));
  const x = (depth: number) => (WIDTH * depth) / (deepest * 1.05);
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by keys
    <figure className={styles.figure} tabIndex={0}>
      <figcaption>
        {site.name}: water of 0 to {length(deepest)}. A bar is where an angle can be had, the ring where the depth moves
        it least.
      </figcaption>
      <table className={styles.table}>
        <thead>
          <tr>
            <th scope="col">angle</th>
            <th scope="col">load</th>
            <th scope="col">in water of</th>
            <th scope="col">out</th>
            <th scope="col">at the bow</th>
          </tr>
        </thead>
        <tbody>
          {cells.map(({ angle, load, had, depths, against }) => (
            <tr key={`${angle} ${load}`}>
              <th scope="row">{angles(degreesText(angle))}</th>
              <td>{loads(force(load))}</td>
              {had === null || depths === null ? (
                <td colSpan={3} className={styles.none}>
                  <strong>✕ none.</strong>{" "}
                  {against
                    .map(
                      ({ rode, against: why }) => `${rode}: ${why.map((one) => againstLine(one, system)).join("; ")}`,
                    )
                    .join(". ")}
                </td>
              ) : (
                <>
                  <td>
                    <svg
                      className={styles.bar}
                      viewBox={`0 0 ${WIDTH} 20`}
                      role="img"
                      aria-label={`${length(depths.least)} to ${length(depths.most)}`}
                    >
                      <path className={styles.axis} d={`M0 10H${WIDTH}`} />
                      <path className={styles.had} d={`M${x(depths.least)} 10H${x(depths.most) + 0.1}`} />
                      <circle className={styles.best} cx={x(had.depth)} cy={10} r={6} />
                    </svg>
                  </td>
                  <td>
                    {out(length(had.length))} <small>{had.rode}</small>
                  </td>
                  <td>{bows(force(had.bow))}</td>
                </>
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </figure>
  );
}
