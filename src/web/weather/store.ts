/** What the place Weather is in, and its changes; Rig puts its rig there. */
import type { Rig } from "../../rode/index.ts";
import type { Boat } from "../../sea/index.ts";
import { keptStore } from "../state/address.ts";
import { weatherCodec } from "./address.ts";
import { withCurrentOf } from "./scene.ts";
import { type Around, type SnubberAsked, usualWeather, type WeatherState } from "./state.ts";

export const weatherStore = keptStore(usualWeather, weatherCodec);

export const change = (part: Partial<WeatherState>, label: string, stroke?: string): void =>
  weatherStore.set((before) => ({ ...before, ...part }), { label, ...(stroke === undefined ? {} : { stroke }) });

export const changeBoat = (part: Partial<Boat>, label: string, stroke = `boat ${label}`): void =>
  weatherStore.set((before) => ({ ...before, boat: { ...before.boat, ...part } }), { label, stroke });

export const changeAround = (part: Partial<Around>, label: string, stroke?: string): void =>
  weatherStore.set((before) => ({ ...before, around: { ...before.around, ...part } }), {
    label,
    ...(stroke === undefined ? {} : { stroke }),
  });

export const changeSnubber = (part: Partial<SnubberAsked>, label: string, stroke?: string): void =>
  weatherStore.set((before) => ({ ...before, snubber: { ...before.snubber, ...part } }), {
    label,
    ...(stroke === undefined ? {} : { stroke }),
  });

const currentIn = ({ setting }: Rig): number => (setting.medium === "water" ? setting.current : 0);

/** Lets the boat lie to a rig; the current it lies in comes with it where it is another than `before` it. */
export function takeRig(rig: Rig, before = weatherStore.get().rig): void {
  if (weatherStore.get().rig === rig) return;
  const streamed = currentIn(rig) !== currentIn(before);
  weatherStore.set((state) => ({ ...state, rig, around: streamed ? withCurrentOf(state.around, rig) : state.around }), {
    label: `rig ${rig.name}`,
  });
}
