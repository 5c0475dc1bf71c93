import { useMemo, useState } from "react";
import { type Hold, holdRulesOf } from "../../holding/index.ts";
import type { UnitSystem } from "../../quantity/index.ts";
import { countText, doubtLine, holdRulesLine, sayNotComparable } from "../../words/index.ts";
import { Button } from "../controls/button.tsx";
import { byDecimal } from "../controls/by-decimal.tsx";
import { formatQuantity, withMinus } from "../controls/numbers.ts";
import { Panel } from "../controls/panel.tsx";
import { PlaceLink } from "../controls/place-link.tsx";
import { recordSearch } from "../days/address.ts";
import { useUnits } from "../state/preferences.ts";
import { BESIDE, type BookPulls } from "./book-pulls.ts";
import { pullName } from "./concluded.tsx";
import { bringBack, type LeftOutByHand, leaveOut } from "./left-out.ts";
import styles from "./place.module.css";

/** Rows shown at once: a hundred thousand stay as smooth as fifty. */
const PAGE = 50;

/** The pulls one by one, each of which can be left out with a reason. */
export function PullList({
  book,
  chosen,
  byHand,
}: {
  readonly book: BookPulls;
  readonly chosen: readonly number[];
  readonly byHand: readonly LeftOutByHand[];
}) {
  const { system } = useUnits();
  const [page, setPage] = useState(0);
  const [asked, setAsked] = useState<string | null>(null);
  const [why, setWhy] = useState("");
  const [wrong, setWrong] = useState<string | null>(null);
  const pages = Math.max(1, Math.ceil(chosen.length / PAGE));
  const at = Math.min(page, pages - 1);
  const shown = chosen.slice(at * PAGE, (at + 1) * PAGE);
  const rules = useMemo(
    () => holdRulesLine(holdRulesOf(chosen.map((i) => book.pulls[i]!)), system),
    [book, chosen, system],
  );
  const angleText = (i: number): string | null => {
    const angle = book.pulls[i]!.anchorAngle;
    return angle === undefined ? null : formatQuantity(angle, "angle", { digits: 2 });
  };
  const loads = byDecimal(shown.map((i) => saidHold(book.pulls[i]!.hold, system)[1]));
  const angles = byDecimal(shown.map(angleText));
  const place = new Map(byHand.length === 0 ? [] : book.ids.map((id, i) => [id, i]));

  const leave = async (i: number): Promise<void> => {
    const refused = await leaveOut(book.ids[i]!, pullName(book, i), why.trim());
    setWrong(refused);
    if (refused === null) setAsked(null);
  };

  return (
    <Panel title="One by one">
      {wrong !== null && (
        <p className={styles.wrong} role="alert">
          {wrong}
        </p>
      )}
      <ul className={styles.pulls}>
        {shown.map((i) => {
          const pull = book.pulls[i]!;
          const id = book.ids[i]!;
          const [said, load] = saidHold(pull.hold, system);
          const angle = angleText(i);
          return (
            <li key={id}>
              <span className={styles.pull}>
                {book.series[i] === BESIDE ? (
                  <strong>{pull.anchor}</strong>
                ) : (
                  <PlaceLink to="/days" search={recordSearch("pull", id)} title="Open the pull in Days">
                    <strong>{pull.anchor}</strong>
                  </PlaceLink>
                )}{" "}
                <span>{said}</span> <span>{loads(load)}</span>{" "}
                <span>{angle !== null && <>{angles(angle)} at the anchor</>}</span>{" "}
                <span>{[pull.seabed, pull.day].filter((text) => text !== undefined).join(", ")}</span>
              </span>
              {asked === id ? (
                <form
                  className={styles.buttons}
                  onSubmit={(event) => {
                    event.preventDefault();
                    void leave(i);
                  }}
                >
                  <label className={styles.field}>
                    <span>reason, kept in the book</span>
                    <input
                      className={styles.select}
                      type="text"
                      required
                      maxLength={500}
                      value={why}
                      onChange={(event) => setWhy(event.target.value)}
                    />
                  </label>
                  <Button type="submit" disabled={why.trim() === ""}>
                    Leave it out
                  </Button>
                  <Button onClick={() => setAsked(null)}>Not now</Button>
                </form>
              ) : book.series[i] === BESIDE ? (
                <span className={styles.quiet}>of {pull.tester}</span>
              ) : (
                <Button
                  aria-label={`Leave out ${pullName(book, i)}`}
                  onClick={() => {
                    setAsked(id);
                    setWhy("");
                  }}
                >
                  Leave out…
                </Button>
              )}
            </li>
          );
        })}
      </ul>
      {pages > 1 && (
        <div className={styles.buttons}>
          <Button disabled={at === 0} onClick={() => setPage(at - 1)}>
            Before
          </Button>
          <span>
            {at + 1} of {pages}
          </span>
          <Button disabled={at === pages - 1} onClick={() => setPage(at + 1)}>
            After
          </Button>
        </div>
      )}
      {byHand.length > 0 && (
        <>
          <h3>Left out by hand</h3>
          <ul className={styles.pulls}>
            {byHand.map((one) => {
              const i = place.get(one.pull);
              const name = i === undefined ? "a pull that is no longer in the book" : pullName(book, i);
              return (
                <li key={one.note}>
                  <span>
                    {name}: {one.why}
                  </span>
                  <Button aria-label={`Bring back ${name}`} onClick={() => void bringBack(one, name).then(setWrong)}>
                    Bring back
                  </Button>
                </li>
              );
            })}
          </ul>
        </>
      )}
      {rules !== null && <p>{rules}.</p>}
      {book.remarks.length > 0 && (
        <details>
          <summary>{countText(book.remarks.length, "pull has", "pulls have")} a clock to look at</summary>
          <ul>
            {book.remarks.map(({ pull, doubt }) => {
              const i = book.ids.indexOf(pull);
              return (
                <li key={pull}>
                  <PlaceLink to="/days" search={recordSearch("pull", pull)} title="Open the pull in Days">
                    {i < 0 ? "a pull without a result" : pullName(book, i)}
                  </PlaceLink>
                  : {withMinus(doubtLine(doubt, system))}
                </li>
              );
            })}
          </ul>
        </details>
      )}
      {book.leftOut.length > 0 && (
        <details>
          <summary>{book.leftOut.length} pulls say nothing that can be compared</summary>
          <ul>
            {[...new Set(book.leftOut.map(({ cause }) => cause))].map((cause) => (
              <li key={cause}>
                {book.leftOut.filter((one) => one.cause === cause).length}: {sayNotComparable(cause)}
              </li>
            ))}
          </ul>
        </details>
      )}
    </Panel>
  );
}

/** What it says, and the load it says it of. */
function saidHold(hold: Hold, system: UnitSystem): readonly [said: string, load: string] {
  const load = (newtons: number): string => formatQuantity(newtons, "force", { system, digits: 3 });
  switch (hold.kind) {
    case "gaveWay":
      return ["gave way at", load(hold.newtons)];
    case "heldTo":
      return ["held", load(hold.newtons)];
    case "neverHeld":
      return ["never held: dragged at", load(hold.newtons)];
    case "between":
      return [`held ${load(hold.heldTo)}, gave way by`, load(hold.gaveWayBy)];
  }
}
