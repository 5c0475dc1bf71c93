import nmea0183 from "@signalk/nmea0183-signalk";
import { type OtherSentences, pathReadings } from "../../pull/index.ts";

/** What the package's parser answers of a sentence: deltas of Signal K. */
interface Parsed {
  readonly updates: readonly { readonly values: readonly { readonly path: string; readonly value: unknown }[] }[];
}

const Parser = nmea0183 as unknown as new () => { parse(sentence: string): Parsed | null };

/**
 * Sentences our own reader leaves to the package: VWR, VWT, MDA, GNS, VHW and the other types it knows. Their times
 * are not taken: the package puts today's date where a sentence has none.
 */
export function otherSentences(): OtherSentences {
  const parser = new Parser();
  return (sentence) => {
    try {
      const parsed = parser.parse(sentence.text);
      return (parsed?.updates ?? []).flatMap((update) =>
        update.values.flatMap(({ path, value }) => pathReadings(path, value)),
      );
    } catch {
      // It throws at what it does not know or finds malformed: no reading.
      return [];
    }
  };
}
