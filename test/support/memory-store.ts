/** A browser's IndexedDB held in memory: as much of it as the bench asks for. A change is there once its transaction is through. */

interface Asked<T> {
  result: T;
  error: Error | null;
  onsuccess?: () => void;
  onerror?: () => void;
}

/** What a test sees of the store, and makes go wrong. */
export interface MemoryStore {
  readonly shelves: Map<string, Map<string, unknown>>;
  /** What opening was asked with. */
  readonly opened: { name: string; version: number }[];
  /** How durable each write was asked to be. */
  readonly durability: (string | undefined)[];
  /** The next writes end so, until null again. */
  fails: "abort" | "error" | null;
  /** Opening ends so. */
  opens: "well" | "error" | "blocked" | "never";
  /** Another window wants a newer database. */
  changeVersion(): void;
  closed: number;
}

/** @param put puts it, by name, where the browser has its own */
export function memoryStore(put: (name: string, value: unknown) => void): MemoryStore {
  let database: { onversionchange?: () => void } | undefined;
  const store: MemoryStore = {
    shelves: new Map(),
    opened: [],
    durability: [],
    fails: null,
    opens: "well",
    changeVersion: () => database?.onversionchange?.(),
    closed: 0,
  };
  const asked = <T>(answer: () => T): Asked<T> => {
    const request: Asked<T> = { result: undefined as T, error: null };
    setTimeout(() => {
      request.result = answer();
      request.onsuccess?.();
    });
    return request;
  };
  const within = (name: string, begin?: Range) =>
    [...store.shelves.get(name)!]
      .filter(([key]) => begin === undefined || (key >= begin.from && key <= begin.to))
      .sort(([a], [b]) => (a < b ? -1 : 1));
  const transaction = (name: string, mode?: string, options?: { durability?: string }) => {
    const changes: (() => void)[] = [];
    const own: { error: Error | null; oncomplete?: () => void; onabort?: () => void; onerror?: () => void } = {
      error: null,
    };
    if (mode === "readwrite") {
      store.durability.push(options?.durability);
      setTimeout(() => {
        if (store.fails === "abort") return own.onabort?.();
        if (store.fails === "error") return own.onerror?.();
        for (const change of changes) change();
        own.oncomplete?.();
      }, 1);
    }
    return Object.assign(own, {
      objectStore: (of: string) => {
        if (of !== name) throw new Error(`${of} is not in this transaction`);
        return {
          get: (key: string) => asked(() => structuredClone(store.shelves.get(name)!.get(key))),
          getAll: (begin?: Range) => asked(() => within(name, begin).map(([, value]) => structuredClone(value))),
          getAllKeys: () => asked(() => within(name).map(([key]) => key)),
          put: (value: unknown, key: string) => {
            const copy = structuredClone(value);
            changes.push(() => store.shelves.get(name)!.set(key, copy));
          },
          delete: (key: string | Range) =>
            changes.push(() => {
              if (typeof key === "string") store.shelves.get(name)!.delete(key);
              else for (const [one] of within(name, key)) store.shelves.get(name)!.delete(one);
            }),
        };
      },
    });
  };
  put("IDBKeyRange", { bound: (from: string, to: string): Range => ({ from, to }) });
  put("indexedDB", {
    open: (name: string, version: number) => {
      store.opened.push({ name, version });
      const request = { result: undefined as unknown, error: null, ...ends };
      const found: object = {
        objectStoreNames: { contains: (shelf: string) => store.shelves.has(shelf) },
        createObjectStore: (shelf: string) => {
          if (store.shelves.has(shelf)) throw new Error(`${shelf} is there already`);
          store.shelves.set(shelf, new Map());
        },
        transaction,
        close: () => void store.closed++,
      };
      setTimeout(() => {
        if (store.opens === "never") return;
        if (store.opens === "error") return request.onerror?.();
        if (store.opens === "blocked") return request.onblocked?.();
        request.result = found;
        database = found as typeof database;
        request.onupgradeneeded?.();
        request.onsuccess?.();
      });
      return request;
    },
  });
  return store;
}

interface Range {
  readonly from: string;
  readonly to: string;
}
const ends: {
  onupgradeneeded?: () => void;
  onsuccess?: () => void;
  onerror?: () => void;
  onblocked?: () => void;
} = {};
