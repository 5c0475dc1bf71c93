import type { Dimension } from "../../../quantity/index.ts";
import {
  type Boat,
  dragArea,
  OPEN_WATER,
  surfaces,
  usualShape,
  type WindArea,
  type Windage,
  type WindageShape,
} from "../../../sea/index.ts";
import { Button } from "../../controls/button.tsx";
import { Choice } from "../../controls/choice.tsx";
import { QuantityField } from "../../controls/quantity-field.tsx";
import styles from "../place.module.css";
import { change, changeBoat } from "../store.ts";
import { asAreas } from "./boat.ts";

/** The numbers of each shape, in the order they are asked. */
const asked: Readonly<
  Record<WindageShape["kind"], readonly (readonly [name: string, label: string, dimension: Dimension])[]>
> = {
  hull: [["freeboard", "freeboard", "length"]],
  deckhouse: [
    ["length", "length", "length"],
    ["width", "width", "length"],
    ["height", "height", "length"],
  ],
  mast: [
    ["thickness", "thickness", "length"],
    ["chord", "fore and aft", "length"],
    ["foot", "foot", "length"],
    ["top", "top", "length"],
  ],
  rigging: [
    ["length", "whole length", "length"],
    ["diameter", "diameter", "length"],
    ["foot", "foot", "length"],
    ["top", "top", "length"],
  ],
  part: [
    ["front", "front", "area"],
    ["side", "side", "area"],
    ["foot", "foot", "length"],
    ["top", "top", "length"],
  ],
};
const mayBeMissing = new Set(["chord", "drag", "sideDrag"]);
const small = new Set(["thickness", "chord", "diameter"]);
const kinds: readonly WindageShape["kind"][] = ["hull", "deckhouse", "mast", "rigging", "part"];

/** What the wind meets: simple shapes, or an area from ahead and one from abeam. */
export function WindageForm({ boat }: { readonly boat: Boat }) {
  const { windage } = boat;
  const set = (next: Windage | null, label: string, stroke?: string) => {
    const { windage: _, ...rest } = boat;
    change({ boat: next === null ? rest : { ...rest, windage: next } }, label, stroke);
  };
  const choose = (kind: "areas" | "shapes" | "none") => {
    if (kind === "none") set(null, "no windage");
    else if (kind === "shapes")
      set({ kind, shapes: [usualShape("hull", boat), usualShape("mast", boat)] }, "windage by shapes");
    else {
      const faces = surfaces(boat);
      const of = (side: "front" | "side") =>
        faces.reduce((sum, one) => sum + dragArea(one[side], OPEN_WATER), 0) ||
        (side === "front" ? 0.9 : 2.4) * boat.length;
      set(asAreas(of("front"), of("side"), 0.25 * boat.length), "windage by areas");
    }
  };
  return (
    <div className={styles.group}>
      <div className={styles.head}>
        <h3>Windage</h3>
        <Choice
          label="Windage by"
          labelUnseen
          value={windage?.kind ?? "none"}
          options={[
            { value: "shapes", label: "shapes" },
            { value: "areas", label: "areas" },
            { value: "none", label: "none" },
          ]}
          onChange={choose}
        />
      </div>
      {windage?.kind === "areas" && (
        <div className={styles.fields}>
          {(["front", "side"] as const).map((side) => (
            <AreaFields
              key={side}
              name={side === "front" ? "From ahead" : "From abeam"}
              area={windage[side]}
              onArea={(area) => set({ ...windage, [side]: area }, `windage ${side}`, `windage ${side}`)}
            />
          ))}
        </div>
      )}
      {windage?.kind === "shapes" && (
        <>
          <ul className={styles.shapes}>
            {windage.shapes.map((shape, i) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: shapes have no name, and may be alike
              <li key={i} className={styles.shape}>
                <ShapeFields
                  shape={shape}
                  name={nameOf(windage.shapes, i)}
                  onShape={(next) =>
                    set(
                      { ...windage, shapes: windage.shapes.map((one, j) => (j === i ? next : one)) },
                      nameOf(windage.shapes, i),
                      `shape ${i}`,
                    )
                  }
                />
                <Button
                  look="bare"
                  aria-label={`Remove ${nameOf(windage.shapes, i)}`}
                  disabled={windage.shapes.length < 2}
                  onClick={() =>
                    set({ ...windage, shapes: windage.shapes.filter((_, j) => j !== i) }, `remove ${shape.kind}`)
                  }
                >
                  ×
                </Button>
              </li>
            ))}
          </ul>
          <div className={styles.buttons}>
            {kinds
              .filter((kind) => kind !== "hull" || !windage.shapes.some((one) => one.kind === "hull"))
              .map((kind) => (
                <Button
                  key={kind}
                  onClick={() =>
                    changeBoat(
                      { windage: { ...windage, shapes: [...windage.shapes, usualShape(kind, boat)] } },
                      `add ${kind}`,
                      `add ${kind} ${windage.shapes.length}`,
                    )
                  }
                >
                  + {kind}
                </Button>
              ))}
          </div>
        </>
      )}
    </div>
  );
}

function nameOf(shapes: readonly WindageShape[], i: number): string {
  const shape = shapes[i]!;
  if (shape.kind === "part") return shape.name;
  const alike = shapes.filter(({ kind }) => kind === shape.kind);
  return alike.length < 2 ? shape.kind : `${shape.kind} ${alike.indexOf(shape) + 1}`;
}

function ShapeFields({
  shape,
  name,
  onShape,
}: {
  readonly shape: WindageShape;
  readonly name: string;
  readonly onShape: (shape: WindageShape) => void;
}) {
  const numbers = shape as unknown as Readonly<Record<string, number | undefined>>;
  const fields = [...asked[shape.kind], ["drag", "drag", "ratio"] as const];
  return (
    <fieldset className={styles.shapeFields}>
      <legend>
        {shape.kind === "part" ? (
          <input
            aria-label="What the part is"
            value={shape.name}
            maxLength={200}
            onChange={(event) => onShape({ ...shape, name: event.target.value || "part" })}
          />
        ) : (
          name
        )}
      </legend>
      {fields.map(([field, label, dimension]) => (
        <QuantityField
          key={field}
          field={
            dimension === "ratio"
              ? "drag"
              : small.has(field)
                ? "thickness"
                : dimension === "area"
                  ? "area"
                  : "boat length"
          }
          label={label}
          dimension={dimension}
          plain={dimension === "ratio"}
          value={numbers[field] ?? null}
          placeholder={mayBeMissing.has(field) ? "usual" : ""}
          range={
            dimension === "ratio"
              ? { above: 0, most: 5, expected: "a coefficient above 0, at most 5, is expected" }
              : { least: 0, most: 1e4, expected: "zero or more is expected" }
          }
          onChange={(value) => onShape({ ...shape, [field]: value } as WindageShape)}
          {...(mayBeMissing.has(field)
            ? {
                onEmpty: () => {
                  const { [field as "drag"]: _, ...rest } = shape as WindageShape & { drag?: number };
                  onShape(rest as WindageShape);
                },
              }
            : {})}
        />
      ))}
    </fieldset>
  );
}

function AreaFields({
  name,
  area,
  onArea,
}: {
  readonly name: string;
  readonly area: WindArea;
  readonly onArea: (area: WindArea) => void;
}) {
  return (
    <>
      <QuantityField
        field="area"
        label={`${name}: area`}
        dimension="area"
        value={area.area}
        range={{ least: 0, most: 1e5, expected: "zero or more is expected" }}
        onChange={(value) => onArea({ ...area, area: value })}
      />
      <QuantityField
        field="drag"
        plain
        label={`${name}: drag`}
        dimension="ratio"
        value={area.drag}
        range={{ above: 0, most: 5, expected: "a coefficient above 0, at most 5, is expected" }}
        onChange={(drag) => onArea({ ...area, drag })}
      />
      <QuantityField
        field="boat length"
        label={`${name}: middle`}
        dimension="length"
        value={area.height}
        range={{ least: 0, most: 300, expected: "a height of zero or more is expected" }}
        onChange={(height) => onArea({ ...area, height })}
      />
    </>
  );
}
