/**
 * What is taken where a record does not say. Each is a standard uncertainty, an assumption and no measurement, and each use
 * of one is a doubt of the answer.
 */
export const ASSUMED = {
  /** Of a depth sounded at the pull, where the rig states none of its rise, m: a hand-held sounder over uneven ground. */
  soundedDepth: 0.2,
  /** Of a depth nobody recorded, as a share of that in the rig file: a rig file is written once and used in many depths. */
  unknownDepth: 0.25,
  /** Least of a depth that follows from soundings of other pulls and the level of the day, m: another place, another hour. */
  depthFromLevel: 0.5,
  /** Of a length told by its scope, as a share: a scope is told in halves, and a rode marked every few metres. */
  scope: 0.05,
  /** Of a length told in metres, as a share. */
  paidOut: 0.03,
  /** Of a length nobody recorded, as a share of the rode in the rig file. */
  unknownLength: 0.1,
  /** Of a load without stated uncertainty, as a share. */
  load: 0.01,
} as const;

/**
 * Standard deviation about one of two ends of a range within which any value is as likely as another: the range over √3.
 * For what may have been otherwise (another line paid out, the other end of the rode) without anybody having written it.
 */
export const ONE_SIDED = 1 / Math.sqrt(3);
