import type { Between } from "../../holding/index.ts";
import { inUnit, unitFor } from "../../quantity/index.ts";
import { sayChance, sayPriors } from "../../words/index.ts";
import { byDecimal } from "../controls/by-decimal.tsx";
import { formatQuantity, roundToUncertainty, significant, withMinus } from "../controls/numbers.ts";
import { Scroll } from "../controls/scroll.tsx";
import { useUnits } from "../state/preferences.ts";
import { asSentence } from "./as-sentence.ts";
import { CurvesPanel } from "./curves-panel.tsx";
import styles from "./place.module.css";
import type { InquiryAnswer } from "./work.ts";

/** Everything an inquiry answered; `of` tells several on one page apart. */
export function Answer({ answer, of = "" }: { readonly answer: InquiryAnswer; readonly of?: string }) {
  const { system } = useUnits();
  const { concluded, sentences } = answer;
  const unit = unitFor("force", system);
  const load = ({ middle, low, high }: Between): string => {
    const u = inUnit((high - low) / 4, unit, "force");
    const to = (value: number): string => roundToUncertainty(inUnit(value, unit, "force"), u).value;
    return `${to(middle)} (${to(low)} to ${to(high)})`;
  };
  const ratioText = ({ middle, low, high }: Between): string =>
    `${significant(middle, 2)} (${significant(low, 2)} to ${significant(high, 2)})`;
  const per = (ratio: Between | undefined): string => (ratio === undefined ? "–" : ratioText(ratio));
  const size = (mass: Between | undefined): string => {
    if (mass === undefined) return "–";
    const to = (value: number): string => formatQuantity(value, "mass", { system, digits: 2 });
    return `${to(mass.middle)} (${to(mass.low)} to ${to(mass.high)})`;
  };
  const hasArea = concluded?.holds.some(({ perFlukeArea }) => perFlukeArea !== undefined) === true;
  const hasSize = concluded?.holds.some(({ sizeFor }) => sizeFor !== undefined) === true;
  const holds = concluded?.holds ?? [];
  const medians = byDecimal(holds.map(({ median }) => load(median)));
  const perKilogram = byDecimal(holds.map((one) => per(one.perKilogram)));
  const perArea = byDecimal(holds.map((one) => per(one.perFlukeArea)));
  const sizes = byDecimal(holds.map(({ sizeFor }) => size(sizeFor)));
  const chances = holds[0]?.chances.map((_, i) => byDecimal(holds.map((one) => load(one.chances[i]!)))) ?? [];
  const ratios = byDecimal(concluded?.pairs.map(({ ratio }) => ratioText(ratio)) ?? []);
  return (
    <>
      {sentences.length > 1 && (
        <ul className={styles.sentences}>
          {sentences.slice(1, 13).map((sentence) => (
            <li key={sentence}>{asSentence(sentence)}</li>
          ))}
          {sentences.length > 13 && <li>… and {sentences.length - 13} more</li>}
        </ul>
      )}
      {concluded !== null && (
        <>
          <Scroll name={`What each holds${of}`}>
            <table className={styles.table}>
              <caption>
                Load held at a site and day not pulled at yet, {unit}, 95 % limits
                {concluded.conditions.anchorAngle === undefined
                  ? ""
                  : `; angle ${formatQuantity(concluded.conditions.anchorAngle, "angle", { digits: 2 })} at the anchor`}
                {concluded.conditions.seabed === undefined ? "" : `; ${concluded.conditions.seabed}`}
              </caption>
              <thead>
                <tr>
                  <th scope="col">anchor</th>
                  <th scope="col">half hold</th>
                  {concluded.holds[0]?.chances.map(({ chance }) => (
                    <th scope="col" key={chance}>
                      {Math.round(1000 * chance) / 10} % hold
                    </th>
                  ))}
                  <th scope="col">N per kg</th>
                  {hasArea && <th scope="col">N per m² of fluke</th>}
                  {hasSize && <th scope="col">size for the load</th>}
                  {concluded.sensitivity.map(({ times }) => (
                    <th scope="col" key={times}>
                      half hold, priors {times < 1 ? "halved" : "doubled"}
                    </th>
                  ))}
                  <th scope="col">best</th>
                </tr>
              </thead>
              <tbody>
                {concluded.holds.map((one, k) => (
                  <tr key={one.anchor}>
                    <th scope="row">{one.anchor}</th>
                    <td>{medians(load(one.median))}</td>
                    {one.chances.map((chance, i) => (
                      <td key={chance.chance}>{chances[i]!(load(chance))}</td>
                    ))}
                    <td>{perKilogram(per(one.perKilogram))}</td>
                    {hasArea && <td>{perArea(per(one.perFlukeArea))}</td>}
                    {hasSize && <td>{sizes(size(one.sizeFor))}</td>}
                    {concluded.sensitivity.map(({ times, holds }) => (
                      <td key={times}>{load(holds[k]!.median)}</td>
                    ))}
                    <td>{sayChance(one.ranks[0] ?? 1)}</td>
                  </tr>
                ))}
              </tbody>
            </table>
          </Scroll>
          {concluded.pairs.length > 0 && (
            <Scroll name={`Pairs${of}`}>
              <table className={styles.table}>
                <caption>Chance that the first holds more</caption>
                <thead>
                  <tr>
                    <th scope="col">pair</th>
                    <th scope="col">in the mean</th>
                    <th scope="col">in one pull</th>
                    <th scope="col">times as much</th>
                    <th scope="col">priors halved</th>
                    <th scope="col">doubled</th>
                  </tr>
                </thead>
                <tbody>
                  {concluded.pairs.slice(0, 60).map(({ first, second, moreInTheMean, moreInOnePull, ratio }, k) => (
                    <tr key={`${first} ${second}`}>
                      <th scope="row">
                        {first}, {second}
                      </th>
                      <td>{sayChance(moreInTheMean)}</td>
                      <td>{sayChance(moreInOnePull)}</td>
                      <td>{ratios(ratioText(ratio))}</td>
                      {concluded.sensitivity.map(({ times, pairs }) => (
                        <td key={times}>{sayChance(pairs[k]!.moreInTheMean)}</td>
                      ))}
                    </tr>
                  ))}
                </tbody>
              </table>
            </Scroll>
          )}
          {concluded.angle !== null && (
            <p>
              Each degree at the anchor changes holding by {perCent(concluded.angle.mean)} % (95 %:{" "}
              {perCent(concluded.angle.low)} to {perCent(concluded.angle.high)} %).
            </p>
          )}
          <CurvesPanel concluded={concluded} of={of} />
          <p className={styles.quiet}>
            {concluded.draws} draws, {concluded.law} law, R-hat at most {concluded.rHat.toFixed(3)}, at least{" "}
            {Math.round(concluded.effective)} effective, {concluded.divergent} ran away.
            {concluded.priors === undefined
              ? ""
              : ` Believed before any pull: ${withMinus(sayPriors(concluded.priors, { testers: concluded.testers !== undefined && concluded.testers !== null }))}.`}
          </p>
        </>
      )}
    </>
  );
}

/** A change of a logarithm as one of its quantity, per cent. */
const perCent = (change: number): string => withMinus((100 * Math.expm1(change)).toFixed(1));
