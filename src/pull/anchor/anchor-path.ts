import type { Loaded } from "../trace/loaded.ts";
import type { TraceSettings } from "../trace/settings.ts";
import type { Headings, Measured, Span, Track } from "../trace/trace.ts";
import { agreed, bothWays, type Choice } from "./agreed.ts";
import { beginsAt } from "./begins.ts";
import { type Direction, planeFit } from "./direction.ts";
import { fixGrid } from "./fix-grid.ts";
import { settled } from "./known-stretch.ts";
import { type Moved, movedIn } from "./moved-in.ts";
import { rodeGive } from "./rode-give.ts";
import { StretchModel } from "./stretch.ts";
import { statedDirection, stretchesOf } from "./stretches.ts";

/** A movement of the anchor that the track shows. */
export interface AnchorMovement extends Span {
  readonly distance: Measured;
  /** When it began, s: `from` is where it was found. */
  readonly begins: Measured;
}

/** Where the anchor was over time, as load and track together tell it. */
export interface AnchorPath {
  readonly stretches: readonly (Span & { readonly direction: Direction })[];
  readonly movements: readonly AnchorMovement[];
  /** How far it moved between two times; null where the track cannot tell. */
  readonly moved: (span: Span) => Moved | null;
}

/** A time asked about may reach so far out of the time under load, in steps: a fall ends in slack. */
const LOOSE = { before: 3, after: 8 };
/** What of a swing lies before and after its quickest part, as a share of that. */
const SWING_ENDS = 0.75;
/** Fewer fixes under load tell nothing. */
const FEWEST = 12;

/**
 * The anchor's movement along the bottom by one model of load and track: where the boat is is where the anchor is, what
 * the rode gives at the load of that moment, and the error of the fix. Null where there is no load.
 *
 * @param give what the rode gives at a load, m; absent: its curve is fitted
 */
export function anchorPath(
  track: Track,
  heading: Headings | undefined,
  loaded: Loaded,
  settings: TraceSettings,
  give?: (newtons: number) => number,
): AnchorPath | null {
  if (!(loaded.top > 0)) return null;
  const grid = fixGrid(track, loaded, settings);
  const rode = rodeGive(loaded.top, give);
  const choices: Choice[] = [];
  const todo = stretchesOf(grid);
  while (todo.length > 0) {
    const stretch = todo.shift()!;
    if (stretch.to - stretch.from < FEWEST) continue;
    const model = new StretchModel(grid, stretch, rode);
    if (model.fixes < FEWEST) continue;
    const stated = statedDirection(grid, stretch, heading, settings);
    const plane = planeFit(model, stated);
    const swing = plane.swings[0];
    if (swing) {
      // The boat swung about the anchor: each side has a direction of its own. A swing begins and ends gently.
      const around = Math.round(SWING_ENDS * (swing.to - swing.from));
      todo.push({ from: stretch.from, to: swing.from - around }, { from: swing.to + around, to: stretch.to });
      continue;
    }
    choices.push({ model, ways: stated ? [settled(model, stated)] : bothWays(model, plane) });
  }
  choices.sort((a, b) => a.model.stretch.from - b.model.stretch.from);
  const known = agreed(choices);
  const timeOf = (k: number): number => grid.start + k * grid.step;
  const stepOf = (t: number): number => (t - grid.start) / grid.step;
  return {
    stretches: known.map(({ model, direction }) => ({
      from: timeOf(model.stretch.from),
      to: timeOf(model.stretch.to),
      direction,
    })),
    movements: known.flatMap((one) =>
      one.ramps.map((ramp): AnchorMovement => {
        const { value, u } = movedIn(one, ramp);
        const begins = beginsAt(one, ramp);
        return {
          ...{ from: timeOf(ramp.from), to: timeOf(ramp.to), distance: { value, u } },
          begins: { value: timeOf(begins.value), u: grid.step * begins.u },
        };
      }),
    ),
    moved(span) {
      const ramp = { from: stepOf(span.from), to: stepOf(span.to) };
      const one = known.find(
        (k) => k.model.stretch.from <= ramp.from + LOOSE.before && k.model.stretch.to >= ramp.to - LOOSE.after,
      );
      return one ? movedIn(one, ramp) : null;
    },
  };
}
