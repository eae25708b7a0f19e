/** Handing a walk to another phone: a link that its camera reads from this screen. */
import { encode } from './vendor/uqr.js';

const MARK = '#take=';
const WALK = /^[0-9a-hjkmnp-tv-z]{12}-[1-9][0-9]*$/;
const ID = /^[0-9a-hjkmnp-tv-z]{8}$/;
const HASH = /^[0-9a-f]{64}$/;
const SUMS = 8;
const QUADRANTS = new Set(['NW', 'NE', 'SW', 'SE']);

const isCount = (number) => Number.isInteger(number) && number >= 0;
const isDone = (told) => isCount(told) || (Array.isArray(told) && told.length === 2 && told.every(isCount));

/** @typedef {import('./fold.js').Begun} Begun */

const told = ({ checked, next }) => (next === checked + 1 ? checked : [checked, next]);

/** Tell another phone what it needs to go on. @returns {Begun} */
export function begunBy(walk, from) {
  const { id, field, cardHash, counts, stops, sums, noted } = walk;
  return {
    walk: id,
    field,
    card: cardHash,
    from,
    entries: counts,
    done: Object.fromEntries([...stops].map(([stop, at]) => [stop, told(at)])),
    sums: Object.values(sums),
    noted: [...noted],
  };
}

/** Write the link. @param {Begun} begun @param {string} page address of the phone page */
export function linkTo(begun, page) {
  const bytes = new TextEncoder().encode(JSON.stringify(begun));
  const text = btoa(String.fromCharCode(...bytes));
  return page + MARK + text.replaceAll('+', '-').replaceAll('/', '_').replaceAll('=', '');
}

/**
 * Read the part of a link after its address.
 * @param {string} hash
 * @returns {Begun|null} nothing where it is no such link, or a cut one
 */
export function readLink(hash) {
  if (!hash.startsWith(MARK)) return null;
  try {
    const text = atob(hash.slice(MARK.length).replaceAll('-', '+').replaceAll('_', '/'));
    const bytes = Uint8Array.from(text, (letter) => letter.charCodeAt(0));
    const begun = JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes));
    return isBegun(begun) ? begun : null;
  } catch {
    return null;
  }
}

function isBegun(begun) {
  if (begun === null || typeof begun !== 'object') return false;
  const { walk, field, card, from, entries, done, sums, noted } = begun;
  return (
    WALK.test(walk) &&
    ID.test(field) &&
    (card === null || HASH.test(card)) &&
    typeof from === 'string' &&
    Object.values(entries).every(isCount) &&
    Object.values(done).every(isDone) &&
    Array.isArray(sums) &&
    sums.length === SUMS &&
    sums.every(isCount) &&
    Array.isArray(noted) &&
    noted.every((each) => QUADRANTS.has(each))
  );
}

/** Draw the link as a code of dark and light squares, without its margin. */
export function codeFor(link) {
  const { size, data } = encode(link, { ecc: 'L', border: 0 });
  return { size, rows: data };
}
