import { AREA_U_OF_SIZES, OF_A_VIEWER, type PageContent } from "../../publish/index.ts";
import { formatQuantity } from "../../quantity/index.ts";

const percent = (share: number): string => `${Math.round(100 * share)} %`;

/** What the page takes for granted, and what it cannot know. */
export function NotKnown({ content }: { readonly content: PageContent }) {
  return (
    <section className="panel" aria-labelledby="unknown">
      <h2 id="unknown">What this page cannot know</h2>
      <ul className="list">
        <li>Your seabed: it may hold more or less than the ones pulled on, from one boat's length to the next.</li>
        <li>How well your anchor is set, and what is caught on it.</li>
        <li>
          How your boat sheers and surges, waves, current, and a wind that turns: the load is that of one gust, the rode
          at rest in it. The largest load of a night may be more.
        </li>
        <li>Worn, twisted or weak gear, and what your shackles, cleats and windlass bear.</li>
        {content.holding !== null && (
          <li>
            Whether a chance is enough: it is never more than an estimate from {content.holding.pulls} pulls, and of
            what was believed before them.
          </li>
        )}
      </ul>
      <h3>Taken for granted</h3>
      <ul className="list">
        <li>
          Standard uncertainties (±) of your rode: mass per length {percent(OF_A_VIEWER.massPerLength!)}, lengths{" "}
          {percent(OF_A_VIEWER.length!)}, height of your bow roller above the bottom{" "}
          {formatQuantity(OF_A_VIEWER.rise!, "length", { digits: 1 })}.
        </li>
        <li>A level bottom on which your chain holds nothing back; sea water, without current.</li>
        <li>
          A boat of your own is known by four sizes: her deckhouse and rigging are those such a boat usually has, her
          front area good to {percent(AREA_U_OF_SIZES)}.
        </li>
      </ul>
    </section>
  );
}
