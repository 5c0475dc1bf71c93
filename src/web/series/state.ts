/** A series as it is written, and what is kept of it: its text is its whole state. */

export interface SeriesState {
  /** The text of a series file. */
  readonly text: string;
}

/** What the bench opens with: an invented series, to be written over. */
export const usualSeries: SeriesState = {
  text: `format: rodebench/series@1
name: Two anchors in the creek
question:
  kind: compare
  angles: [2 deg, 12 deg]
  tell: 1.5
  loads: [1 kN, 2 kN, 3 kN]
anchors:
  - { name: Plough A, mass: 6 kg }
  - { name: Scoop B, mass: 6 kg }
boat:
  name: Marsh Tern
  length: 11.6 m
  draught: 1.75 m
  rollerHeight: 1.35 m
  thrust:
    - { speed: 1200 rpm, load: 750 N }
    - { speed: 1800 rpm, load: 1.6 kN }
    - { speed: 2400 rpm, load: 2.6 kN }
rodes:
  - name: all chain
    rode:
      - chain: { grade: "30", size: 10 mm, length: 45 m }
sites:
  - name: Creek mouth
    depth: [2 m, 7 m]
    room: 60 m
    bottomFriction: 0.6
    tide:
      turns:
        - { at: "2026-06-02T04:10Z", level: 4.1 m }
        - { at: "2026-06-02T10:25Z", level: 0.7 m }
        - { at: "2026-06-02T16:40Z", level: 4.3 m }
days:
  - { date: 2026-06-02, site: Creek mouth, from: "08:00", to: "11:30", zone: "+02:00" }
pulls: { repeats: 2, hold: 60 s, heldFor: 30 s, heldWithin: 0.5 m, each: 25 min, change: 10 min }
gauge: 0.5 deg
order: { seed: 7, changes: few }
`,
};
