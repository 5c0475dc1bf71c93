import { memo, useRef, useState } from "react";
import { InputError } from "../../quantity/index.ts";
import type { Boat } from "../../sea/index.ts";
import { announce } from "../show/announce.ts";
import { Button } from "../show/button.tsx";
import { Panel } from "../show/panel.tsx";
import { QuantityField } from "../show/quantity-field.tsx";
import { saveYaml } from "../show/save-file.ts";
import { misfit } from "./boat.ts";
import { change, changeBoat } from "./desk.ts";
import styles from "./place.module.css";
import { PointsTable } from "./points-table.tsx";
import { WindageForm } from "./windage-form.tsx";

const LARGEST = 1_000_000;
const DEG = Math.PI / 180;

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

  const length = { above: 0, most: 500, expected: "a length above zero is expected" };
  return (
    <Panel
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
        <QuantityField
          field="boat length"
          label="Length over all"
          dimension="length"
          value={boat.length}
          range={length}
          onChange={(value) => changeBoat({ length: value }, "length")}
        />
        <QuantityField
          field="boat length"
          label="Beam"
          dimension="length"
          value={boat.beam}
          range={length}
          onChange={(value) => changeBoat({ beam: value }, "beam")}
        />
        <QuantityField
          field="boat length"
          label="Draught"
          dimension="length"
          value={boat.draught}
          range={length}
          onChange={(value) => changeBoat({ draught: value }, "draught")}
        />
        <QuantityField
          field="displacement"
          label="Displacement"
          dimension="mass"
          value={boat.displacement}
          range={{ above: 0, most: 1e9, expected: "a mass above zero is expected" }}
          onChange={(value) => changeBoat({ displacement: value }, "displacement")}
        />
        <QuantityField
          field="boat length"
          label="Roller above the water"
          dimension="length"
          value={boat.bowRollerHeight}
          range={{ least: 0, most: 100, expected: "a height of zero or more is expected" }}
          onChange={(value) => changeBoat({ bowRollerHeight: value }, "roller height")}
        />
        <Optional
          field="boat length"
          label="Waterline"
          dimension="length"
          value={boat.waterline}
          onValue={(waterline) => change({ boat: withOr(boat, "waterline", waterline) }, "waterline", "boat waterline")}
        />
        <Optional
          field="boat length"
          label="Draught of the body"
          dimension="length"
          value={boat.bodyDraught}
          onValue={(body) => change({ boat: withOr(boat, "bodyDraught", body) }, "draught of the body", "boat body")}
        />
        <Optional
          field="load"
          label="Engine's full thrust"
          dimension="force"
          value={boat.engineThrust}
          onValue={(thrust) => change({ boat: withOr(boat, "engineThrust", thrust) }, "engine thrust", "boat thrust")}
        />
        <Optional
          field="angle"
          label="Swings either side"
          dimension="angle"
          value={boat.veering?.amplitude}
          most={90 * DEG}
          onValue={(amplitude) =>
            change(
              {
                boat: withOr(
                  boat,
                  "veering",
                  amplitude === undefined ? undefined : { amplitude, period: boat.veering?.period ?? 45 },
                ),
              },
              "swing",
              "boat swing",
            )
          }
        />
        {boat.veering !== undefined && (
          <QuantityField
            field="period"
            label="in a time of"
            dimension="time"
            value={boat.veering.period}
            range={{ above: 0, most: 1e5, expected: "a time above zero is expected" }}
            onChange={(period) => changeBoat({ veering: { ...boat.veering!, period } }, "period of the swing")}
          />
        )}
      </div>
      <WindageForm boat={boat} />
      <PointsTable boat={boat} />
    </Panel>
  );
});

/** The boat with an optional field set, or left out. */
function withOr<K extends "waterline" | "bodyDraught" | "engineThrust" | "veering">(
  boat: Boat,
  name: K,
  value: Boat[K] | undefined,
): Boat {
  const { [name]: _, ...rest } = boat;
  return (value === undefined ? rest : { ...rest, [name]: value }) as Boat;
}

function Optional(props: {
  readonly field: string;
  readonly label: string;
  readonly dimension: "length" | "force" | "angle";
  readonly value: number | undefined;
  readonly most?: number;
  readonly onValue: (value: number | undefined) => void;
}) {
  const { onValue, value, most = 1e9, ...rest } = props;
  return (
    <QuantityField
      {...rest}
      value={value ?? null}
      placeholder="not stated"
      range={{ above: 0, most, expected: "a value above zero is expected, or none" }}
      onChange={onValue}
      onEmpty={() => onValue(undefined)}
    />
  );
}
