/** The browser's own database: file handles to come back to, and unsaved work. One promise a request. */

const NAME = "loomwright";
const STORES = ["recent", "recovery"] as const;
export type Store = (typeof STORES)[number];

function answer<Value>(request: IDBRequest<Value>): Promise<Value> {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error ?? new Error("The browser's database gave no answer."));
  });
}

let opening: Promise<IDBDatabase> | undefined;

function database(): Promise<IDBDatabase> {
  opening ??= (() => {
    const request = indexedDB.open(NAME, 1);
    request.onupgradeneeded = () => {
      for (const store of STORES) request.result.createObjectStore(store);
    };
    return answer(request);
  })();
  return opening;
}

async function within<Value>(
  store: Store,
  mode: IDBTransactionMode,
  step: (objects: IDBObjectStore) => IDBRequest<Value>,
): Promise<Value> {
  const transaction = (await database()).transaction(store, mode);
  return answer(step(transaction.objectStore(store)));
}

export async function put(store: Store, key: string, value: unknown): Promise<void> {
  await within(store, "readwrite", (objects) => objects.put(value, key));
}

export async function drop(store: Store, key: string): Promise<void> {
  await within(store, "readwrite", (objects) => objects.delete(key));
}

export const get = (store: Store, key: string): Promise<unknown> =>
  within<unknown>(store, "readonly", (objects) => objects.get(key));

export const all = (store: Store): Promise<readonly unknown[]> =>
  within<unknown[]>(store, "readonly", (objects) => objects.getAll());
