/** In the worker: one ride at a time, taken up again piece by piece, with the places of the rode to draw it by. */
import { type Ride, type RideQuestion, ride, rideAnswer } from "../../../motion/index.ts";
import type { NoEquilibrium } from "../../../rode/index.ts";
import { rideHeat } from "../../../sizing/index.ts";
import { FRAME, type GaleAnswer, type GalePiece, SAMPLE } from "./gale-record.ts";

interface UnderWay {
  readonly ride: Ride;
  readonly number: number;
  /** Seconds ridden when it was last answered. */
  answered: number;
}

/** Rides under way by their numbers: one, or two side by side. */
const underWay = new Map<number, UnderWay>();
const MOST = 2;

/** An answer draws its peaks anew two hundred times: it is given again when the ride has grown by so much, and at its end. */
const GROWN = 1.4;
const FIRST_ANSWER = 60;

/** Begins a ride beside the newest one, in place of older ones. @returns its number, or why it cannot begin */
export function beginGale(question: RideQuestion, number: number): NoEquilibrium | null {
  const begun = ride(question);
  if ("kind" in begun) return begun;
  underWay.set(number, { ride: begun, number, answered: 0 });
  // The oldest give way: what was begun anew is not gone on with.
  for (const old of [...underWay.keys()].slice(0, -MOST)) underWay.delete(old);
  return null;
}

/** Goes on for some seconds. @returns null where that ride is not under way any more */
export function goOnInGale(number: number, seconds: number): GalePiece | null {
  const under = underWay.get(number);
  if (under === undefined) return null;
  const { ride } = under;
  const { state } = ride;
  const width = 3 * state.nodes + 3;
  const most = Math.ceil(seconds / FRAME);
  const pictures = new Float32Array(most * width);
  const samples = new Float32Array(most * SAMPLE);
  let count = 0;
  let over = false;
  while (ride.counted() <= 0 && !over) over = !ride.goOn(5);
  for (let k = 0; k < most && !over; k++) {
    over = !ride.goOn(FRAME);
    const series = ride.series();
    const last = series.time.length - 1;
    if (last < 0) continue;
    pictures.set(state.place, count * width);
    pictures.set(state.q, count * width + 3 * state.nodes);
    samples.set(
      [series.time[last]!, series.bowLoad[last]!, series.anchorLoad[last]!, series.anchorAngle[last]!],
      count * SAMPLE,
    );
    count++;
  }
  const counted = ride.counted();
  const due = counted > FIRST_ANSWER && (over || counted >= GROWN * under.answered);
  if (due) under.answered = counted;
  return {
    nodes: state.nodes,
    pictures: pictures.subarray(0, count * width),
    samples: samples.subarray(0, count * SAMPLE),
    over,
    answer: due ? answerOf(ride) : null,
    highest: ride.highest,
  };
}

/** What a ride that was stopped says; null where it is not there, or has not ridden a minute. */
export function answerGale(number: number): GaleAnswer | null {
  const under = underWay.get(number);
  return under === undefined || under.ride.counted() <= FIRST_ANSWER ? null : answerOf(under.ride);
}

function answerOf(ride: Ride): GaleAnswer {
  const { cycles: _, ...answer } = rideAnswer(ride);
  return { ...answer, ropes: rideHeat(ride) };
}
