import { useState } from "react";
import type { LinePart } from "../../rode/index.ts";
import { Button } from "../controls/button.tsx";
import { QuantityField } from "../controls/quantity-field.tsx";
import styles from "./part-picker.module.css";
import { FIRST_LENGTH } from "./parts.ts";

/** A line by its own figures. */
export function OwnLine({ onPick }: { readonly onPick: (part: LinePart) => void }) {
  const [name, setName] = useState("own line");
  const [length, setLength] = useState(FIRST_LENGTH);
  const [massPerLength, setMass] = useState(0.15);
  const [density, setDensity] = useState(1140);
  const [stiffness, setStiffness] = useState<number | null>(null);
  const [workingLoad, setWorkingLoad] = useState<number | null>(null);
  return (
    <div className={styles.own}>
      <label className={styles.wide}>
        <span className={styles.label}>Name</span>
        <input
          className={styles.input}
          value={name}
          maxLength={100}
          onChange={(event) => setName(event.target.value)}
        />
      </label>
      <QuantityField
        field="length"
        label="Length"
        dimension="length"
        value={length}
        range={{ above: 0, most: 1e5, expected: "a length above zero is expected" }}
        onChange={setLength}
      />
      <QuantityField
        field="mass per length"
        label="Mass per length"
        dimension="massPerLength"
        value={massPerLength}
        range={{ above: 0, most: 1e4, expected: "a mass per length above zero is expected" }}
        onChange={setMass}
      />
      <QuantityField
        field="density"
        label="Density"
        dimension="density"
        value={density}
        range={{ least: 100, most: 23_000, expected: "a density from 100 to 23000 kg/m³ is expected" }}
        onChange={setDensity}
      />
      <QuantityField
        field="stiffness"
        label="Stiffness EA; empty: no stretch"
        dimension="force"
        value={stiffness}
        placeholder="90 kN"
        range={{ above: 0, most: 1e12, expected: "a force above zero is expected" }}
        onChange={setStiffness}
        onEmpty={() => setStiffness(null)}
      />
      <QuantityField
        field="load"
        label="Working load limit, if stated"
        dimension="force"
        value={workingLoad}
        range={{ above: 0, most: 1e12, expected: "a force above zero is expected" }}
        onChange={setWorkingLoad}
        onEmpty={() => setWorkingLoad(null)}
      />
      <Button
        look="strong"
        className={styles.wide ?? ""}
        onClick={() =>
          onPick({
            kind: "line",
            name: name.trim() === "" ? "own line" : name.trim(),
            length,
            massPerLength,
            density,
            stretch: stiffness === null ? { kind: "rigid" } : { kind: "linear", stiffness },
            ...(workingLoad === null ? {} : { workingLoad }),
            material: "line",
          })
        }
      >
        Add the line
      </Button>
    </div>
  );
}
