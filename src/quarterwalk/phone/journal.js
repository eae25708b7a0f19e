/** Entries of the journal: what happened, once, for good. */

/** Version of the entry format. */
export const VERSION = 1;

/** Bytes that one entry may have. */
export const MOST_BYTES = 16384;

/**
 * @typedef {object} Said what an act wants written; the store adds the number
 * @property {string} device
 * @property {string} by who is walking
 * @property {string} at wall time
 * @property {number} tick [ms]
 * @property {string} [walk] key of the entry that opened the walk
 * @property {string} kind
 * @property {object} body
 *
 * @typedef {Said & {v: number, seq: number}} Entry
 */

/** The key of an entry, which is also the id of the walk that it opens. */
export const keyOf = ({ device, seq }) => `${device}-${seq}`;

/**
 * Give an entry its number. One that opens a walk carries its own key.
 * @param {Said} said
 * @param {number} seq
 * @returns {Entry}
 */
export function numbered(said, seq) {
  const { device, at, tick, by, kind, body } = said;
  const walk = kind === 'walk-opened' ? keyOf({ device, seq }) : said.walk;
  return { v: VERSION, device, seq, at, tick, by, ...(walk ? { walk } : {}), kind, body };
}

/** Write an entry as its line: the bytes that are kept, sent and saved. */
export function lineOf(entry) {
  const line = JSON.stringify(entry);
  const bytes = new TextEncoder().encode(line).length;
  if (bytes > MOST_BYTES) throw new RangeError(`an entry may have ${MOST_BYTES} bytes, got ${bytes}`);
  return line;
}
