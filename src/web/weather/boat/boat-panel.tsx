import { memo, useRef, useState } from "react";
import { DEGREE, InputError } from "../../../quantity/index.ts";
import type { Boat } from "../../../sea/index.ts";
import { announce } from "../../controls/announce.ts";
import { Button } from "../../controls/button.tsx";
import { type NumberField, NumberFields } from "../../controls/number-fields.tsx";
import { FoldingPanel } from "../../controls/panel.tsx";
import { saveYaml } from "../../controls/save-file.ts";
import styles from "../place.module.css";
import { change, changeBoat } from "../store.ts";
import { misfit } from "./boat.ts";
import { PointsTable } from "./points-table.tsx";
import { WindageForm } from "./windage-form.tsx";

const LARGEST = 1_000_000;

/** The boat: opened from a file, put in by hand, saved. */
export const BoatPanel = memo(function BoatPanel({ boat }: { readonly boat: Boat }) {
  const pick = useRef<HTMLInputElement>(null);
  const [wrong, setWrong] = useState<string | null>(null);
  const trouble = misfit(boat);

  const take = async (read: (files: typeof import("./boat-files.ts")) => Boat, place: string): Promise<void> => {
    try {
      const next = read(await import("./boat-files.ts"));
      change({ boat: next }, `open ${place}`);
      setWrong(null);
      announce(`${next.name} is on the bench.`);
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      setWrong(error.message);
    }
  };
  const save = async (): Promise<void> => {
    const { textOfBoat } = await import("./boat-files.ts");
    saveYaml(textOfBoat(boat), boat.name, "boat");
  };

  return (
    <FoldingPanel
      name="boat"
      open={false}
      title="Boat"
      beside={
        <span className={styles.buttons}>
          <input
            ref={pick}
            type="file"
            className="unseen"
            tabIndex={-1}
            aria-hidden="true"
            accept=".yaml,.yml,.json"
            onChange={(event) => {
              const file = event.target.files?.[0];
              event.target.value = "";
              if (file === undefined) return;
              if (file.size > LARGEST)
                setWrong(`${file.name}: ${file.size} bytes; a boat file of at most 1 MB is expected`);
              else void file.text().then((text) => take((files) => files.boatOfText(text, file.name), file.name));
            }}
          />
          <Button onClick={() => pick.current?.click()}>Open a boat file</Button>
          <Button disabled={trouble !== null} onClick={() => void save()}>
            Save as a file
          </Button>
          <Button onClick={() => void take((files) => files.demoBoat(), "the demo's boat")}>The demo's boat</Button>
        </span>
      }
    >
      {(wrong ?? trouble) !== null && (
        <p className={styles.wrong} role="alert">
          {wrong ?? trouble}
        </p>
      )}
      <div className={styles.fields}>
        <label className={styles.chosen}>
          Name
          <input
            value={boat.name}
            maxLength={200}
            onChange={(event) => changeBoat({ name: event.target.value || "boat" }, "name")}
          />
        </label>
        <NumberFields
          fields={boatFields(boat)}
          values={{ ...boat, swing: boat.veering?.amplitude ?? null, swingPeriod: boat.veering?.period ?? null }}
          onChange={(name, value, label) => change({ boat: withNumber(boat, name, value) }, label, `boat ${label}`)}
        />
      </div>
      <WindageForm boat={boat} />
      <PointsTable boat={boat} />
    </FoldingPanel>
  );
});

type BoatNumber =
  | "length"
  | "beam"
  | "draught"
  | "displacement"
  | "bowRollerHeight"
  | "waterline"
  | "bodyDraught"
  | "engineThrust"
  | "swing"
  | "swingPeriod";

/** Time of a swing that is stated without one, s. */
const USUAL_SWING = 45;

const LENGTH = { above: 0, most: 500, expected: "a length above zero is expected" };
const OR_NONE = { above: 0, most: 1e9, expected: "a value above zero is expected, or none" };
const ofLength = { field: "boat length", dimension: "length" } as const;
const notStated = { range: OR_NONE, placeholder: "not stated", optional: true } as const;

const boatFields = ({ veering }: Boat): readonly NumberField<BoatNumber>[] => [
  { ...ofLength, name: "length", label: "Length over all", range: LENGTH, change: "length" },
  { ...ofLength, name: "beam", label: "Beam", range: LENGTH, change: "beam" },
  { ...ofLength, name: "draught", label: "Draught", range: LENGTH, change: "draught" },
  {
    name: "displacement",
    field: "displacement",
    label: "Displacement",
    dimension: "mass",
    range: { above: 0, most: 1e9, expected: "a mass above zero is expected" },
    change: "displacement",
  },
  {
    ...ofLength,
    name: "bowRollerHeight",
    label: "Roller above the water",
    range: { least: 0, most: 100, expected: "a height of zero or more is expected" },
    change: "roller height",
  },
  { ...ofLength, ...notStated, name: "waterline", label: "Waterline", change: "waterline" },
  { ...ofLength, ...notStated, name: "bodyDraught", label: "Draught of the body", change: "draught of the body" },
  {
    ...notStated,
    name: "engineThrust",
    field: "load",
    label: "Engine's full thrust",
    dimension: "force",
    change: "engine thrust",
  },
  {
    ...notStated,
    name: "swing",
    field: "angle",
    label: "Swings either side",
    dimension: "angle",
    range: { ...OR_NONE, most: 90 * DEGREE },
    change: "swing",
  },
  ...(veering === undefined
    ? []
    : [
        {
          name: "swingPeriod",
          field: "period",
          label: "in a time of",
          dimension: "time",
          range: { above: 0, most: 1e5, expected: "a time above zero is expected" },
          change: "period of the swing",
        } as const,
      ]),
];

/** The boat with one number set, or left out. */
function withNumber(boat: Boat, name: BoatNumber, value: number | null): Boat {
  const { veering, ...still } = boat;
  if (name === "swing")
    return value === null ? still : { ...boat, veering: { amplitude: value, period: veering?.period ?? USUAL_SWING } };
  if (name === "swingPeriod")
    return veering === undefined || value === null ? boat : { ...boat, veering: { ...veering, period: value } };
  const { [name]: _, ...rest } = boat;
  return (value === null ? rest : { ...rest, [name]: value }) as Boat;
}
