import { type ReactNode, useEffect, useRef, useState } from "react";
import { riseOf } from "../../rode/index.ts";
import { announce } from "../controls/announce.ts";
import { Button } from "../controls/button.tsx";
import { NameField } from "../controls/name-field.tsx";
import { saveYaml } from "../controls/save-file.ts";
import { useStore } from "../state/use-store.ts";
import styles from "./rig-files.module.css";
import { rigStore } from "./store.ts";

const LARGEST = 1_000_000;

/** Rig files in and out: chosen, dropped on the place or pasted; saved as YAML. */
export function RigFiles({ children }: { readonly children: ReactNode }) {
  const { rig } = useStore(rigStore);
  const [wrong, setWrong] = useState<string | null>(null);
  const [over, setOver] = useState(false);
  const input = useRef<HTMLInputElement>(null);

  const open = async (text: string, place: string) => {
    const { readRigText } = await import("./files.ts");
    const read = readRigText(text, place);
    if (read.kind === "refused") {
      setWrong(read.line);
      return;
    }
    setWrong(null);
    const state = rigStore.get();
    rigStore.set(
      { ...state, rig: read.rig, over: state.over === null ? null : riseOf(read.rig.setting) },
      { label: `open ${place}` },
    );
    announce(`${read.rig.name} is on the bench.`);
  };
  const openFile = async (file: File | undefined) => {
    if (file === undefined) return;
    if (file.size > LARGEST) setWrong(`${file.name}: ${file.size} bytes; a rig file of at most 1 MB is expected`);
    else await open(await file.text(), file.name);
  };

  const paste = useRef(open);
  paste.current = open;
  useEffect(() => {
    const pasted = (event: ClipboardEvent) => {
      const target = event.target as HTMLElement | null;
      if (target?.closest("input, textarea, select")) return;
      const text = event.clipboardData?.getData("text/plain") ?? "";
      if (/rodebench\/rig@/.test(text)) void paste.current(text, "pasted text");
    };
    document.addEventListener("paste", pasted);
    return () => document.removeEventListener("paste", pasted);
  }, []);

  const save = async () => {
    const { writeRigText } = await import("./files.ts");
    saveYaml(writeRigText(rig), rig.name, "rig");
  };

  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: files may also be chosen by a button or pasted
    <div
      className={styles.files}
      data-over={over || undefined}
      onDragOver={(event) => {
        if (!event.dataTransfer.types.includes("Files")) return;
        event.preventDefault();
        setOver(true);
      }}
      onDragLeave={(event) => {
        if (!event.currentTarget.contains(event.relatedTarget as Node | null)) setOver(false);
      }}
      onDrop={(event) => {
        if (!event.dataTransfer.types.includes("Files")) return;
        event.preventDefault();
        setOver(false);
        void openFile(event.dataTransfer.files[0]);
      }}
    >
      <div className={styles.head}>
        <NameField
          label="Name of the rig"
          value={rig.name}
          onChange={(name) => {
            const state = rigStore.get();
            rigStore.set(
              { ...state, rig: { ...state.rig, name: name === "" ? "rig" : name } },
              { label: "name", stroke: "name" },
            );
          }}
        />
        <input
          ref={input}
          className="unseen"
          type="file"
          tabIndex={-1}
          aria-hidden="true"
          accept=".yaml,.yml,.json,application/yaml,application/json"
          onChange={(event) => {
            void openFile(event.target.files?.[0]);
            event.target.value = "";
          }}
        />
        <Button
          onClick={() => input.current?.click()}
          title="A rig file, .yaml or .json; it may also be dropped here or pasted"
        >
          Open…
        </Button>
        <Button onClick={() => void save()} title="As a rig file, .yaml">
          Save
        </Button>
      </div>
      {wrong !== null && (
        <p className={styles.wrong} role="alert">
          {wrong}{" "}
          <Button look="bare" onClick={() => setWrong(null)}>
            Close
          </Button>
        </p>
      )}
      {children}
      {over && <p className={styles.drop}>Drop a rig file here</p>}
    </div>
  );
}
