import type { MarkCause } from "./cause.ts";
import type { Drag, Easing } from "./drags.ts";
import type { Mark } from "./marks.ts";
import type { Peak } from "./peaks.ts";
import { markId, type Plateau } from "./plateaus.ts";
import type { Turn } from "./set-and-reset.ts";
import type { Measured, Span } from "./trace.ts";

/** What the reduction found on a trace. */
export interface Found {
  readonly slack: readonly (Span & { readonly load: Measured })[];
  readonly plateaus: readonly Plateau[];
  readonly peaks: readonly Peak[];
  readonly spikes: readonly {
    readonly at: number;
    readonly load: Measured /** Stand over the noise. */;
    readonly times: number;
  }[];
  readonly drags: readonly Drag[];
  readonly easings: readonly Easing[];
  readonly turns: readonly Turn[];
  /** True when the log is too slow to tell a glitch from a short peak. */
  readonly slowLog: boolean;
}

/** A mark for each find, in order of time. */
export function automaticMarks(found: Found): Mark[] {
  return [
    ...found.slack.map((s) => force("slack", s, s.load, { kind: "slack" })),
    ...found.plateaus.map((p) => force("plateau", p, p.load, flatness(p))),
    // One that stands alone has its mark as a spike.
    ...found.peaks
      .filter((p) => !p.alone)
      .map((p) => force("peak", { from: p.at, to: p.at }, p.load, { kind: "peak" })),
    ...found.spikes.map((s) =>
      force("spike", { from: s.at, to: s.at }, s.load, { kind: "standsAlone", times: s.times, slowLog: found.slowLog }),
    ),
    ...found.drags.map((d) => force("drag", d, d.load, d.why)),
    ...found.easings.map((e) => force("easing", e, e.load, e.why)),
    ...found.turns.map(
      (t): Mark => ({
        id: markId("reversal", t.from),
        kind: "reversal",
        from: t.from,
        to: t.to,
        value: t.turn,
        u: t.u,
        of: "angle",
        why: { kind: "turned", angle: t.turn },
      }),
    ),
  ].sort((a, b) => a.from - b.from || a.to - b.to);
}

function force(kind: Mark["kind"], span: Span, load: Measured, why: MarkCause): Mark {
  return {
    id: markId(kind, span.from),
    kind,
    from: span.from,
    to: span.to,
    value: load.value,
    u: load.u,
    of: "force",
    why,
  };
}

function flatness(p: Plateau): MarkCause {
  return { kind: "flat", seconds: p.to - p.from, perMinute: (60 * p.creep.value) / p.load.value };
}
