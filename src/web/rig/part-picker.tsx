import { useState } from "react";
import { Dialog, Heading, Modal, ModalOverlay } from "react-aria-components";
import type { Part } from "../../rode/index.ts";
import { Button } from "../controls/button.tsx";
import { Choice } from "../controls/choice.tsx";
import { CatalogueRows } from "./catalogue-rows.tsx";
import { OwnLine } from "./own-line.tsx";
import { OwnWeight } from "./own-weight.tsx";
import styles from "./part-picker.module.css";
import { FIRST_LENGTH, partOfRow } from "./parts.ts";

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
            <CatalogueRows sort={sort} onPick={(row) => onPick(partOfRow(row, FIRST_LENGTH), where)} />
          )}
        </Dialog>
      </Modal>
    </ModalOverlay>
  );
}
