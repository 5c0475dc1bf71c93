/** A pull that begins: its ids made, and what the book has already pointed to. */
import { type Rig, rigToFile } from "../../rode/index.ts";
import { codeTyped } from "../../series/index.ts";
import { bookHere } from "../api/book-here.ts";
import { newId } from "../api/ids.ts";
import { bookCopy } from "../days/book-copy.ts";
import { keep } from "./keep.ts";
import type { DeckPull } from "./pull.ts";
import { dateOf } from "./pull-records.ts";
import { type Setup, stepsTyped } from "./setup-state.ts";

/** @throws InputError for loads that are none */
export function pullOf(setup: Setup, rig: Rig, now: number = Date.now()): DeckPull {
  const { days, anchors } = knownOf(setup, now);
  return {
    ids: {
      begin: newId(),
      day: days ?? newId(),
      rig: newId(),
      rigVersion: newId(),
      anchor: anchors ?? newId(),
      pull: newId(),
      log: newId(),
      end: newId(),
    },
    begunAt: now,
    anchor: setup.anchor.trim(),
    known: { day: days !== undefined, anchor: anchors !== undefined },
    rig: { name: rig.name, file: rigToFile(rig) },
    deployed: { depth: setup.depth, paidOut: setup.paidOut },
    loadU: setup.loadU,
    ...(setup.heldFor === null ? {} : { heldFor: setup.heldFor }),
    ...(setup.heldWithin === null ? {} : { heldWithin: setup.heldWithin }),
    steps: stepsTyped(setup.loads, setup.hold),
    ...(setup.direction === null ? {} : { direction: setup.direction }),
    code: codeTyped(setup.code) || null,
    events: [],
    ended: null,
  };
}

/** Today's day and an anchor of that name, where the book as this device knows it has them. */
function knownOf(setup: Setup, now: number) {
  const { records } = bookCopy.get();
  return {
    days: records.day.find(({ date, hidden }) => date === dateOf(now) && !hidden)?.id,
    anchors: records.anchor.find(({ name, hidden }) => name === setup.anchor.trim() && !hidden)?.id,
  };
}

/** Puts a pull under way for the book this device last saw, on the device first. */
export async function begin(pull: DeckPull): Promise<boolean> {
  const book = await bookHere();
  const begun = book === undefined ? pull : { ...pull, book };
  return keep((before) => (before.pull === null ? { ...before, pull: begun, cautioned: true } : before));
}
