// A disk as a power cut leaves it.
//
// What is written to a file lasts once that file has been synced; until then each write may have reached the disk or
// not, whole or in some of its sectors, in any order. A name (made, changed or taken away) lasts once its folder has
// been synced; until then it may have or not, also before the bytes it stands for, but a rename is whole or not at all.
import type { Step } from "./trace.ts";

/** What becomes of what was not yet synced: of bytes, and of names. */
export interface Fate {
  readonly bytes: "lost" | "kept" | "some" | "torn 512" | "torn 4096";
  readonly names: "lost" | "kept" | "first" | "some";
}

export const BYTES: readonly Fate["bytes"][] = ["lost", "kept", "some", "torn 512", "torn 4096"];
export const NAMES: readonly Fate["names"][] = ["lost", "kept", "first", "some"];

interface Change {
  readonly step: number;
  readonly put?: { readonly offset: number; readonly bytes: Buffer };
  readonly size?: number;
}
interface File {
  readonly first: Buffer;
  readonly changes: Change[];
  readonly syncs: number[];
}
interface NameChange {
  readonly step: number;
  readonly folder: string;
  readonly drop?: string;
  /** A name and the file it stands for, or null for a folder. */
  readonly set?: readonly [string, File | null];
}

const folderOf = (path: string) => (path.includes("/") ? path.slice(0, path.lastIndexOf("/")) : "");

/** All that a recording did to a disk that held `before`, ready to be cut off at any step. */
export class Disk {
  readonly steps: number;
  private readonly before: ReadonlyMap<string, File | null>;
  private readonly files = new Set<File>();
  private readonly nameChanges: NameChange[] = [];
  private readonly folderSyncs = new Map<string, number[]>();
  private readonly said: { step: number; text: string }[] = [];

  private readonly recording: readonly [ReadonlyMap<string, Buffer | null>, readonly Step[]];

  constructor(before: ReadonlyMap<string, Buffer | null>, steps: readonly Step[]) {
    this.recording = [before, steps];
    this.steps = steps.length;
    const names = new Map<string, File | null>();
    const known = (bytes: Buffer): File => {
      const file: File = { first: bytes, changes: [], syncs: [] };
      this.files.add(file);
      return file;
    };
    for (const [path, bytes] of before) names.set(path, bytes === null ? null : known(bytes));
    this.before = new Map(names);
    const handles = new Map<number, File | string>();
    const change = (drop: string | undefined, set: NameChange["set"], step: number) => {
      const folder = folderOf(set?.[0] ?? drop!);
      if (drop !== undefined && set !== undefined && folderOf(drop) !== folder)
        throw new Error(`a rename between folders is not modelled: ${drop}`);
      if (drop !== undefined) names.delete(drop);
      if (set !== undefined) names.set(...set);
      this.nameChanges.push({
        step,
        folder,
        ...(drop === undefined ? {} : { drop }),
        ...(set === undefined ? {} : { set }),
      });
    };
    steps.forEach((step, i) => {
      switch (step.kind) {
        case "open": {
          if (step.folder) {
            handles.set(step.fd, step.path);
            return;
          }
          let file = names.get(step.path);
          if (!file) {
            file = known(Buffer.alloc(0));
            change(undefined, [step.path, file], i);
          }
          if (step.emptied) file.changes.push({ step: i, size: 0 });
          handles.set(step.fd, file);
          return;
        }
        case "write":
        case "truncate":
        case "sync": {
          const what = handles.get(step.fd);
          if (what === undefined) throw new Error(`a handle never opened: ${step.fd}`);
          if (typeof what === "string") {
            const syncs = this.folderSyncs.get(what) ?? [];
            syncs.push(i);
            this.folderSyncs.set(what, syncs);
          } else if (step.kind === "sync") what.syncs.push(i);
          else if (step.kind === "write") what.changes.push({ step: i, put: step });
          else what.changes.push({ step: i, size: step.size });
          return;
        }
        case "rename":
          change(step.from, [step.to, names.get(step.from) ?? null], i);
          return;
        case "link":
          change(undefined, [step.to, names.get(step.from) ?? null], i);
          return;
        case "unlink":
          change(step.path, undefined, i);
          return;
        case "mkdir":
          change(undefined, [step.path, null], i);
          return;
        case "say":
          if (step.text !== "") this.said.push({ step: i, text: step.text });
      }
    });
  }

  /** The same on a disk that says it has synced and has not. */
  withoutSyncs(): Disk {
    const [before, steps] = this.recording;
    // A sync that does nothing keeps its place, so that steps stay what they are.
    return new Disk(
      before,
      steps.map((step) => (step.kind === "sync" ? { kind: "say", text: "" } : step)),
    );
  }

  /** Lines told before a step; a line cut short was not told. */
  toldBefore(step: number): string[] {
    const text = this.said
      .filter((said) => said.step < step)
      .map((said) => said.text)
      .join("");
    return text.split("\n").slice(0, -1);
  }

  /** The steps at which a line was told. */
  get tellings(): readonly number[] {
    return this.said.map((said) => said.step);
  }

  /** The steps at which a name was made, changed or taken away. */
  get namings(): readonly number[] {
    return this.nameChanges.map((change) => change.step);
  }

  /** The disk after a power cut just before `step`; null stands for a folder. `draw` gives numbers from 0 to 1. */
  cutBefore(step: number, fate: Fate, draw: () => number): Map<string, Buffer | null> {
    const names = new Map(this.before);
    const pending = this.nameChanges.filter((c) => c.step < step && !this.isNameDurable(c, step));
    const first = Math.floor(draw() * (pending.length + 1));
    const lasting = new Set(
      pending.filter((_, i) =>
        fate.names === "some" ? draw() < 0.5 : fate.names === "first" ? i < first : fate.names === "kept",
      ),
    );
    for (const c of this.nameChanges) {
      if (c.step >= step || (pending.includes(c) && !lasting.has(c))) continue;
      if (c.drop !== undefined) names.delete(c.drop);
      if (c.set !== undefined) names.set(...c.set);
    }
    const contents = new Map<File, Buffer>();
    const left = new Map<string, Buffer | null>();
    for (const [path, file] of [...names].sort(([a], [b]) => (a < b ? -1 : 1))) {
      // A folder that is not there has nothing in it.
      if (folderOf(path) !== "" && !left.has(folderOf(path))) continue;
      // The index of the write-ahead log is shared memory, remade by whoever opens the book.
      if (path.endsWith("-shm")) continue;
      if (file !== null && !contents.has(file)) contents.set(file, bytesAt(file, step, fate.bytes, draw));
      left.set(path, file === null ? null : contents.get(file)!);
    }
    return left;
  }

  private isNameDurable(change: NameChange, step: number): boolean {
    return (this.folderSyncs.get(change.folder) ?? []).some((sync) => sync > change.step && sync < step);
  }
}

function bytesAt(file: File, step: number, fate: Fate["bytes"], draw: () => number): Buffer {
  const lastSync = file.syncs.filter((sync) => sync < step).at(-1) ?? -1;
  let bytes = Buffer.from(file.first);
  const grow = (size: number) => {
    if (size > bytes.length) bytes = Buffer.concat([bytes, Buffer.alloc(size - bytes.length)]);
  };
  for (const change of file.changes) {
    if (change.step >= step) break;
    const lasting = change.step < lastSync;
    if (!lasting && (fate === "lost" || (fate !== "kept" && draw() < 0.5 && change.size !== undefined))) continue;
    if (change.size !== undefined) {
      if (change.size < bytes.length) bytes = Buffer.from(bytes.subarray(0, change.size));
      else grow(change.size);
      continue;
    }
    const { offset, bytes: put } = change.put!;
    if (lasting || fate === "kept") {
      grow(offset + put.length);
      put.copy(bytes, offset);
      continue;
    }
    // Half of the writes in doubt are lost whole, so that later ones are found without earlier ones.
    if (draw() < 0.5) continue;
    const sector = fate === "torn 512" ? 512 : fate === "torn 4096" ? 4096 : Number.POSITIVE_INFINITY;
    for (let from = offset; from < offset + put.length; ) {
      const to = Math.min(offset + put.length, (Math.floor(from / sector) + 1) * sector || offset + put.length);
      if (sector === Number.POSITIVE_INFINITY || draw() < 0.5) {
        grow(to);
        put.copy(bytes, from, from - offset, to - offset);
      }
      from = to;
    }
  }
  return bytes;
}
