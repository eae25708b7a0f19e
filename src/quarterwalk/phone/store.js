/** What this phone keeps: the journal, the cards, and a few single things, in IndexedDB. */
import { openDB } from './vendor/idb.js';
import { lineOf, numbered } from './journal.js';

const NAME = 'quarterwalk';
const VERSION = 1;
const STRICT = { durability: 'strict' };

/** What ends the plant that was being looked at. */
const ENDS_PLANT = new Set(['plant-checked', 'plant-skipped', 'struck']);

/**
 * @typedef {object} Record an entry as it is kept
 * @property {string} device
 * @property {number} seq
 * @property {string} [walk]
 * @property {string} line its bytes as they were written
 * @property {1} [unsent] there until the office has answered
 * @property {string} [answer]
 * @property {string} [why]
 * @property {number} [answeredAt] [ms]
 */

function made(db) {
  const entries = db.createObjectStore('entries', { keyPath: ['device', 'seq'] });
  entries.createIndex('unsent', 'unsent');
  db.createObjectStore('cards');
  db.createObjectStore('meta');
  db.createObjectStore('draft');
}

/** Find the number of a device's last entry; 0 where it has none. */
async function lastSeq(entries, device) {
  const all = IDBKeyRange.bound([device, 0], [device, Infinity]);
  const cursor = await entries.openKeyCursor(all, 'prev');
  return cursor ? cursor.key[1] : 0;
}

/**
 * Write an entry: number it and keep it in one transaction, and be done only when that is on disk.
 * @param {import('./vendor/idb.js').IDBPDatabase} db
 * @param {import('./journal.js').Said} said
 * @returns {Promise<Record>}
 */
async function append(db, said) {
  const tx = db.transaction(['entries', 'draft'], 'readwrite', STRICT);
  const entries = tx.objectStore('entries');
  const written = (async () => {
    const entry = numbered(said, (await lastSeq(entries, said.device)) + 1);
    const { device, seq, walk } = entry;
    const record = { device, seq, line: lineOf(entry), unsent: 1, ...(walk ? { walk } : {}) };
    await entries.add(record);
    if (ENDS_PLANT.has(said.kind)) await tx.objectStore('draft').delete('plant');
    return record;
  })();
  const [record] = await Promise.all([written, tx.done]);
  return record;
}

/** Keep what the office answered. */
async function answer(db, answers, answeredAt) {
  const tx = db.transaction('entries', 'readwrite', STRICT);
  for (const { device, seq, ...said } of answers) {
    const { unsent, ...record } = (await tx.store.get([device, seq])) ?? {};
    if (record.line) await tx.store.put({ ...record, ...said, answeredAt });
  }
  await tx.done;
}

async function removed(db, keys) {
  const tx = db.transaction('entries', 'readwrite');
  await Promise.all([...keys.map((key) => tx.store.delete(key)), tx.done]);
}

/** Keep single things together: all of them, or none. */
async function writeMeta(db, named) {
  const tx = db.transaction('meta', 'readwrite', STRICT);
  const puts = Object.entries(named).map(([key, value]) => tx.store.put(value, key));
  await Promise.all([...puts, tx.done]);
}

/** Read every record of a store that has its keys beside it. */
async function named(db, store) {
  const tx = db.transaction(store);
  const [keys, values] = await Promise.all([tx.store.getAllKeys(), tx.store.getAll(), tx.done]);
  return Object.fromEntries(keys.map((key, i) => [key, values[i]]));
}

async function emptied(db) {
  const stores = [...db.objectStoreNames];
  const tx = db.transaction(stores, 'readwrite', STRICT);
  await Promise.all([...stores.map((name) => tx.objectStore(name).clear()), tx.done]);
}

/**
 * Open the store.
 * @param {object} told
 * @param {() => void} told.superseded a window with a later form of the store wants in
 * @param {() => void} told.lost the browser has shut the store
 */
export async function openStore({ superseded, lost }) {
  const db = await openDB(NAME, VERSION, {
    upgrade: made,
    blocking: (_from, _to, event) => {
      event.target.close();
      superseded();
    },
    terminated: lost,
  });
  return {
    append: (said) => append(db, said),
    records: () => db.getAll('entries'),
    unsent: () => db.getAllFromIndex('entries', 'unsent'),
    answer: (answers, at) => answer(db, answers, at),
    purge: (keys) => removed(db, keys),
    meta: () => named(db, 'meta'),
    writeMeta: (values) => writeMeta(db, values),
    cards: () => named(db, 'cards'),
    putCard: (hash, text) => db.put('cards', text, hash),
    dropCard: (hash) => db.delete('cards', hash),
    draft: () => db.get('draft', 'plant'),
    putDraft: (plant) => db.put('draft', plant, 'plant'),
    empty: () => emptied(db),
  };
}
