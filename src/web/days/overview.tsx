import { useMemo } from "react";
import { Button } from "../controls/button.tsx";
import { useStore } from "../state/use-store.ts";
import { AddButtons } from "./add-buttons.tsx";
import { bookCopy, type RecordHere } from "./book-copy.ts";
import { DayList } from "./day-cards.tsx";
import { FindBar } from "./find-bar.tsx";
import { FirstSteps } from "./first-steps.tsx";
import { Heading } from "./heading.tsx";
import { HoldingChart } from "./holding-chart.tsx";
import styles from "./place.module.css";
import { holds, shelfCounts } from "./shelf-kinds.ts";
import { KindLists, LogList } from "./shelf-lists.tsx";
import { SiteMap } from "./site-map/site-map.tsx";
import { daysStore, go, shelves } from "./state.ts";

/** The book from above: the sites on their map, and what is on the chosen shelf. */
export function Overview() {
  const copy = useStore(bookCopy);
  const { shelf } = useStore(daysStore);
  const sites = useMemo(() => copy.records.site.filter(hasPlace), [copy]);
  const counts = shelfCounts(copy);
  const empty = shelves.every((one) => counts[one] === 0);
  const writable = !copy.readOnly;
  return (
    <>
      <Heading title={copy.title === "" ? "The book" : copy.title} line={copy.description}>
        {writable && <Button onClick={() => go({ page: "bring in", sent: null, pull: null })}>Bring in a log</Button>}
        {copy.via === "computer" && (
          <>
            <Button onClick={() => go({ page: "books" })}>Books</Button>
            <Button onClick={() => go({ page: "devices" })}>Devices</Button>
          </>
        )}
        {writable && !empty && (
          <Button look="strong" onClick={() => go({ page: "form", kind: "pull", id: null, about: null })}>
            Add a pull
          </Button>
        )}
      </Heading>
      {empty ? (
        <FirstSteps />
      ) : (
        <div className={styles.overview} data-map={sites.length > 0 || undefined}>
          <nav className={styles.shelves} aria-label="Shelves of the book">
            {shelves.map(
              (one) =>
                (counts[one] > 0 || one === shelf) && (
                  <button
                    key={one}
                    type="button"
                    aria-pressed={one === shelf}
                    onClick={() => daysStore.put({ ...daysStore.get(), shelf: one })}
                  >
                    {one} <span>{counts[one]}</span>
                  </button>
                ),
            )}
          </nav>
          {sites.length > 0 && (
            <div className={styles.map}>
              <SiteMap sites={sites} />
              <HoldingChart />
            </div>
          )}
          <div className={styles.list}>
            <FindBar />
            {writable && <AddButtons shelf={shelf} counts={counts} />}
            {shelf === "days" ? <DayList /> : shelf === "logs" ? <LogList /> : <KindLists kinds={holds[shelf].kinds} />}
          </div>
        </div>
      )}
    </>
  );
}

const hasPlace = (site: RecordHere<"site">) =>
  !site.hidden && typeof site.latitude_deg === "number" && typeof site.longitude_deg === "number";
