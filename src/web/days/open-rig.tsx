import { useState } from "react";
import { Button } from "../controls/button.tsx";
import { rigCodec } from "../rig/address.ts";
import { rigStore } from "../rig/store.ts";
import { stringifySearch } from "../state/address.ts";
import { goTo } from "../state/location.ts";
import styles from "./place.module.css";

/** Puts a rig file of the book on the bench, and goes there. */
export function OpenRig({ file }: { readonly file: string }) {
  const [wrong, setWrong] = useState<string | null>(null);
  const open = async (): Promise<void> => {
    const { readRigText } = await import("../rig/files.ts");
    const read = readRigText(file, "rig file");
    if (read.kind === "refused") {
      setWrong(read.line);
      return;
    }
    // By its address: what the device kept of Rig does not come before it.
    goTo("/rig", stringifySearch(rigCodec.write({ ...rigStore.get(), rig: read.rig, over: null })));
  };
  return (
    <>
      <Button onClick={() => void open()}>Open in Rig</Button>
      {wrong !== null && (
        <p className={styles.wrong} role="alert">
          {wrong}
        </p>
      )}
    </>
  );
}
