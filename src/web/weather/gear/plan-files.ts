/** Plan files read; comes only when one is. A page cannot open a file beside another: those a plan names are chosen with it. */
import demoBoat from "../../../../data/boats/marsh-tern.yaml?raw";
import demo from "../../../../data/plans/marsh-tern.yaml?raw";
import { InputError, quoted } from "../../../quantity/index.ts";
import { type Plan, planPaths, readPlan, type Snubber } from "../../../sizing/index.ts";
import type { WeatherState } from "../state.ts";
import type { GearAsked, GearCandidate, GearLimits, OwnSnubber } from "./gear.ts";

export interface NamedText {
  readonly name: string;
  readonly text: string;
}

const last = (path: string): string => path.split(/[\\/]/).at(-1)!;
const isPlan = ({ text }: NamedText): boolean => /^\s*["']?format["']?\s*:\s*["']?rodebench\/plan@/m.test(text);

/** @throws InputError of one line, also where a file the plan names was not chosen with it */
export function planOfFiles(files: readonly NamedText[]): Plan {
  const plan = files.find(isPlan) ?? files[0]!;
  const paths = planPaths(plan.text, plan.name);
  const beside = paths.map((path) => {
    const file = files.find((one) => one !== plan && one.name === last(path));
    if (file === undefined)
      throw new InputError(plan.name, quoted(path), "that file is expected to be chosen together with the plan");
    return [path, { text: file.text, place: file.name }] as const;
  });
  return readPlan(plan.text, plan.name, Object.fromEntries(beside));
}

export const demoPlan = (): Plan =>
  planOfFiles([
    { name: "marsh-tern-plan.yaml", text: demo },
    { name: "marsh-tern.yaml", text: demoBoat },
  ]);

const shownLimits: readonly (keyof GearLimits)[] = [
  "workingLoad",
  "strength",
  "ropeShare",
  "anchorAngle",
  "peak",
  "weight",
];

/** What a plan changes in the place: its candidates and limits; its boat, wind and surge where it states them. */
export function stateOfPlan(plan: Plan): Partial<WeatherState> {
  const { load, surge } = plan;
  return {
    gear: gearOfPlan(plan),
    ...(load.kind === "wind" ? { boat: load.boat, wind: load.wind.value, windU: load.wind.u } : {}),
    ...(surge === undefined
      ? {}
      : {
          surge:
            surge.kind === "distance"
              ? { by: "distance", speed: 0.5, distance: surge.distance }
              : { by: "speed", speed: surge.kind === "speed" ? surge.speed : 0.5, distance: 0.5 },
        }),
  };
}

/** Limits of a plan that the place does not look at, by name. */
export const limitsLeftOut = ({ limits }: Plan): readonly string[] =>
  Object.keys(limits).filter((name) => !(shownLimits as readonly string[]).includes(name));

function gearOfPlan({ candidates, limits }: Plan): GearAsked {
  return {
    candidates: candidates.map(
      ({ name, rig, price, snubber, ends }): GearCandidate => ({
        name,
        rig,
        ownSetting: true,
        price: price ?? null,
        snubber: snubber === undefined ? null : ownSnubber(snubber, ends),
      }),
    ),
    limits: Object.fromEntries(
      shownLimits.flatMap((name) => (limits[name] === undefined ? [] : [[name, limits[name]]])),
    ) as GearLimits,
  };
}

function ownSnubber({ rope, length, slack, bridle, hooked }: Snubber, ends: OwnSnubber["ends"]): OwnSnubber {
  return {
    fibre: rope.fibre,
    lay: rope.lay,
    diameter: rope.diameter,
    length,
    ends,
    slack: slack ?? 0,
    within: hooked === "within",
    bridle: bridle === undefined ? null : { beam: bridle.beam, heading: bridle.heading },
  };
}
