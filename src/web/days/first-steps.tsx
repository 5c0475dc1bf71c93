import { Button } from "../controls/button.tsx";
import { Panel } from "../controls/panel.tsx";
import { addWords, type Formed } from "./kinds.ts";
import styles from "./place.module.css";
import { go } from "./state.ts";

const firstSteps: readonly { readonly kind: Formed; readonly says: string }[] = [
  { kind: "site", says: "where you pull: a name and a position" },
  { kind: "anchor", says: "what you pull: its shape, mass and fluke area" },
  { kind: "day", says: "when, in what weather, and who was there" },
  { kind: "pull", says: "one pull: rig, depth, scope, and what it came to" },
];

/** What a new book begins with. */
export function FirstSteps() {
  return (
    <Panel title="A new book">
      <p className={styles.quiet}>
        A pull stands on its own; site, anchor and day can be told now or later. All of it works without a network.
      </p>
      <ul className={styles.steps}>
        {firstSteps.map(({ kind, says }) => (
          <li key={kind}>
            <Button
              look={kind === "site" ? "strong" : "plain"}
              onClick={() => go({ page: "form", kind, id: null, about: null })}
            >
              {addWords(kind)}
            </Button>
            <span className={styles.quiet}>{says}</span>
          </li>
        ))}
      </ul>
    </Panel>
  );
}
