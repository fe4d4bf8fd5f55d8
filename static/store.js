// What this phone keeps by itself: entries that wait, what is being typed, what was sent, tares of bags. IndexedDB by hand:
// five lines need no library.

const STORES = { entries: "id", drafts: "key", sent: "id", bags: "key" };

const opened = () => new Promise((resolve, reject) => {
  const asked = indexedDB.open("sowmark", 1);
  asked.onupgradeneeded = () => {
    for (const [name, keyPath] of Object.entries(STORES)) asked.result.createObjectStore(name, { keyPath });
  };
  asked.onsuccess = () => resolve(asked.result);
  asked.onerror = () => reject(asked.error);
  asked.onblocked = () => reject(new Error("blocked"));
});

async function run(name, mode, act) {
  const db = await opened();
  try {
    return await new Promise((resolve, reject) => {
      // "strict": told as kept only when it is on the disk, not when the operating system has it.
      const work = db.transaction(name, mode, { durability: "strict" });
      const asked = act(work.objectStore(name));
      work.oncomplete = () => resolve(asked.result);
      work.onabort = work.onerror = () => reject(work.error ?? asked.error);
    });
  } finally {
    db.close();
  }
}

export const put = (name, item) => run(name, "readwrite", (store) => store.put(item));
export const take = (name, key) => run(name, "readonly", (store) => store.get(key));
/** Changes what is kept under a key in one go, unless `act` says nothing: what another tab does meanwhile is not lost. */
export const change = (name, key, act) => run(name, "readwrite", (store) => {
  const asked = store.get(key);
  asked.onsuccess = () => {
    const changed = asked.result && act(asked.result);
    if (changed) store.put(changed);
  };
  return asked;
});
export const all = (name) => run(name, "readonly", (store) => store.getAll());
export const drop = (name, key) => run(name, "readwrite", (store) => store.delete(key));
