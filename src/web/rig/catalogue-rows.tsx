import { useMemo, useState } from "react";
import { Input, Label, ListBox, ListBoxItem, SearchField } from "react-aria-components";
import { catalogue, type Row } from "../../gear/index.ts";
import { formatQuantity } from "../controls/numbers.ts";
import { useUnits } from "../state/preferences.ts";
import styles from "./part-picker.module.css";

/** The rows of the catalogue of one sort, searched by words. */
export function CatalogueRows({ sort, onPick }: { readonly sort: Row["kind"]; readonly onPick: (row: Row) => void }) {
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
