import { useMemo, useState } from "react";
import {
  Dialog,
  Heading,
  Input,
  Label,
  ListBox,
  ListBoxItem,
  Modal,
  ModalOverlay,
  SearchField,
} from "react-aria-components";
import { catalogue, type Row } from "../../gear/index.ts";
import { formatQuantity } from "../../quantity/index.ts";
import type { LinePart, Part, PointPart } from "../../rode/index.ts";
import { Button } from "../show/button.tsx";
import { Choice } from "../show/choice.tsx";
import { QuantityField } from "../show/quantity-field.tsx";
import { useUnits } from "../state/preferences.ts";
import styles from "./part-picker.module.css";
import { partOfRow } from "./parts.ts";

type Sort = "chain" | "rope" | "wire" | "point" | "weight" | "line";
export type Where = "anchor" | "bow" | "hung";

const sorts: readonly { readonly value: Sort; readonly label: string }[] = [
  { value: "chain", label: "chain" },
  { value: "rope", label: "rope" },
  { value: "wire", label: "wire" },
  { value: "point", label: "shackle, swivel" },
  { value: "weight", label: "weight" },
  { value: "line", label: "own line" },
];

/** Metres a line begins with: changed in the list. */
const FIRST_LENGTH = 10;

/** A part chosen from the catalogue, or described by its own figures. */
export function PartPicker({
  onPick,
  onClose,
}: {
  readonly onPick: (part: Part, where: Where) => void;
  readonly onClose: () => void;
}) {
  const [sort, setSort] = useState<Sort>("chain");
  const [where, setWhere] = useState<Where>("bow");
  return (
    <ModalOverlay
      className={styles.overlay ?? ""}
      isOpen
      isDismissable
      onOpenChange={(open) => {
        if (!open) onClose();
      }}
    >
      <Modal className={styles.modal ?? ""}>
        <Dialog className={styles.dialog ?? ""}>
          <div className={styles.head}>
            <Heading slot="title" level={2}>
              Add a part
            </Heading>
            <Button look="bare" aria-label="Close" onClick={onClose}>
              ✕
            </Button>
          </div>
          <Choice label="Sort" labelUnseen value={sort} options={sorts} onChange={setSort} />
          {sort === "weight" ? null : (
            <Choice
              label="Goes"
              value={where === "hung" ? "bow" : where}
              options={[
                { value: "anchor", label: "next to the anchor" },
                { value: "bow", label: "next to the bow" },
              ]}
              onChange={setWhere}
            />
          )}
          {sort === "weight" ? (
            <OwnWeight onPick={(part) => onPick(part, "hung")} />
          ) : sort === "line" ? (
            <OwnLine onPick={(part) => onPick(part, where)} />
          ) : (
            <Rows sort={sort} onPick={(row) => onPick(partOfRow(row, FIRST_LENGTH), where)} />
          )}
        </Dialog>
      </Modal>
    </ModalOverlay>
  );
}

function Rows({ sort, onPick }: { readonly sort: Row["kind"]; readonly onPick: (row: Row) => void }) {
  const [text, setText] = useState("");
  const { system, unitOf } = useUnits();
  const rows = useMemo(() => {
    const words = text.toLowerCase().split(/\s+/).filter(Boolean);
    return catalogue.rows.filter(
      (row) => row.kind === sort && words.every((word) => row.name.toLowerCase().includes(word)),
    );
  }, [sort, text]);
  const about = (row: Row): string => {
    const mass =
      row.kind === "point"
        ? formatQuantity(row.mass, "mass", { system, digits: 3 })
        : formatQuantity(row.massPerLength, "massPerLength", { system, digits: 3 });
    const limit =
      row.workingLoad === undefined
        ? ""
        : `, working load ${formatQuantity(row.workingLoad, "force", { system, unit: unitOf("load", "force"), digits: 3 })}`;
    return `${mass}${limit}`;
  };
  return (
    <>
      <SearchField className={styles.search ?? ""} value={text} onChange={setText} autoFocus>
        <Label className="unseen">Search the catalogue</Label>
        <Input className={styles.input ?? ""} placeholder="Search: 10 mm, 3/8 in, grade 43 …" />
      </SearchField>
      <ListBox
        className={styles.rows ?? ""}
        aria-label="Catalogue"
        items={rows.map((row) => ({ id: row.name, row }))}
        selectionMode="none"
        onAction={(key) => {
          const row = rows.find(({ name }) => name === key);
          if (row) onPick(row);
        }}
        renderEmptyState={() => (
          <p className={styles.empty}>Nothing of that name; your own figures may be given as an own line.</p>
        )}
      >
        {({ id, row }) => (
          <ListBoxItem id={id} className={styles.row ?? ""} textValue={row.name}>
            <span className={styles.name}>{row.name}</span>
            <span className={styles.about}>
              {about(row)}
              <span className={styles.basis}>{basisOf(row)}</span>
            </span>
          </ListBoxItem>
        )}
      </ListBox>
    </>
  );
}

/** How the figure that matters most was come by. */
function basisOf(row: Row): string {
  const figures = row.figures[row.kind === "point" ? "mass" : "massPerLength"];
  return figures?.[0]?.basis ?? "";
}

const METAL = 7850;

function OwnWeight({ onPick }: { readonly onPick: (part: PointPart) => void }) {
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

function OwnLine({ onPick }: { readonly onPick: (part: LinePart) => void }) {
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
