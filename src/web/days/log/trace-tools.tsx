import { Button } from "../../controls/button.tsx";
import type { Store } from "../../state/store.ts";
import type { Channel } from "./channels.ts";
import styles from "./log.module.css";
import { type Window, zoomed } from "./window.ts";

/** Above the trace: nearer, farther, all of it, the height, and which channels are drawn. */
export function TraceTools({
  view,
  whole,
  channels,
  names,
  fit,
  onFit,
  onChannels,
}: {
  readonly view: Store<Window>;
  readonly whole: Window;
  readonly channels: readonly Channel[];
  /** Of the channels that are drawn. */
  readonly names: readonly string[];
  /** Whether the height follows what is in view. */
  readonly fit: boolean;
  readonly onFit: (fit: boolean) => void;
  readonly onChannels: (names: readonly string[]) => void;
}) {
  return (
    <div className={styles.tools}>
      <div className={styles.group}>
        <Button aria-label="Nearer" title="Nearer (+)" onClick={() => view.put(zoomed(view.get(), 2, 0.5, whole))}>
          +
        </Button>
        <Button aria-label="Farther" title="Farther (−)" onClick={() => view.put(zoomed(view.get(), 0.5, 0.5, whole))}>
          −
        </Button>
        <Button title="The whole log (0)" onClick={() => view.put(whole)}>
          All
        </Button>
        <Button aria-pressed={fit} title="The height follows what is in view" onClick={() => onFit(!fit)}>
          Fit height
        </Button>
      </div>
      {channels.length > 1 && (
        <fieldset className={styles.channels}>
          <legend className="unseen">Channels shown</legend>
          {channels.map((channel) => (
            <label key={channel.name}>
              <input
                type="checkbox"
                checked={names.includes(channel.name)}
                disabled={names.length === 1 && names[0] === channel.name}
                onChange={(event) => onChannels(toggled(channels, names, channel.name, event.target.checked))}
              />
              {channel.name}
            </label>
          ))}
        </fieldset>
      )}
    </div>
  );
}

function toggled(channels: readonly Channel[], names: readonly string[], name: string, on: boolean): readonly string[] {
  return channels.map((channel) => channel.name).filter((one) => (one === name ? on : names.includes(one)));
}
