/**
 * What is kept on this device, in IndexedDB: the state of each place (`states`), what was written offline (`outbox`)
 * and readings of instruments on deck (`readings`).
 * A browser that keeps nothing (private windows of some) is no error: the bench then forgets when it is closed.
 */

const NAME = "rodebench";
const VERSION = 2;
const SHELVES = ["states", "outbox", "readings"] as const;
export type Shelf = (typeof SHELVES)[number];

let opening: Promise<IDBDatabase> | undefined;

function open(): Promise<IDBDatabase> {
  opening ??= new Promise((done, fail) => {
    const request = indexedDB.open(NAME, VERSION);
    request.onupgradeneeded = () => {
      for (const shelf of SHELVES)
        if (!request.result.objectStoreNames.contains(shelf)) request.result.createObjectStore(shelf);
    };
    request.onsuccess = () => {
      // Another window with a newer bench may ask for the database: it is let go, and opened again when needed.
      request.result.onversionchange = () => {
        request.result.close();
        opening = undefined;
      };
      done(request.result);
    };
    request.onerror = () => fail(request.error ?? new Error("this device keeps nothing"));
    request.onblocked = () => fail(new Error("another window of the bench holds the device's store"));
  });
  return opening;
}

function answered<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((done, fail) => {
    request.onsuccess = () => done(request.result);
    request.onerror = () => fail(request.error ?? new Error("the device's store failed"));
  });
}

/** Resolves when the device has the change for good, not when it was asked. */
async function write(shelf: Shelf, act: (store: IDBObjectStore) => void): Promise<void> {
  const transaction = (await open()).transaction(shelf, "readwrite", { durability: "strict" });
  act(transaction.objectStore(shelf));
  await new Promise<void>((done, fail) => {
    transaction.oncomplete = () => done();
    transaction.onabort = () => fail(transaction.error ?? new Error("the device's store is full"));
    transaction.onerror = () => fail(transaction.error ?? new Error("the device's store failed"));
  });
}

const kept = new Map<string, unknown>();
/** Longer than any device takes to read a few kilobytes; one that does not answer keeps nobody waiting. */
const PATIENCE = 800;

/** Reads the states of the places before the first drawing, so that none shows something else for a moment. */
export async function readKept(): Promise<void> {
  const reading = (async () => {
    const store = (await open()).transaction("states").objectStore("states");
    const [keys, values] = await Promise.all([answered(store.getAllKeys()), answered(store.getAll())]);
    for (const [i, key] of keys.entries()) kept.set(String(key), values[i]);
  })();
  await Promise.race([reading.catch(() => undefined), new Promise((done) => setTimeout(done, PATIENCE))]);
  read = true;
}

let read = false;
/** Whether what this device kept was read, or given up: before, nothing can be said of it. */
export const keptIsRead = (): boolean => read;

/** What this device kept under a name when the bench was opened. */
export const keptState = (name: string): unknown => kept.get(name);

const beginning = (text: string) => IDBKeyRange.bound(text, `${text}\uffff`);

export const device = {
  async get(shelf: Shelf, key: string): Promise<unknown> {
    return answered((await open()).transaction(shelf).objectStore(shelf).get(key));
  },
  async all(shelf: Shelf): Promise<unknown[]> {
    return answered((await open()).transaction(shelf).objectStore(shelf).getAll());
  },
  /** All whose name begins so, in the order of their names. */
  async from(shelf: Shelf, begin: string): Promise<unknown[]> {
    return answered((await open()).transaction(shelf).objectStore(shelf).getAll(beginning(begin)));
  },
  removeFrom: (shelf: Shelf, begin: string): Promise<void> => write(shelf, (store) => store.delete(beginning(begin))),
  put: (shelf: Shelf, key: string, value: unknown): Promise<void> => write(shelf, (store) => store.put(value, key)),
  remove: (shelf: Shelf, key: string): Promise<void> => write(shelf, (store) => store.delete(key)),
};
