import { useState } from "react";
import type { PointPart } from "../../rode/index.ts";
import { Button } from "../controls/button.tsx";
import { QuantityField } from "../controls/quantity-field.tsx";
import styles from "./part-picker.module.css";

const METAL = 7850;

/** A kellet or a float by its own figures. */
export function OwnWeight({ onPick }: { readonly onPick: (part: PointPart) => void }) {
  const [mass, setMass] = useState(10);
  const [density, setDensity] = useState(METAL);
  return (
    <div className={styles.own}>
      <QuantityField
        field="mass"
        label="Mass"
        dimension="mass"
        value={mass}
        range={{ above: 0, most: 1e5, expected: "a mass above zero is expected" }}
        onChange={setMass}
      />
      <QuantityField
        field="density"
        label="Density; less than water floats"
        dimension="density"
        value={density}
        range={{ least: 1, most: 23_000, expected: "a density from 1 to 23000 kg/m³ is expected" }}
        onChange={setDensity}
      />
      <p className={styles.wide}>It hangs at the middle of the longest line, and slides along it in the drawing.</p>
      <Button
        look="strong"
        className={styles.wide ?? ""}
        onClick={() => onPick({ kind: "point", name: density < 1000 ? "float" : "kellet", mass, density })}
      >
        Hang it on the rode
      </Button>
    </div>
  );
}
