/** A run read and reduced, for what is told of it as text and what is published of it. */
import { firstUnsettled, type Judgement, judge, mistakenReadings, type Reduction, reduce } from "../pull/index.ts";
import { InputError, nth, type UnitSystem } from "../quantity/index.ts";
import { mixUpWords, unsettledWords } from "../words/index.ts";
import { NoAnswer } from "./exit.ts";
import type { Io } from "./io.ts";
import { runAt } from "./run-input.ts";

type RunRead = Awaited<ReturnType<typeof runAt>>;

export interface ReducedRun extends RunRead {
  readonly reduced: Reduction;
  readonly verdicts: readonly Judgement[];
}

/** @throws NoAnswer where a reading has no equilibrium, with what would make the readings fit; InputError where a lift-off was noted that theory has none of */
export async function reducedRun(path: string, units: UnitSystem, io: Io): Promise<ReducedRun> {
  const read = await runAt(path, io);
  const { run, rig, files } = read;
  const unsettled = firstUnsettled(run, rig);
  if (unsettled !== null) {
    const place = `${files[0]}: ${unsettled.list}${nth(unsettled.row)}`;
    const words = unsettledWords(unsettled, units, rig.setting.medium);
    if (unsettled.kind === "neverLiftsOff") throw new InputError(`${place}.event`, "liftoff", words);
    const mixed = mistakenReadings(run, rig, null).map(({ mixUp }) => mixUpWords(mixUp));
    const meant = mixed.length === 0 ? "" : `; the readings would fit if ${mixed.join(", or if ")}`;
    throw new NoAnswer(`${place}.load: ${words}${meant}`);
  }
  const reduced = reduce(run, rig);
  return { ...read, reduced, verdicts: judge(run, rig, reduced) };
}
